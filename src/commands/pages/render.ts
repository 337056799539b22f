import { rename, rm, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { digestOf } from '../../io/digest.ts';
import { giveBack, makeRoom } from '../../io/v8.ts';
import type { Catalogue } from '../../schema/collections.ts';
import { sharedOf } from '../../site/analysis/groups.ts';
import { TO_RENDER, type ToRender } from '../../site/own/render-list.ts';
import { writeOwnFiles } from '../../site/own/write.ts';
import { runAstro, type AstroRun } from '../astro.ts';
import { finishPages } from '../page-id.ts';
import { factsOf, filesOf, type FileFacts } from '../site-facts.ts';
import type { Stage } from '../staging.ts';
import { carryOver, keepUnit, keptUnit, type Kept } from './kept.ts';
import { unitPath, type Plan, type Unit } from './units.ts';

/** What a rendering came to. */
export type Rendering =
  | { readonly facts: readonly FileFacts[]; readonly log: AstroRun }
  | { readonly facts?: undefined; readonly log: AstroRun };

interface Orders {
  readonly catalogue: Catalogue;
  readonly plan: Plan;
  readonly stage: Stage;
  readonly signal: AbortSignal;
  readonly onLine: (line: string) => void;
}

/** Units that this build has to make, and those that an earlier one has left. */
export interface Shares {
  readonly stale: readonly Unit[];
  readonly kept: ReadonlyMap<Unit, Kept>;
}

/** Splits the units of a plan by whether an earlier build has left their files. */
export function sharesOf(plan: Plan): Shares {
  const kept = new Map<Unit, Kept>();
  for (const unit of plan.units) {
    const found = keptUnit(plan, unit);
    if (found) kept.set(unit, found);
  }
  return { kept, stale: plan.units.filter((unit) => !kept.has(unit)) };
}

/** Ids of the units of one kind. */
export function idsOf(units: readonly Unit[], wanted: Unit['kind']): string[] {
  return units.filter(({ kind }) => kind === wanted).map(({ id }) => id);
}

/** Astro renders pages while threads write all other files; when one of them fails, both stop. */
async function made({ catalogue, stage, signal, onLine }: Orders, stale: readonly Unit[]): Promise<AstroRun> {
  const list: ToRender = { molds: idsOf(stale, 'molds'), baits: idsOf(stale, 'baits') };
  const path = `${stage.own}.json`;
  await writeFile(path, JSON.stringify(list));
  const failed = new AbortController();
  const either = AbortSignal.any([signal, failed.signal]);
  const environment = { OUT_DIR: stage.work, NODE_ENV: 'production', [TO_RENDER]: path };
  const molds = catalogue.molds.length;
  makeRoom(molds);
  giveBack();
  try {
    const pages = runAstro(stage.bundle, { environment, molds, onLine, signal: either }).then((run) => {
      if (run.code !== 0) failed.abort(new Error('the pages were not rendered'));
      return run;
    });
    const [log] = await Promise.all([
      pages,
      writeOwnFiles(stale, { shared: sharedOf(catalogue), folder: stage.own }, either, pages).catch(
        (error: unknown) => {
          const own = !either.aborted;
          failed.abort(error);
          if (own) throw error;
        },
      ),
    ]);
    return log;
  } finally {
    for (const used of [path, stage.bundle]) await rm(used, { recursive: true, force: true });
  }
}

/** Moves the files that threads have written to the pages that Astro has rendered. */
async function joined({ own, work }: Stage, stale: readonly Unit[]): Promise<void> {
  for (const unit of stale) {
    const folder = unitPath(unit);
    for (const name of await filesOf(join(own, folder)))
      await rename(join(own, folder, name), join(work, folder, name));
  }
}

/** What is left when the files of kept units are put to those that are new. */
async function gathered(
  { plan, stage: { work } }: Orders,
  { stale, kept }: Shares,
  assets: string,
): Promise<FileFacts[]> {
  const names = await filesOf(work);
  await finishPages(work, names, plan.program);
  const fresh = await factsOf(work, names);
  const byUnit = Map.groupBy(fresh, ({ name }) => name.split('/').slice(0, 2).join('/'));
  for (const unit of stale) {
    const facts = byUnit.get(unitPath(unit)) ?? [];
    if (facts.every(({ faults = [] }) => faults.length === 0))
      await keepUnit(plan, unit, { assets, facts }, work);
  }
  for (const [unit, files] of kept) carryOver(plan, unit, files, work);
  const carried = [...kept.values()].flatMap(({ files }) => files);
  return [...fresh, ...carried];
}

/**
 * Renders a site into its work folder: what no earlier build has left is made, the rest is carried over. The bytes are
 * those of a build that makes everything.
 */
export async function render(orders: Orders, shares: Shares): Promise<Rendering> {
  const { plan, stage, signal } = orders;
  const log = await made(orders, shares.stale);
  signal.throwIfAborted();
  if (log.code !== 0) return { log };
  const assets = digestOf(await filesOf(join(stage.work, '_astro')));
  // Pages that name other scripts and styles come from another program, whatever their key says.
  if ([...shares.kept.values()].some((kept) => kept.assets !== assets)) {
    await rm(stage.work, { recursive: true });
    return render(orders, { stale: plan.units, kept: new Map() });
  }
  await joined(stage, shares.stale);
  return { log, facts: await gathered(orders, shares, assets) };
}
