import { band, type Band } from '../quantity/band.ts';
import type { Source } from '../quantity/figure.ts';
import { need, needPositive } from '../quantity/guard.ts';

/** Rigs that a hook can be part of. */
export type Rig =
  'Texas' | 'Carolina' | 'shaky head' | 'jig trailer' | 'drop shot' | 'weightless' | 'jig head';

/** Gape over the body height it has to clear: from here on comfortable. */
export const RATIO_COMFORTABLE = 1.5;
/** Below this the point does not come free. */
export const RATIO_LEAST = 1.2;

/** Height of a soft body between a fish's jaws over its height at rest. */
export const SQUEEZED: Band = band(0.5, 0.4, 0.6);

/** Where the fit rule comes from. */
export const HOOK_FIT_SOURCES: readonly Source[] = [
  {
    title: 'Gape over squeezed body height: 1.5 comfortable, 1.2 to 1.5 marginal, below 1.2 too small',
    kind: 'common practice',
  },
  {
    title: 'A soft body is squeezed to half its height (0.4 to 0.6) before the point has to clear it',
    kind: 'estimate',
    note: 'set so that a bulky five-inch bait of 16 to 19 mm takes about a 3/0 extra wide gap, common practice',
  },
  {
    title: 'Hook length over bait length by rig',
    kind: 'common practice',
    note: 'limits are an estimate; no hook has a dimensional standard, so measure yours',
  },
];

/** How a rig sets the hook in the bait. */
interface RigHabit {
  /** Where the hook enters, as a share of the bait's length. */
  readonly entry: number;
  /** Where point or bend comes out, measured back from the entry as a share of the hook's length. */
  readonly reach: number;
  /** Share of the body height that lies between shank and point. */
  readonly between: number;
  /** Least and greatest hook length as a share of the bait's length. */
  readonly least: number;
  readonly most: number;
}

/** Point back in the body, shank along the belly: all of the height has to be cleared. */
const WEEDLESS: RigHabit = { entry: 0, reach: 1, between: 1, least: 0.35, most: 0.55 };
/** Shank along the middle, point out of the back: half of the height has to be cleared. */
const THREADED: RigHabit = { entry: 0, reach: 0.75, between: 0.5, least: 0.4, most: 0.65 };
/** Hooked through the nose. */
const NOSE: RigHabit = { entry: 0.03, reach: 0, between: 1, least: 0.14, most: 0.4 };

const HABITS: Readonly<Record<Rig, RigHabit>> = {
  Texas: WEEDLESS,
  Carolina: WEEDLESS,
  'shaky head': { ...WEEDLESS, least: 0.3 },
  weightless: WEEDLESS,
  'jig trailer': THREADED,
  'jig head': THREADED,
  'drop shot': NOSE,
};

/** One size of a hook [m]. */
export interface HookDimensions {
  readonly gape: number;
  readonly length: number;
  readonly wire: number;
}

/** What a hook has to fit in. */
export interface HookedBait {
  /** Overall length [m]. */
  readonly length: number;
  /** Body height [m] across the way the hook pulls, at a station from the nose [m]. */
  readonly heightAt: (station: number) => number;
}

/** How a hook sits in a bait. */
export interface GapeFit {
  /** Where it enters and comes out, from the nose [m]. */
  readonly entry: number;
  readonly exit: number;
  /** Tallest body height between shank and point, at rest [m]. */
  readonly height: number;
  /** Gape less squeezed height [m]; below 0 the point is buried. */
  readonly clearance: Band;
  /** Gape over squeezed height [1]. */
  readonly ratio: Band;
  /** Hook length over bait length [1]. */
  readonly lengthShare: number;
  readonly verdict: 'fits' | 'tight' | 'too small' | 'too large';
  /** The rule that decided. */
  readonly reason: 'comfortable' | 'gape' | 'short hook' | 'long hook' | 'thick wire';
}

/**
 * Room between a hook's point and the body it has to clear.
 *
 * @param gape - distance from point to shank [m]
 * @param height - body height between them, squeezed or not [m]
 * @returns clearance [m] and gape over height [1]
 * @throws {RangeError} when either is not positive
 *
 * Cost: constant.
 * Source: definition; thresholds 1.5 and 1.2 are common practice.
 */
export function gapeClearance(gape: number, height: number): { clearance: number; ratio: number } {
  needPositive('gapeClearance', { gape, height });
  return { clearance: gape - height, ratio: gape / height };
}

