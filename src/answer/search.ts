import MiniSearch from 'minisearch';
import { documentTerms, parted, quantityTerms, terms } from './terms.ts';

/** One thing that can be found: what it is called, where it stands, and what it says. */
export interface Findable {
  readonly title: string;
  /** The sheet or guide that it belongs to. */
  readonly place: string;
  /** Path below the site's root, with its anchor. */
  readonly path: string;
  readonly words: string;
  /** Its key in words, the last thing to count. */
  readonly keys?: string;
  readonly text: string;
}

/** What was found under one title: the same question stands on every sheet. */
export interface Found {
  readonly title: string;
  readonly text: string;
  readonly places: readonly { readonly place: string; readonly path: string }[];
  /** How many places more it has than are listed. */
  readonly more: number;
}

const isNumber = (term: string) => /^\d/u.test(term);

type Stored = Findable & { readonly id: number };

/** An index over everything that can be found, and the numbers that stand in it by their unit. */
export interface SearchIndex {
  readonly index: MiniSearch<Stored>;
  readonly numbers: ReadonlyMap<string, ReadonlySet<number>>;
}

function numbersIn(all: readonly Findable[]): Map<string, Set<number>> {
  const numbers = new Map<string, Set<number>>();
  for (const term of all.flatMap(({ text }) => quantityTerms(text.replaceAll('\u00a0', ' ').toLowerCase()))) {
    const quantity = parted(term);
    if (!quantity) continue;
    const known = numbers.get(quantity.unit) ?? new Set<number>();
    numbers.set(quantity.unit, known.add(quantity.value));
  }
  return numbers;
}

/** Makes everything findable. */
export function searchIndex(all: readonly Findable[]): SearchIndex {
  const index = new MiniSearch<Stored>({
    fields: ['title', 'place', 'words', 'text', 'keys'],
    storeFields: ['title', 'place', 'path', 'text'],
    tokenize: documentTerms,
    processTerm: (term) => term,
    searchOptions: {
      tokenize: queryTerms,
      boost: { title: 3, words: 4, place: 1.5, keys: 0.3 },
      prefix: (term) => !isNumber(term) && term.length > 2,
      fuzzy: (term) => (isNumber(term) || term.length < 4 ? false : 0.25),
      combineWith: 'AND',
    },
  });
  index.addAll(all.map((one, id) => ({ ...one, id })));
  return { index, numbers: numbersIn(all) };
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

/** Titles of an answer, and places listed of each. */
const [MOST, MOST_PLACES] = [12, 24];

/** How far off a number may be and still be offered where nothing has the very number. */
const NEAR = 0.05;

/** The numbers nearest to those of a query, where some are near. */
function nearby(query: string, numbers: SearchIndex['numbers']): string {
  const wanted = queryTerms(query).flatMap((term) => parted(term) ?? []);
  return wanted
    .flatMap(({ value, unit }) =>
      [...(numbers.get(unit) ?? [])]
        .filter((known) => Math.abs(known - value) <= NEAR * value)
        .map((known) => `${known} ${unit}`),
    )
    .join(' ');
}

/** Hits for all words, else for numbers near by, else for any of the words. */
function hitsOf({ index, numbers }: SearchIndex, query: string): readonly Stored[] {
  const all = index.search(query);
  const near = all.length > 0 ? '' : nearby(query, numbers);
  const found = near === '' ? all : index.search(near, { combineWith: 'OR' });
  const some = found.length > 0 ? found : index.search(query, { combineWith: 'OR' });
  return some as unknown as Stored[];
}

/** What answers to a query, best first; the same title on several sheets comes once, with all its places. */
export function searched(index: SearchIndex, query: string): Found[] {
  const byTitle = new Map<
    string,
    { title: string; text: string; places: { place: string; path: string }[] }
  >();
  for (const { title, text, place, path } of hitsOf(index, query)) {
    const known = byTitle.get(title);
    if (known) known.places.push({ place, path });
    else byTitle.set(title, { title, text, places: [{ place, path }] });
  }
  return [...byTitle.values()].slice(0, MOST).map((found) => ({
    ...found,
    places: found.places.slice(0, MOST_PLACES),
    more: Math.max(0, found.places.length - MOST_PLACES),
  }));
}
