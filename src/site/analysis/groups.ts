import { digestOf } from '../../io/digest.ts';
import type { Store } from '../../io/cache.ts';
import type { Bait, Catalogue, Entry, Mold, Trial } from '../../schema/collections.ts';
import { PUBLISHED } from '../../sheet/analyse.ts';
import type { Tools } from '../../sheet/tools.ts';

/** What every sheet of a catalogue may speak of. */
export type Shared = Pick<Catalogue, 'shop' | 'plastisols' | 'hooks' | 'injectors'>;

/** What belongs to one bait: the sheets of its molds speak of nothing else. */
export interface Own {
  readonly bait: Entry<Bait>;
  readonly molds: readonly Entry<Mold>[];
  readonly trials: readonly Entry<Trial>[];
}

/** One piece of the work: the sheets of one bait's molds, by the address of all that decides them. */
export interface Group {
  readonly own: Own;
  readonly address: string;
  /** Molds whose sheets come out of it. */
  readonly ids: readonly string[];
  /** Rough, for doing the longest first. */
  readonly cost: number;
}

/** The work that results of groups are filed under. */
export const WORK = 'analyse';

/** The part of a catalogue that every group shares. */
export function sharedOf({ shop, plastisols, hooks, injectors }: Catalogue): Shared {
  return { shop, plastisols, hooks, injectors };
}

/** A group as a small catalogue of its own. */
export function catalogueOf(shared: Shared, { bait, molds, trials }: Own): Catalogue {
  return { ...shared, baits: [bait], molds: [...molds], trials: [...trials] };
}

function byBait<Item extends { readonly bait: string }>(items: readonly Item[]): Map<string, Item[]> {
  return Map.groupBy(items, ({ bait }) => bait);
}

/**
 * The published molds of a bait are worked out without a glance at the others; molds that are not published are
 * worked out beside them.
 */
function partsOf(own: Own): { own: Own; ids: string[] }[] {
  const published = own.molds.filter(({ status }) => PUBLISHED.has(status));
  const drafts = own.molds.filter(({ status }) => !PUBLISHED.has(status));
  return [
    { own: { ...own, molds: published }, ids: published.map(({ id }) => id) },
    ...(drafts.length > 0 ? [{ own, ids: drafts.map(({ id }) => id) }] : []),
  ];
}

/** Splits a catalogue into pieces that do not depend on one another. */
export async function groupsOf(
  catalogue: Catalogue,
  tools: Pick<Tools, 'fingerprint' | 'ledgers'>,
  store: Pick<Store, 'address'>,
): Promise<Group[]> {
  const shared = digestOf(sharedOf(catalogue));
  const [molds, trials] = [byBait(catalogue.molds), byBait(catalogue.trials)];
  const ledgers = new Map((await tools.ledgers()).map((ledger) => [ledger.mold, ledger]));
  const groupsOfBait = async (bait: Entry<Bait>): Promise<Group[]> => {
    const own = { bait, molds: molds.get(bait.id) ?? [], trials: trials.get(bait.id) ?? [] };
    const files = bait.revisions.flatMap(({ mesh }) => (mesh ? [mesh.file] : []));
    const meshes: string[] = [];
    for (const file of files) meshes.push(await tools.fingerprint(file));
    return Promise.all(
      partsOf(own).map(async (part): Promise<Group> => {
        const published = part.own.molds.map(({ id }) => ledgers.get(id) ?? null);
        const inputs = { shared, own: part.own, meshes, published };
        const cost = 2 * files.length + bait.revisions.length + part.own.molds.length;
        return { ...part, address: await store.address(WORK, inputs), cost };
      }),
    );
  };
  // One bait after the other: there may be thousands of mesh files.
  const groups: Group[] = [];
  for (const bait of catalogue.baits) groups.push(...(await groupsOfBait(bait)));
  return groups;
}
