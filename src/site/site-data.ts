import { getCollection, type CollectionEntry, type CollectionKey } from 'astro:content';
import { analysisTools } from '../io/analysis-tools.ts';
import { contentFolder } from '../io/settings.ts';
import type { Catalogue } from '../schema/collections.ts';
import { PUBLISHED, sheets } from '../sheet/analyse.ts';
import type { Sheet } from '../sheet/sheet.ts';

/** What every page is printed from: the published part of the catalogue. */
export interface SiteData {
  readonly catalogue: Catalogue;
  /** Of published molds only, sorted by id. */
  readonly sheets: readonly Sheet[];
}

/** Entries of a collection with their ids, sorted by id. */
async function entries<Name extends CollectionKey>(
  name: Name,
): Promise<({ id: string } & CollectionEntry<Name>['data'])[]> {
  const all: { id: string; data: CollectionEntry<Name>['data'] }[] = await getCollection(name);
  return all.map(({ id, data }) => ({ ...data, id })).sort((a, b) => (a.id < b.id ? -1 : 1));
}

async function catalogueOfCollections(): Promise<Catalogue> {
  const [shop] = await entries('shop');
  if (!shop) throw new RangeError('siteData: wants one entry in the collection "shop", got none');
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
  const analysed = await sheets(catalogue, analysisTools(contentFolder()));
  const [problem] = analysed.problems;
  if (problem)
    throw new RangeError(`${problem.collection}/${problem.id}: ${problem.message}; ${problem.remedy}`);
  return { catalogue, sheets: analysed.sheets };
}

let kept: Promise<SiteData> | undefined;

/** The site's data, worked out once a build. */
export function siteData(): Promise<SiteData> {
  kept ??= compute();
  return kept;
}
