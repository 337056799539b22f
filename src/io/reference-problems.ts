import { COLLECTIONS, type CollectionName } from '../schema/collections.ts';
import { dotted, fieldsOf, valuesAt, type Placed } from '../schema/outline.ts';
import type { EntryProblem, Path } from '../schema/problem.ts';
import { suggestion } from './nearest.ts';
import { quoted } from './problem-text.ts';

/** Written data of one entry. */
export interface Written {
  readonly collection: CollectionName;
  readonly id: string;
  readonly data: unknown;
}

/** References that lead nowhere and names that occur twice, over the whole catalogue. */
export function referenceProblems(entries: readonly Written[]): EntryProblem[] {
  return [
    ...entries.flatMap((entry) => danglingIds(entry, entries)),
    ...entries.flatMap((entry) => danglingRevisions(entry, entries)),
    ...entries.flatMap(danglingCalipers),
    ...repeatedKeys(entries),
    ...repeatedStock(entries),
  ];
}

const texts = (data: unknown, field: string): string[] =>
  valuesAt(data, field)
    .map(({ value }) => value)
    .filter((value) => typeof value === 'string');

function problemAt(entry: Written, path: Path, message: string, remedy: string): EntryProblem {
  return { collection: entry.collection, id: entry.id, path, message, remedy };
}

function missing(entry: Written, place: Placed, known: readonly string[], what: string): EntryProblem[] {
  if (typeof place.value !== 'string' || known.includes(place.value)) return [];
  const message = `"${dotted(place.path)}": there is no ${quoted(place.value)} in ${what}`;
  return [problemAt(entry, place.path, message, suggestion(place.value, known, what))];
}

function danglingIds(entry: Written, all: readonly Written[]): EntryProblem[] {
  return fieldsOf(COLLECTIONS[entry.collection])
    .filter(({ references }) => references !== undefined)
    .flatMap(({ path, references = '' }) => {
      const known = all.filter(({ collection }) => collection === references).map(({ id }) => id);
      return valuesAt(entry.data, path).flatMap((place) => missing(entry, place, known, references));
    });
}

/** Revisions named by molds and trials, and features named by trials. */
function danglingRevisions(entry: Written, all: readonly Written[]): EntryProblem[] {
  const [baitId] = texts(entry.data, 'bait');
  const bait = all.find(({ collection, id }) => collection === 'baits' && id === baitId);
  if (bait?.data === undefined) return [];
  const revisions = texts(bait.data, 'revisions[].id');
  const named = [...valuesAt(entry.data, 'cavities[].revision'), ...valuesAt(entry.data, 'revision')];
  const lost = named.flatMap((place) => missing(entry, place, revisions, `revisions of ${bait.id}`));
  const features = featuresOf(bait.data, texts(entry.data, 'revision')[0]);
  if (entry.collection !== 'trials' || !features) return lost;
  const unknown = valuesAt(entry.data, 'features[].name').flatMap((place) =>
    missing(entry, place, features, `features of ${bait.id}`),
  );
  return [...lost, ...unknown];
}

/** Features that a bait's caliper readings name. */
function danglingCalipers(entry: Written): EntryProblem[] {
  if (entry.collection !== 'baits') return [];
  return valuesAt(entry.data, 'revisions[].measured[].feature').flatMap((place) => {
    const ids = valuesAt(entry.data, 'revisions[].id');
    const revision = ids.find(({ path }) => path[1] === place.path[1])?.value;
    const known = typeof revision === 'string' ? featuresOf(entry.data, revision) : undefined;
    return known ? missing(entry, place, known, `features of revision ${revision}`) : [];
  });
}

function featuresOf(bait: unknown, revision: string | undefined): string[] | undefined {
  const found = valuesAt(bait, 'revisions[]').find(({ value }) => texts(value, 'id')[0] === revision);
  if (!found) return undefined;
  return [...texts(found.value, 'sections.appendages[].name'), ...texts(found.value, 'mesh.features[].name')];
}

/** Lists whose entries need names of their own: the collection, and the field that holds the name. */
const UNIQUE: readonly (readonly [CollectionName, string])[] = [
  ['baits', 'revisions[].id'],
  ['baits', 'revisions[].sections.appendages[].name'],
  ['baits', 'revisions[].mesh.features[].name'],
  ['hooks', 'sizes[].size'],
  ['trials', 'features[].name'],
];

function repeatedKeys(entries: readonly Written[]): EntryProblem[] {
  return UNIQUE.flatMap(([collection, field]) =>
    entries
      .filter((entry) => entry.collection === collection)
      .flatMap((entry) => {
        const places = valuesAt(entry.data, field).filter(({ value }) => typeof value === 'string');
        const groups = Map.groupBy(places, ({ path, value }) => `${listOf(path)} ${String(value)}`);
        return [...groups.values()].flatMap((group) => group.slice(1).map((place) => repeated(entry, place)));
      }),
  );
}

/** The list that an item's field belongs to: everything before the last position. */
function listOf(path: Path): string {
  const last = path.findLastIndex((step) => typeof step === 'number');
  return dotted(path.slice(0, last));
}

function repeated(entry: Written, place: Placed): EntryProblem {
  const message = `"${dotted(place.path)}": ${quoted(place.value)} stands here a second time`;
  return problemAt(entry, place.path, message, 'give each its own name');
}

function repeatedStock(entries: readonly Written[]): EntryProblem[] {
  const molds = entries.filter(
    ({ collection, data }) => collection === 'molds' && texts(data, 'stock').length > 0,
  );
  const groups = Map.groupBy(molds, ({ data }) => texts(data, 'stock')[0]);
  return [...groups.values()].flatMap((group) =>
    group.slice(1).map((mold) => {
      const message = `"stock": ${quoted(texts(mold.data, 'stock')[0])} is the stock number of ${group[0]?.id ?? ''} too`;
      return problemAt(mold, ['stock'], message, 'give each mold its own stock number');
    }),
  );
}
