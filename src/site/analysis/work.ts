import { sha256 } from '../../io/digest.ts';
import type { Store } from '../../io/cache.ts';
import type { Catalogue } from '../../schema/collections.ts';
import type { EntryProblem } from '../../schema/problem.ts';
import { PUBLISHED, sheets } from '../../sheet/analyse.ts';
import type { BaitSheet } from '../../sheet/bait-sheet.ts';
import { briefOf, type Brief } from '../../sheet/brief.ts';
import { baitSheets } from '../../sheet/bait-study.ts';
import type { Move } from '../../sheet/ledger.ts';
import type { Sheet } from '../../sheet/sheet.ts';
import type { Tools } from '../../sheet/tools.ts';
import { WORK, type Group } from './groups.ts';

/** How long one step of the work took. */
export interface Timing {
  readonly name: string;
  /** [ms] */
  readonly milliseconds: number;
}

/** What came of a group; its sheets lie in the store. */
export interface Outcome {
  readonly problems: readonly EntryProblem[];
  readonly warnings: readonly string[];
  /** Molds that are called final and may not be. */
  readonly refusals: readonly EntryProblem[];
  /** What the published molds would change in public. */
  readonly moves: readonly Move[];
  /** Empty when it was kept from an earlier run. */
  readonly timings: readonly Timing[];
}

/** Where the sheet of a mold lies in the store. */
export function sheetAddress({ address }: Pick<Group, 'address'>, id: string): string {
  return sha256(address, id);
}

const addresses = new WeakMap<Sheet, string>();

/**
 * Where a sheet that came out of the store lies in it: equal addresses, equal sheets.
 *
 * @throws {RangeError} when the sheet came from elsewhere
 */
export function addressOf(sheet: Sheet): string {
  const address = addresses.get(sheet);
  if (address === undefined) throw new RangeError(`addressOf: wants a sheet of the store, got ${sheet.id}`);
  return address;
}

/** Notes where a sheet lies in the store, and gives it back. */
export function addressed(sheet: Sheet, address: string): Sheet {
  addresses.set(sheet, address);
  return sheet;
}

/** The sheet of a mold as a group left it in the store, or nothing. */
export function keptSheet(store: Store, group: Pick<Group, 'address'>, id: string): Sheet | undefined {
  const address = sheetAddress(group, id);
  const found = store.read('sheet', address)?.value as Sheet | undefined;
  return found && addressed(found, address);
}

/** A sheet in brief as a group left it in the store, or nothing. */
export function keptBrief(store: Store, group: Pick<Group, 'address'>, id: string): Brief | undefined {
  return store.read('brief', sheetAddress(group, id))?.value as Brief | undefined;
}

/** The page of a bait as a group left it in the store, or nothing. */
export function keptBait(store: Store, group: Pick<Group, 'address'>, id: string): BaitSheet | undefined {
  return store.read('bait', sheetAddress(group, id))?.value as BaitSheet | undefined;
}

/** What an earlier run found out about a group, or nothing when its sheets are not all there. */
export function keptOutcome(store: Store, group: Group): Outcome | undefined {
  const whole = group.ids.every((id) =>
    ['sheet', 'brief'].every((what) => store.has(what, sheetAddress(group, id))),
  );
  const shown = group.own.molds.some(({ id, status }) => PUBLISHED.has(status) && group.ids.includes(id));
  const page = !shown || store.has('bait', sheetAddress(group, group.own.bait.id));
  const found = whole && page ? store.read(WORK, group.address) : undefined;
  return found && { ...(found.value as Outcome), timings: [] };
}

/** Times steps that follow one another. */
function stepClock() {
  const done: Timing[] = [];
  let current: { readonly name: string; readonly start: number } | undefined;
  const close = (): void => {
    if (current) done.push({ name: current.name, milliseconds: performance.now() - current.start });
    current = undefined;
  };
  return {
    begin(name: string): void {
      close();
      current = { name, start: performance.now() };
    },
    end(): Timing[] {
      close();
      return done;
    },
  };
}

/** Works a group out and leaves its sheets in the store. What has mistakes is not kept: they name places in files. */
export async function workOut(
  catalogue: Catalogue,
  group: Pick<Group, 'address' | 'ids'>,
  tools: Tools,
  store: Store,
): Promise<Outcome> {
  const clock = stepClock();
  const made = await sheets(catalogue, tools, ({ name }) => clock.begin(name));
  clock.begin(`${group.ids[0] ?? ''}, revisions`);
  const shown = catalogue.molds.some(({ id, status }) => PUBLISHED.has(status) && group.ids.includes(id));
  const baits = shown && made.problems.length === 0 ? await baitSheets(catalogue, made.sheets, tools) : [];
  const timings = clock.end();
  const { problems, warnings, refusals, moves } = made;
  if (problems.length === 0) {
    for (const sheet of made.sheets) {
      if (!group.ids.includes(sheet.id)) continue;
      store.write('sheet', sheetAddress(group, sheet.id), sheet);
      store.write('brief', sheetAddress(group, sheet.id), briefOf(sheet));
    }
    for (const bait of baits) store.write('bait', sheetAddress(group, bait.id), bait);
    store.write(WORK, group.address, { problems, warnings, refusals, moves });
  }
  return { problems, warnings, refusals, moves, timings };
}
