import fs, { type StatOptions, type Stats, type TimeLike } from 'node:fs';
import promises from 'node:fs/promises';
import { syncBuiltinESMExports } from 'node:module';

/**
 * Loaded before a command, and so into every process and thread that it starts: a machine whose clock runs more than eleven
 * years ahead, over leap days and past the end of 32-bit time. Files that are written and looked at go by the same clock.
 */
const AHEAD = Date.UTC(2038, 1, 1) - Date.UTC(2026, 10, 1);

const Real = Date;
const now = (): number => Real.now() + AHEAD;

globalThis.Date = new Proxy(Real, {
  construct: (target, args: [], newTarget) =>
    Reflect.construct(target, args.length === 0 ? [now()] : args, newTarget) as Date,
  apply: () => new Real(now()).toString(),
  get: (target, key, receiver) => (key === 'now' ? now : (Reflect.get(target, key, receiver) as unknown)),
});

type Path = Parameters<typeof fs.statSync>[0];

/** Times of a file as this machine would have set them; in whole nanoseconds they are left alone, being compared only. */
function seen<Found>(found: Found): Found {
  const stats = found as Stats | undefined;
  if (typeof stats?.mtimeMs === 'number') {
    stats.mtimeMs += AHEAD;
    stats.ctimeMs += AHEAD;
  }
  return found;
}

/** A time to set, as the disk takes it [s]. */
const behind = (time: TimeLike): number =>
  (typeof time === 'number' ? time : Number(time) / 1000) - AHEAD / 1000;

const { statSync, utimesSync } = fs;
const { stat, utimes } = promises;
Object.assign(fs, {
  statSync: (path: Path, options?: StatOptions) => seen(statSync(path, options)),
  utimesSync: (path: Path, accessed: TimeLike, changed: TimeLike) =>
    utimesSync(path, behind(accessed), behind(changed)),
});
Object.assign(promises, {
  stat: async (path: Path, options?: StatOptions) => seen(await stat(path, options)),
  utimes: (path: Path, accessed: TimeLike, changed: TimeLike) =>
    utimes(path, behind(accessed), behind(changed)),
});
syncBuiltinESMExports();
