import { join } from 'node:path';
import { pruneMemory } from '../io/cache.ts';
import { COMPILED_FOLDER } from '../io/compiled.ts';
import { CACHE_FOLDER, contentFolder, outputFolder, PROJECT_ROOT, shownPath } from '../io/settings.ts';
import type { Catalogue } from '../schema/collections.ts';
import { logFaults } from './astro.ts';
import { checked } from './checked.ts';
import { finishSite } from './finish-site.ts';
import { withLock } from './lock.ts';
import { pruneKept } from './pages/kept.ts';
import { idsOf, render, sharesOf } from './pages/render.ts';
import { glanceAt, noteStanding, stands, standsUntouched } from './pages/standing.ts';
import { planOf, type Plan } from './pages/units.ts';
import { complain, counted, say, stopwatch } from './progress.ts';
import {
  bringBeside,
  clearLeftovers,
  discard,
  outputFault,
  stageFor,
  swapIn,
  type Stage,
} from './staging.ts';
import { siteFaults } from './verify-site.ts';

/** Astro keeps notes in one place of the project, so one build runs at a time. */
export const BUILD_LOCK = join(CACHE_FOLDER, 'build.lock');
export const PATIENCE = 15 * 60_000;

/** Words to a person who waits for the lock. */
export const onWait = (holder: string): void => say(`waiting for another build (process ${holder})`);

/**
 * Checks the catalogue, builds the site beside the last one and swaps it in. Whatever happens, `OUT_DIR` holds
 * the whole old site or the whole new one.
 *
 * @returns true when the new site is complete and in place
 */
export async function buildSite(signal: AbortSignal): Promise<boolean> {
  const elapsed = stopwatch();
  const output = outputFolder();
  const fault = await outputFault(output, contentFolder());
  if (fault) return refuse([fault]);
  const stage = stageFor(output);
  try {
    return await withLock(BUILD_LOCK, { patience: PATIENCE, onWait, signal }, async () => {
      await clearLeftovers(output);
      const glance = await glanceAt(contentFolder());
      const untouched = glance === undefined ? undefined : await standsUntouched(output, glance);
      if (untouched) {
        for (const line of untouched) complain(line);
        return stood(output, elapsed());
      }
      const sound = await checked(contentFolder());
      if (!sound) return refuse([]);
      if (sound.refusals.length > 0)
        return refuse([...sound.refusals, 'a final mold that the bench does not back is not built']);
      const moves =
        sound.moves.length > 0 ? [...sound.moves, 'accept what has moved before you upload the site'] : [];
      for (const line of moves) complain(line);
      const { catalogue } = sound.reading;
      const plan = await planOf(catalogue, sound.keys);
      const note = { glance, told: [...sound.told, ...moves] };
      if (await stands(output, plan)) {
        await noteStanding(output, plan, note);
        return stood(output, elapsed());
      }
      if (!(await rendered(catalogue, plan, stage, signal))) return false;
      signal.throwIfAborted();
      await bringBeside(stage);
      await swapIn(output, stage);
      await noteStanding(output, plan, note);
      await pruneMemory();
      await pruneMemory(COMPILED_FOLDER);
      await pruneKept(plan);
      say(`built ${shownPath(output)} in ${elapsed()}`);
      return true;
    });
  } catch (error) {
    return refuse([signal.aborted ? 'stopped' : diskFault(error, output)]);
  } finally {
    await discard(stage);
  }
}

/** Says that there is nothing to do. */
function stood(output: string, elapsed: string): true {
  say(`${shownPath(output)} is built of this already, ${elapsed}`);
  return true;
}

/** Renders the site into the work folder and looks the result over. */
async function rendered(
  catalogue: Catalogue,
  plan: Plan,
  stage: Stage,
  signal: AbortSignal,
): Promise<boolean> {
  const shares = sharesOf(plan);
  const published = idsOf(plan.units, 'molds');
  const open = idsOf(shares.stale, 'molds');
  const kept = published.length - open.length;
  say(
    `building ${counted(published.length, 'mold')}${kept > 0 ? `, ${kept} of them kept as built before` : ''}`,
  );
  const onLine = sheetProgress(open.length);
  const { log, facts } = await render({ catalogue, plan, stage, signal, onLine }, shares);
  const faults = logFaults(log.lines);
  if (!facts) return refuse([...log.lines.slice(-30), `the build ended with code ${log.code}`]);
  if (faults.length > 0) return refuse([...faults, 'the build reported what is above']);
  await finishSite(stage.work, new URL(catalogue.shop.site).pathname, { facts, program: plan.program });
  const wrong = siteFaults(facts, { published, address: catalogue.shop.site });
  return wrong.length === 0 || refuse([...wrong, 'the built site is not whole']);
}

/** Tells of each sheet as its page is written. */
function sheetProgress(total: number): (line: string) => void {
  const elapsed = stopwatch();
  let done = 0;
  return (line) => {
    const [, id] = /\/molds\/([^/]+)\/index\.html/u.exec(line) ?? [];
    if (id) say(`sheet ${++done} of ${total}  ${id}  ${elapsed()}`);
  };
}

/** A fault of the disk in words; anything else is a mistake of the program and keeps its trace. */
function diskFault(error: unknown, output: string): string {
  const { code, message, path } = error as NodeJS.ErrnoException;
  if (code === undefined) throw error;
  const where = path === undefined ? shownPath(output) : shownPath(path);
  const remedy = REMEDIES[code] ?? 'see to the disk, then build again';
  return `${where}: ${message.replaceAll(PROJECT_ROOT, '.')} — ${remedy}`;
}

const REMEDIES: Readonly<Record<string, string>> = {
  ENOSPC: 'free space on the disk, then build again',
  EACCES: 'give yourself leave to write there, or choose another OUT_DIR',
  EPERM: 'give yourself leave to write there, or choose another OUT_DIR',
  EROFS: 'choose an OUT_DIR on a disk that can be written to',
  EBUSY: 'choose an OUT_DIR that is a plain folder, not a mounted disk',
};

function refuse(lines: readonly string[]): false {
  for (const line of lines) complain(line);
  complain('not built; the last site is as it was');
  return false;
}
