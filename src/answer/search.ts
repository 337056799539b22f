import MiniSearch from 'minisearch';

/** One thing that can be found: what it is called, where it stands, and what it says. */
export interface Findable {
  readonly title: string;
  /** The sheet or guide that it belongs to. */
  readonly place: string;
  /** Path below the site's root, with its anchor. */
  readonly path: string;
  readonly words: string;
  readonly text: string;
}

/** What was found under one title: the same question stands on every sheet. */
export interface Found {
  readonly title: string;
  readonly text: string;
  readonly places: readonly { readonly place: string; readonly path: string }[];
}

/** Other ways of writing a unit, after the number it belongs to. */
const UNIT_WORDS: Readonly<Record<string, string>> = {
  inch: 'in',
  inches: 'in',
  '"': 'in',
  '″': 'in',
  f: '°f',
  c: '°c',
  fahrenheit: '°f',
  celsius: '°c',
  ounce: 'oz',
  ounces: 'oz',
  'fluid ounces': 'fl oz',
  ml: 'ml',
  millimetres: 'mm',
  millimeters: 'mm',
  grams: 'g',
  minutes: 'min',
  seconds: 's',
  mil: 'thou',
  pounds: 'lb',
  um: 'µm',
};

const UNIT =
  'fl oz|fluid ounces|ounces?|oz|in³|in²|inch(?:es)?|in|mm|millimet(?:re|er)s|cm³|cm²|cm|ml|thou|mil|µm|um|°f|°c|fahrenheit|celsius|lbf|lb|pounds|psi|kpa|kg|g|grams|min|minutes|seconds|s|n|f|c|"|″|%';
const QUANTITY = new RegExp(`(\\d+(?:\\.\\d+)?(?:/\\d+)?)\\s*(?:(${UNIT})(?![\\p{L}²³]))?`, 'giu');

/** A number as it stands in an index: no trailing zeros; a fraction of an inch as decimals. */
function numberTexts(text: string): string[] {
  const [over, under] = text.split('/').map(Number);
  const value = under === undefined ? (over ?? NaN) : (over ?? NaN) / under;
  if (!Number.isFinite(value)) return [];
  const decimals = under === undefined ? [] : [3, 2].map((places) => String(Number(value.toFixed(places))));
  return [...new Set([under === undefined ? String(value) : text, ...decimals])];
}

/** Numbers with their units as single terms: "0.80 mm" is `0.8mm`, "1/32 in" is `0.031in`. */
function quantityTerms(text: string): string[] {
  return [...text.matchAll(QUANTITY)].flatMap(([, number = '', unit]) => {
    const numbers = numberTexts(number);
    if (unit === undefined) return numbers;
    const plain = unit.toLowerCase();
    const code = (UNIT_WORDS[plain] ?? plain).replaceAll(' ', '');
    return numbers.map((one) => `${one}${code}`);
  });
}

/** Terms of a text: its numbers with their units, and its words. */
function terms(text: string): string[] {
  const lower = text.replaceAll('\u00a0', ' ').toLowerCase();
  const words = lower.replace(QUANTITY, ' ').match(/\p{L}[\p{L}\p{N}-]*/gu) ?? [];
  return [...quantityTerms(lower), ...words.flatMap((word) => [word, ...word.split('-').slice(1)])];
}

/** Terms of what a document says: here a number counts with its unit and also alone. */
function documentTerms(text: string): string[] {
  const all = terms(text);
  return [...all, ...all.flatMap((term) => /^(\d[\d./]*)\D/u.exec(term)?.[1] ?? [])];
}

const isNumber = (term: string) => /^\d/u.test(term);

type Stored = Findable & { readonly id: number };

/** An index over everything that can be found. */
export function searchIndex(all: readonly Findable[]): MiniSearch<Stored> {
  const index = new MiniSearch<Stored>({
    fields: ['title', 'place', 'words', 'text'],
    storeFields: ['title', 'place', 'path', 'text'],
    tokenize: documentTerms,
    processTerm: (term) => term,
    searchOptions: {
      tokenize: queryTerms,
      boost: { title: 3, words: 4, place: 1.5 },
      prefix: (term) => !isNumber(term) && term.length > 2,
      fuzzy: (term) => (isNumber(term) || term.length < 4 ? false : 0.25),
      combineWith: 'AND',
    },
  });
  index.addAll(all.map((one, id) => ({ ...one, id })));
  return index;
}

/** Words that a query can do without. */
const SMALL = new Set([
  'a',
  'an',
  'and',
  'do',
  'how',
  'i',
  'in',
  'is',
  'it',
  'my',
  'of',
  'on',
  'or',
  'the',
  'to',
  'what',
]);

function queryTerms(query: string): string[] {
  const all = terms(query).filter((term) => !term.includes('/'));
  const meaning = all.filter((term) => !SMALL.has(term));
  return meaning.length > 0 ? meaning : all;
}

const MOST = 12;

/** What answers to a query, best first; the same title on several sheets comes once, with all its places. */
export function searched(index: MiniSearch<Stored>, query: string): Found[] {
  const byTitle = new Map<
    string,
    { title: string; text: string; places: { place: string; path: string }[] }
  >();
  const hits = index.search(query);
  const found = hits.length > 0 ? hits : index.search(query, { combineWith: 'OR' });
  for (const { title, text, place, path } of found as unknown as Stored[]) {
    const known = byTitle.get(title);
    if (known) known.places.push({ place, path });
    else byTitle.set(title, { title, text, places: [{ place, path }] });
  }
  return [...byTitle.values()].slice(0, MOST);
}
