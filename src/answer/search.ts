import MiniSearch from 'minisearch';
import type { PackedIndex, Place } from './packed-index.ts';
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

/** What is said under one title, and the places that say it. */
interface Thing extends Pick<Findable, 'title' | 'words' | 'keys' | 'text'> {
  /** With its mark, as it follows the path of a place. */
  readonly anchor: string;
  /** Numbers of places. */
  readonly on: number[];
}

/**
 * An index over everything that can be found, and the numbers that stand in it by their unit. What a thousand sheets say alike is
 * looked into once, and so is the name of each sheet.
 */
export interface SearchIndex {
  readonly things: readonly Thing[];
  readonly places: readonly Place[];
  readonly said: MiniSearch;
  readonly names: MiniSearch;
  readonly numbers: ReadonlyMap<string, ReadonlySet<number>>;
}

function numbersIn(all: readonly Thing[]): Map<string, Set<number>> {
  const numbers = new Map<string, Set<number>>();
  for (const term of all.flatMap(({ text }) => quantityTerms(text.replaceAll('\u00a0', ' ').toLowerCase()))) {
    const quantity = parted(term);
    if (!quantity) continue;
    const known = numbers.get(quantity.unit) ?? new Set<number>();
    numbers.set(quantity.unit, known.add(quantity.value));
  }
  return numbers;
}

/**
 * Things and places of a packed index. What stands by itself is a thing of one place.
 *
 * @throws {RangeError} when a number names nothing
 */
function thingsOf({ alone, places, kinds }: PackedIndex): Pick<SearchIndex, 'things' | 'places'> {
  const things: Thing[] = alone.map((one, at) => ({ ...one, anchor: '', on: [places.length + at] }));
  for (const { texts, on, said, ...kind } of kinds) {
    const own = texts.map((text): Thing => ({ ...kind, text, on: [] }));
    on.forEach((place, at) => {
      const thing = own[said[at] ?? -1];
      if (!thing || !places[place])
        throw new RangeError(`searchIndex: wants numbers of what there is, got ${place} for ${kind.anchor}`);
      thing.on.push(place);
    });
    things.push(...own);
  }
  return { things, places: [...places, ...alone] };
}

const BOOST = { title: 3, words: 4, place: 1.5, keys: 0.3, text: 1 } as const;

/** An index of some fields, by the order of what it holds. */
function indexOf(all: readonly object[], fields: readonly (keyof typeof BOOST)[]): MiniSearch {
  const index = new MiniSearch({
    fields: [...fields],
    tokenize: documentTerms,
    processTerm: (term) => term,
    searchOptions: {
      tokenize: (term) => [term],
      boost: BOOST,
      prefix: (term) => !isNumber(term) && term.length > 2,
      fuzzy: (term) => (isNumber(term) || term.length < 4 ? false : 0.25),
    },
  });
  index.addAll(all.map((one, id) => ({ ...one, id })));
  return index;
}

/**
 * Makes everything findable.
 *
 * @throws {RangeError} when a number names nothing
 */
export function searchIndex(packed: PackedIndex): SearchIndex {
  const { things, places } = thingsOf(packed);
  return {
    things,
    places,
    said: indexOf(things, ['title', 'words', 'text', 'keys']),
    names: indexOf(places, ['place']),
    numbers: numbersIn(things),
  };
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

/** How well each thing, or each place, answers to a term; 0 where it does not. */
function scoresIn(index: MiniSearch, count: number, term: string): Float64Array {
  const scores = new Float64Array(count);
  for (const { id, score } of index.search(term)) scores[id as number] = score;
  return scores;
}

/** One thing at one place, and how well it answers. */
interface Hit {
  readonly thing: Thing;
  readonly place: Place;
  readonly score: number;
}

/**
 * What answers to some terms, by its title: each term by the thing or by its place.
 *
 * @param all - whether every term has to be answered, or any
 */
function answering(index: SearchIndex, wanted: readonly string[], all: boolean): Map<string, Hit[]> {
  const { things, places, said, names } = index;
  const scores = wanted.map((term) => ({
    of: scoresIn(said, things.length, term),
    at: scoresIn(names, places.length, term),
  }));
  const least = all ? wanted.length : 1;
  const found = new Map<string, Hit[]>();
  things.forEach((thing, own) => {
    for (const on of thing.on) {
      let [sum, answered] = [0, 0];
      for (const { of, at } of scores) {
        const score = (of[own] ?? 0) + (at[on] ?? 0);
        sum += score;
        if (score > 0) answered++;
      }
      if (answered < least) continue;
      const hits = found.get(thing.title) ?? [];
      if (hits.length === 0) found.set(thing.title, hits);
      hits.push({ thing, place: places[on] as Place, score: sum * answered });
    }
  });
  return found;
}

/** Hits for all words, else for numbers near by, else for any of the words. */
function hitsOf(index: SearchIndex, query: string): Map<string, Hit[]> {
  const wanted = queryTerms(query);
  if (wanted.length === 0) return new Map();
  const every = answering(index, wanted, true);
  if (every.size > 0) return every;
  const near = queryTerms(nearby(query, index.numbers));
  const close = near.length > 0 ? answering(index, near, false) : every;
  return close.size > 0 ? close : answering(index, wanted, false);
}

const best = (hits: readonly Hit[]): number => hits.reduce((most, { score }) => Math.max(most, score), 0);

/** What was found under one title, the best places first. */
function foundOf(title: string, hits: readonly Hit[]): Found {
  const sorted = hits.toSorted((a, b) => b.score - a.score);
  return {
    title,
    text: sorted[0]?.thing.text ?? '',
    places: sorted
      .slice(0, MOST_PLACES)
      .map(({ thing, place }) => ({ place: place.place, path: `${place.path}${thing.anchor}` })),
    more: Math.max(0, sorted.length - MOST_PLACES),
  };
}

/** What answers to a query, best first; the same title on several sheets comes once, with all its places. */
export function searched(index: SearchIndex, query: string): Found[] {
  return [...hitsOf(index, query)]
    .map(([title, hits]) => ({ title, hits, score: best(hits) }))
    .sort((a, b) => b.score - a.score)
    .slice(0, MOST)
    .map(({ title, hits }) => foundOf(title, hits));
}
