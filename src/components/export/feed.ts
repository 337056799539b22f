import { Feed } from 'feed';
import type { Shop } from '../../schema/collections.ts';
import type { Sheet } from '../../sheet/sheet.ts';
import { fullAddress } from '../address.ts';
import { sheetEvents, type SheetEvent } from './dates.ts';

/** Most entries that a feed holds. */
const MOST = 50;

const noon = (day: string) => new Date(`${day}T12:00:00Z`);

/** Changes that are told in full; the sheet has them all. */
const TOLD = 12;

function describe({ sheet, note, changes }: SheetEvent): string {
  if (changes.length === 0) return `${note} ${sheet.bait.summary} ${sheet.verdicts.cold.sentence}`;
  const told = changes.slice(0, TOLD).map(({ label, from, to }) => `${label}: ${to}, before ${from}`);
  const rest = changes.length > TOLD ? `; and ${changes.length - TOLD} more` : '';
  return `${note} ${told.join('; ')}${rest}.`;
}

/** What an entry is about, in a word or two. */
function headline({ kind, safety }: SheetEvent): string {
  if (kind === 'new') return 'New';
  return safety ? 'Revised, figures of safety among them' : 'Revised';
}

/** Plain text for Atom, where the writer of the feed declares titles and summaries to be HTML. */
const asHtml = (text: string) =>
  text.replaceAll('&', '&amp;').replaceAll('<', '&lt;').replaceAll('>', '&gt;');

/** New and revised sheets as a feed, for Atom or for JSON Feed. */
export function sheetFeed(shop: Shop, sheets: readonly Sheet[], form: 'atom' | 'json'): Feed {
  const text = form === 'atom' ? asHtml : (plain: string) => plain;
  const events = sheetEvents(sheets);
  const at = (path: string) => fullAddress(path, shop.site);
  const feed = new Feed({
    id: at(''),
    link: at(''),
    title: `${shop.name}: new and revised sheets`,
    description: shop.tagline ?? shop.name,
    language: 'en',
    copyright: shop.name,
    generator: 'Partline',
    updated: noon(events[0]?.date ?? '2000-01-01'),
    feedLinks: { atom: at('feed.xml'), json: at('feed.json') },
    author: { name: shop.name },
  });
  for (const event of events.slice(0, MOST)) {
    const { sheet, kind, date } = event;
    const link = at(`molds/${sheet.id}/`);
    feed.addItem({
      id: `${link}#${kind}-${date}`,
      link,
      title: text(`${headline(event)}: ${sheet.title} (${sheet.mold.stock})`),
      description: text(describe(event)),
      date: noon(date),
      published: noon(date),
    });
  }
  return feed;
}
