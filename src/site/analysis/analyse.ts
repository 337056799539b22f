import { analysisTools } from '../../io/analysis-tools.ts';
import { diskStore, type Store } from '../../io/cache.ts';
import type { Catalogue } from '../../schema/collections.ts';
import type { EntryProblem } from '../../schema/problem.ts';
import type { Step } from '../../sheet/analyse.ts';
import type { Move } from '../../sheet/ledger.ts';
import type { BaitSheet } from '../../sheet/bait-sheet.ts';
import type { Brief } from '../../sheet/brief.ts';
import type { Sheet } from '../../sheet/sheet.ts';
import { workedApart } from './apart.ts';
import { groupsOf, sharedOf, type Group } from './groups.ts';
import { lazySheet } from './lazy-sheet.ts';
import { keptBait, keptBrief, keptOutcome, type Outcome, type Timing } from './work.ts';
import type { WorkerData } from './worker.ts';

/** A catalogue, worked out: every sheet is in the store, and is read when someone looks at it. */
export interface AnalysedSite {
  /** In the order of the catalogue. */
  readonly sheets: readonly Sheet[];
  /** Reads all of them in brief, in the order of the catalogue. */
  readonly briefs: () => readonly Brief[];
  /** Page of a bait that has a published mold. */
  readonly baitOf: (id: string) => BaitSheet;
  /** What decides a sheet, by its mold: equal keys, equal sheets. */
  readonly keys: ReadonlyMap<string, string>;
  readonly problems: readonly EntryProblem[];
  readonly warnings: readonly string[];
  /** Molds that are called final and may not be. */
  readonly refusals: readonly EntryProblem[];
  /** What the published molds would change in public. */
  readonly moves: readonly Move[];
  /** Pieces of the work, and how many of them no earlier run had worked out. */
  readonly groups: number;
  readonly worked: number;
  /** Of what was worked out in this run. */
  readonly timings: readonly Timing[];
}

/** Settings of an analysis. */
export interface AnalyseOptions {
  readonly onStep?: (step: Step) => void;
  /** Groups to work out; left out, all of them. */
  readonly only?: (group: Group) => boolean;
}

/** Works groups out on every core, the longest first. */
async function worked(
  groups: readonly Group[],
  data: WorkerData,
  onDone: (group: Group) => void,
): Promise<Map<Group, Outcome>> {
  const sorted = [...groups].sort((a, b) => b.cost - a.cost);
  const tasks = sorted.map(({ own, address, ids }) => ({ own, address, ids }));
  const outcomes = await workedApart(tasks, data, (index) => onDone(sorted[index] as Group));
  return new Map(sorted.map((group, index) => [group, outcomes[index] as Outcome]));
}

function unique<Item>(items: readonly Item[]): Item[] {
  return [...new Map(items.map((item) => [JSON.stringify(item), item])).values()];
}

function briefIn(store: Store, group: Group, id: string): Brief {
  const found = keptBrief(store, group, id);
  if (!found) throw new RangeError(`briefs: wants the brief of ${id} in the cache, got none`);
  return found;
}

/**
 * Works out every mold of a catalogue that no earlier run has worked out, on all cores. The result is the same however
 * the work falls to the threads.
 *
 * @param catalogue - read and checked
 * @param folder - where it lies
 */
export async function analyseCatalogue(
  catalogue: Catalogue,
  folder: string,
  { onStep = () => undefined, only = () => true }: AnalyseOptions = {},
): Promise<AnalysedSite> {
  const store = diskStore();
  const groups = (await groupsOf(catalogue, analysisTools(folder), store)).filter(only);
  const outcomes = new Map<Group, Outcome>();
  for (const group of groups) {
    const kept = keptOutcome(store, group);
    if (kept) outcomes.set(group, kept);
  }
  let done = outcomes.size;
  const open = groups.filter((group) => !outcomes.has(group));
  const made = await worked(open, { folder, shared: sharedOf(catalogue) }, ({ own }) =>
    onStep({ done: done++, total: groups.length, name: own.bait.id }),
  );
  const all = groups.map((group) => made.get(group) ?? (outcomes.get(group) as Outcome));
  const home = new Map(groups.flatMap((group) => group.ids.map((id) => [id, group] as const)));
  const problems = unique(all.flatMap((outcome) => outcome.problems));
  const faulty = new Set(groups.filter((_, i) => (all[i] as Outcome).problems.length > 0));
  const sound = catalogue.molds.flatMap(({ id }) => {
    const group = home.get(id);
    return group && !faulty.has(group) ? [{ group, id }] : [];
  });
  return {
    sheets: sound.map(({ group, id }) => lazySheet(store, group, id)),
    briefs: () => sound.map(({ group, id }) => briefIn(store, group, id)),
    baitOf: (id) => {
      const group = groups.find(({ own, ids }) => own.bait.id === id && own.molds.length === ids.length);
      const found = group && keptBait(store, group, id);
      if (!found) throw new RangeError(`baitOf: wants a bait with a published mold, got ${id}`);
      return found;
    },
    keys: new Map([...home].map(([id, { address }]) => [id, address])),
    problems,
    refusals: unique(all.flatMap(({ refusals }) => refusals)),
    moves: unique(all.flatMap(({ moves }) => moves)),
    warnings: unique(all.flatMap(({ warnings }) => warnings)),
    groups: groups.length,
    worked: open.length,
    timings: all.flatMap(({ timings }) => timings).sort((a, b) => b.milliseconds - a.milliseconds),
  };
}
