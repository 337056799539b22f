import { getCollection, type CollectionEntry, type CollectionKey } from 'astro:content';
import { contentFolder } from '../io/settings.ts';
import type { Catalogue } from '../schema/collections.ts';
import { PUBLISHED } from '../sheet/analyse.ts';
import type { BaitSheet } from '../sheet/bait-sheet.ts';
import type { Brief } from '../sheet/brief.ts';
import type { Sheet } from '../sheet/sheet.ts';
import { analyseCatalogue } from './analysis/analyse.ts';
import { sharedOf, type Shared } from './analysis/groups.ts';

/** What the pages about the whole catalogue are printed from: the published part of it. */
export interface SiteData {
  readonly catalogue: Catalogue;
  /** Every published mold in brief, sorted by id. */
  readonly sheets: readonly Brief[];
  /** Page of a bait that has a published mold. */
  readonly baitOf: (id: string) => BaitSheet;
}

/** What the pages of single molds and baits are printed from. */
export interface OwnData {
  /** Of published molds, sorted by id; each is read when someone looks into it. */
  readonly sheets: readonly Sheet[];
  /** Page of a bait that has a published mold. */
  readonly baitOf: (id: string) => BaitSheet;
  /** What every sheet may speak of. */
  readonly shared: Shared;
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

async function compute() {
  const catalogue = await catalogueOfCollections();
  const { problems, sheets, briefs, baitOf } = await analyseCatalogue(catalogue, contentFolder());
  const [problem] = problems;
  if (problem)
    throw new RangeError(`${problem.collection}/${problem.id}: ${problem.message}; ${problem.remedy}`);
  return { catalogue, sheets, briefs, baitOf };
}

let kept: ReturnType<typeof compute> | undefined;
let brief: Promise<SiteData> | undefined;

async function inBrief(): Promise<SiteData> {
  const { catalogue, briefs, baitOf } = await (kept ??= compute());
  return { catalogue, sheets: briefs(), baitOf };
}

/** The whole catalogue in brief, worked out once a build. */
export function siteData(): Promise<SiteData> {
  brief ??= inBrief();
  return brief;
}

/**
 * Single sheets and baits. Pages of theirs are kept from one build to the next as long as their own data is the same,
 * so they must not look at `siteData`.
 */
export async function ownData(): Promise<OwnData> {
  const { catalogue, sheets, baitOf } = await (kept ??= compute());
  return { sheets, baitOf, shared: sharedOf(catalogue) };
}
