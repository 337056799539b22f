import type { HookLie } from './hook-form.ts';

/** Rigs that a hook can be part of. */
export type Rig =
  | 'Texas'
  | 'Carolina'
  | 'shaky head'
  | 'jig trailer'
  | 'drop shot'
  | 'weightless'
  | 'jig head'
  | 'tail on a jig';

/** How a rig sets the hook in the bait. */
export interface RigHabit {
  readonly lie: HookLie;
  /** Where the hook enters, as a share of the bait's length. */
  readonly entry: number;
  /** Share of the body height that lies between shank and point. */
  readonly between: number;
  /** Least and greatest hook length as a share of the length of what is rigged. */
  readonly least: number;
  readonly most: number;
  /** Whether the bait is cut to length for it: `whole` keeps as much of it as a hook allows, `tail` the tail alone. */
  readonly trims: false | 'whole' | 'tail';
}

/** Point back in the body, shank along the belly: all of the height has to be cleared. */
const WEEDLESS: RigHabit = {
  lie: 'weedless',
  entry: 0,
  between: 1,
  least: 0.35,
  most: 0.55,
  trims: false,
};

/** Shank along the middle, point out of the back: half of the height has to be cleared. */
const THREADED: RigHabit = {
  lie: 'threaded',
  entry: 0,
  between: 0.5,
  least: 0.4,
  most: 0.65,
  trims: false,
};

/** Hooked through the nose. */
const NOSE: RigHabit = {
  lie: 'through the nose',
  entry: 0.03,
  between: 1,
  least: 0.14,
  most: 0.4,
  trims: false,
};

/** What each rig does; shares are common practice, their limits an estimate. */
export const RIG_HABITS: Readonly<Record<Rig, RigHabit>> = {
  Texas: WEEDLESS,
  Carolina: WEEDLESS,
  'shaky head': { ...WEEDLESS, least: 0.3 },
  weightless: WEEDLESS,
  'jig trailer': { ...THREADED, trims: 'whole' },
  'jig head': THREADED,
  'drop shot': NOSE,
  'tail on a jig': { ...THREADED, least: 0.3, most: 0.85, trims: 'tail' },
};

/** What is cut to length [m]. */
export interface Trimmed {
  /** Of the whole bait. */
  readonly length: number;
  /** Where its tail begins, from the nose; left out when it has none. */
  readonly tailRoot?: number | undefined;
  /** Overall length of the hook. */
  readonly hook: number;
  /** From the entry to just behind the point: what has to lie ahead of the tail. */
  readonly free: number;
}

/** Less than this share of the length is not worth a cut. */
const WORTH_CUTTING = 0.03;

/**
 * Where to cut a bait so that the hook's point comes out just ahead of the tail.
 *
 * Without a tail it is cut until the hook is long enough for what is left.
 *
 * @param habit - of the rig
 * @param bait - length, tail root, hook length and reach [m]
 * @returns station from the nose [m]; 0 when less than 3 % of the bait would come off
 *
 * Cost: constant.
 * Source: common practice: the point comes out half a gape ahead of where the tail begins to move.
 */
export function trimStation(habit: RigHabit, bait: Trimmed): number {
  if (!habit.trims) return 0;
  const { length, tailRoot, hook, free } = bait;
  const wanted = tailRoot === undefined ? length - hook / habit.least : tailRoot - free;
  const trim = Math.min(wanted, length - hook / habit.most);
  return trim > WORTH_CUTTING * length ? trim : 0;
}
