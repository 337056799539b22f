import type { Shop } from '../../schema/collections.ts';
import type { Brief } from '../../sheet/brief.ts';
import { fullAddress } from '../address.ts';
import { sheetEvents, type SheetEvent } from './dates.ts';

/** Most entries that a feed holds. */
const MOST = 50;

/** A day of the catalogue as a point in time that is that day nearly everywhere. */
const noon = (day: string) => `${day}T12:00:00Z`;

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

/** One entry of a feed; titles and summaries are plain text. */
interface Item {
  readonly id: string;
  readonly link: string;
  readonly title: string;
  readonly summary: string;
  readonly date: string;
}

function itemsOf(shop: Shop, sheets: readonly Brief[]): Item[] {
  return sheetEvents(sheets)
    .slice(0, MOST)
    .map((event) => {
      const { sheet, kind, date } = event;
      const link = fullAddress(`molds/${sheet.id}/`, shop.site);
      return {
        id: `${link}#${kind}-${date}`,
        link,
        title: `${headline(event)}: ${sheet.title} (${sheet.mold.stock})`,
        summary: describe(event),
        date: noon(date),
      };
    });
}

const titleOf = (shop: Shop) => `${shop.name}: new and revised sheets`;

const ENTITIES: Readonly<Record<string, string>> = { '&': '&amp;', '<': '&lt;', '>': '&gt;', '"': '&quot;' };
const escaped = (text: string) => text.replace(/[&<>"]/gu, (sign) => ENTITIES[sign] ?? '');

/** New and revised sheets as an Atom feed, RFC 4287; every text in it is plain text. */
export function atomFeed(shop: Shop, sheets: readonly Brief[]): string {
  const home = fullAddress('', shop.site);
  const items = itemsOf(shop, sheets);
  const entries = items.map(
    ({ id, link, title, summary, date }) => `  <entry>
    <id>${escaped(id)}</id>
    <title>${escaped(title)}</title>
    <link href="${escaped(link)}"/>
    <published>${date}</published>
    <updated>${date}</updated>
    <summary>${escaped(summary)}</summary>
  </entry>`,
  );
  return `<?xml version="1.0" encoding="utf-8"?>
<feed xmlns="http://www.w3.org/2005/Atom" xml:lang="en">
  <id>${escaped(home)}</id>
  <title>${escaped(titleOf(shop))}</title>
  <subtitle>${escaped(shop.tagline ?? shop.name)}</subtitle>
  <updated>${items[0]?.date ?? noon('2000-01-01')}</updated>
  <generator>Partline</generator>
  <author><name>${escaped(shop.name)}</name></author>
  <rights>${escaped(shop.name)}</rights>
  <link rel="alternate" href="${escaped(home)}"/>
  <link rel="self" href="${escaped(fullAddress('feed.xml', shop.site))}"/>
${entries.join('\n')}
</feed>
`;
}

/** The same as a JSON Feed, version 1.1. */
export function jsonFeed(shop: Shop, sheets: readonly Brief[]): string {
  const feed = {
    version: 'https://jsonfeed.org/version/1.1',
    title: titleOf(shop),
    home_page_url: fullAddress('', shop.site),
    feed_url: fullAddress('feed.json', shop.site),
    description: shop.tagline ?? shop.name,
    language: 'en',
    authors: [{ name: shop.name }],
    items: itemsOf(shop, sheets).map(({ id, link, title, summary, date }) => ({
      id,
      url: link,
      title,
      content_text: summary,
      date_published: date,
      date_modified: date,
    })),
  };
  return `${JSON.stringify(feed, undefined, 2)}\n`;
}
