import type { Brief } from '../sheet/brief.ts';
import type { Findable } from './search.ts';

/** Figures that only a table of the sheet opens: too many and too alike to be found one by one. */
const TABLED = /^(?:hook|injector|batch)\./u;

/** A figure's key as people might type it: `pour.flashPoint` is "pour flashpoint" and "pour flash point". */
const keyWords = (key: string) => {
  const words = key.replaceAll('.', ' ');
  return `${words.toLowerCase()} ${words.replaceAll(/(?=[A-Z])/gu, ' ').toLowerCase()}`;
};

type Say = (quantity: Brief['figures'][string]) => string;

/** Everything on a sheet that can be found: the sheet, its answers, faults, cautions and figures. */
export function findableOf(sheet: Brief, say: Say): Findable[] {
  const { title: place, mold, bait } = sheet;
  const root = `molds/${sheet.id}/`;
  const at = (key: string, title: string, text: string, words: readonly string[] = []): Findable => ({
    title,
    place,
    path: `${root}#${key}`,
    words: words.join(' '),
    text,
  });
  return [
    {
      title: place,
      place: bait.family,
      path: root,
      words: [mold.stock, bait.name, ...bait.rigs].join(' '),
      text: bait.summary,
    },
    ...sheet.answers.map(({ key, question, short, words }) => at(key, question, short, words)),
    ...sheet.faults.map(({ key, name, looks, words }) => at(key, name, looks, words)),
    ...sheet.cautions.map(({ key, type, hazard, consequence }) => at(key, hazard, consequence, [type])),
    ...Object.values(sheet.figures)
      .filter(({ key }) => !TABLED.test(key))
      .map((figure) => ({ ...at(figure.key, figure.label, say(figure)), keys: keyWords(figure.key) })),
  ];
}
