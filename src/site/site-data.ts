import { getCollection, type CollectionEntry, type CollectionKey } from 'astro:content';
import { contentFolder } from '../io/settings.ts';
import type { Catalogue } from '../schema/collections.ts';
import { PUBLISHED } from '../sheet/analyse.ts';
import type { BaitSheet } from '../sheet/bait-sheet.ts';
import type { Sheet } from '../sheet/sheet.ts';
import { analyseCatalogue } from './analysis/analyse.ts';

/** What every page is printed from: the published part of the catalogue. */
export interface SiteData {
  readonly catalogue: Catalogue;
  /** Of published molds only, sorted by id; each is read when someone looks into it. */
  readonly sheets: readonly Sheet[];
  /** Page of a bait that has a published mold. */
  readonly baitOf: (id: string) => BaitSheet;
  /** What decides a sheet and all that is drawn from it, by its mold. */
  readonly keys: ReadonlyMap<string, string>;
}

/** Entries of a collection with their ids, sorted by id. */
async function entries<Name extends CollectionKey>(
  name: Name,
): Promise<({ id: string } & CollectionEntry<Name>['data'])[]> {
  const all: { id: string; data: CollectionEntry<Name>['data'] }[] = await getCollection(name);
  return all.map(({ id, data }) => ({ ...data, id })).sort((a, b) => (a.id < b.id ? -1 : 1));
}

async function catalogueOfCollections(): Promise<Catalogue> {
  const [found] = await entries('shop');
  if (!found) throw new RangeError('siteData: wants one entry in the collection "shop", got none');
  // Without an id, as `npm run check` reads it: equal catalogues have equal addresses, and nothing is worked out twice.
  const { id: _, ...shop } = found;
  return {
    shop,
    baits: await entries('baits'),
    molds: (await entries('molds')).filter(({ status }) => PUBLISHED.has(status)),
    plastisols: await entries('plastisols'),
    hooks: await entries('hooks'),
    injectors: await entries('injectors'),
    trials: await entries('trials'),
  };
}

async function compute(): Promise<SiteData> {
  const catalogue = await catalogueOfCollections();
  const { problems, sheets, keys, baitOf } = await analyseCatalogue(catalogue, contentFolder());
  const [problem] = problems;
  if (problem)
    throw new RangeError(`${problem.collection}/${problem.id}: ${problem.message}; ${problem.remedy}`);
  return { catalogue, sheets, keys, baitOf };
}

let kept: Promise<SiteData> | undefined;

/** The site's data, worked out once a build. */
export function siteData(): Promise<SiteData> {
  kept ??= compute();
  return kept;
}