/** Wire thicker than this share of the body height tears a soft bait. */
const WIRE_MOST = 0.25;

/** Tallest height near the place where the point comes out: the squeeze takes in half a gape either way. */
function tallestNear(bait: HookedBait, station: number, reach: number): number {
  const steps = [-1, -0.5, 0, 0.5, 1].map((part) => station + part * reach);
  return Math.max(...steps.map((x) => bait.heightAt(Math.min(bait.length, Math.max(0, x)))));
}

function verdictOf(
  ratio: number,
  share: number,
  wire: number,
  habit: RigHabit,
): Pick<GapeFit, 'verdict' | 'reason'> {
  // A hook that reaches into the tail is too long whatever it would have to clear there.
  if (share > habit.most) return { verdict: 'too large', reason: 'long hook' };
  if (ratio < RATIO_LEAST) return { verdict: 'too small', reason: 'gape' };
  if (share < habit.least) return { verdict: 'too small', reason: 'short hook' };
  if (wire > WIRE_MOST) return { verdict: 'too large', reason: 'thick wire' };
  if (ratio < RATIO_COMFORTABLE) return { verdict: 'tight', reason: 'gape' };
  return { verdict: 'fits', reason: 'comfortable' };
}

/**
 * How one hook size fits a bait on a rig.
 *
 * @param hook - gape, length, wire [m]
 * @param bait - length [m] and height [m] at a station [m]
 * @param rig - how it is rigged
 * @returns stations, clearance, ratio and verdict, taken at the nominal squeeze
 * @throws {RangeError} when a size is not positive
 *
 * Valid: soft bodies; Texas style clears the whole squeezed height, a threaded hook half of it.
 * Cost: five heights.
 * Source: gape over squeezed body height, 1.5 comfortable, 1.2 least, hook 0.35 to 0.55 of the bait on weedless
 * rigs, 0.40 to 0.65 threaded, 0.14 to 0.40 through the nose; common practice. Squeeze to 0.5 (0.4 to 0.6) is an estimate.
 */
export function hookFit(hook: HookDimensions, bait: HookedBait, rig: Rig): GapeFit {
  const { gape, length, wire } = hook;
  needPositive('hookFit', { gape, length, wire, baitLength: bait.length });
  const habit = HABITS[rig];
  const entry = habit.entry * bait.length;
  const exit = entry + habit.reach * length;
  const height = tallestNear(bait, Math.min(exit, bait.length), gape / 2);
  need(height > 0 && height < Infinity, 'hookFit', 'a body height above 0 at the hook', height);
  const squeezed = (factor: number) => gapeClearance(gape, height * habit.between * factor);
  const nominal = squeezed(SQUEEZED.value);
  const flat = squeezed(SQUEEZED.low);
  const full = squeezed(SQUEEZED.high);
  const lengthShare = length / bait.length;
  return {
    entry,
    exit,
    height,
    clearance: band(nominal.clearance, full.clearance, flat.clearance),
    ratio: band(nominal.ratio, full.ratio, flat.ratio),
    lengthShare,
    ...verdictOf(nominal.ratio, lengthShare, wire / height, habit),
  };
}

/**
 * The size to recommend: the smallest that fits, else the largest that is merely tight.
 *
 * @param fits - of the sizes of one pattern, from small to large
 * @returns index into `fits`, or −1 when none will do
 *
 * Cost: linear in the number of sizes.
 * Source: common practice.
 */
export function bestHookIndex(fits: readonly Pick<GapeFit, 'verdict'>[]): number {
  const first = fits.findIndex(({ verdict }) => verdict === 'fits');
  return first >= 0 ? first : fits.findLastIndex(({ verdict }) => verdict === 'tight');
}

/**
 * Mass of a hook from its wire.
 *
 * @param wire - diameter [m]
 * @param length - of the wire, straightened [m]
 * @param density - of the metal [kg/m³]
 * @returns mass [kg]
 * @throws {RangeError} when an input is not positive
 *
 * Valid: round wire; eye and barb not counted.
 * Cost: constant.
 * Source: cylinder.
 */
export function wireMass(wire: number, length: number, density: number): number {
  needPositive('wireMass', { wire, length, density });
  return (Math.PI / 4) * wire ** 2 * length * density;
}
