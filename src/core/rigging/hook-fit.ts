import { band, type Band } from '../quantity/band.ts';
import type { Source } from '../quantity/figure.ts';
import { need, needPositive } from '../quantity/guard.ts';
import { EYE_AHEAD, type HookLie, type HookSizes } from './hook-form.ts';
import { RIG_HABITS, trimStation, type Rig, type RigHabit } from './rigs.ts';

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

/** What a hook has to fit in. */
export interface HookedBait {
  /** Overall length [m]. */
  readonly length: number;
  /** Body height [m] in the plane of the hook, at a station from the nose [m]. */
  readonly heightAt: (station: number) => number;
  /** Where a tail begins, from the nose [m]; left out when the bait has none. */
  readonly tailRoot?: number | undefined;
}

/** How a hook sits in a bait. Stations run from the nose of the whole bait [m]. */
export interface GapeFit {
  /** Where the bait is cut off to fit the rig; 0 when it stays whole. */
  readonly trim: number;
  /** Where the hook enters. */
  readonly entry: number;
  /** Where its point lies. */
  readonly point: number;
  /** Where its bend ends. */
  readonly reach: number;
  /** Tallest body height between shank and point, at rest [m]. */
  readonly height: number;
  /** The same, squeezed as a fish does; what the point has to clear [m]. */
  readonly squeezed: Band;
  /** Gape less squeezed height [m]; below 0 the point is buried. */
  readonly clearance: Band;
  /** Gape over squeezed height [1]. */
  readonly ratio: Band;
  /** Hook length over the length of what is rigged [1]. */
  readonly lengthShare: number;
  /** Wire over body height [1]. */
  readonly wireShare: number;
  readonly verdict: 'fits' | 'tight' | 'too small' | 'too large';
  /** The rule that decided. */
  readonly reason: 'comfortable' | 'gape' | 'short hook' | 'long hook' | 'into the tail' | 'thick wire';
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
export const WIRE_MOST = 0.25;

/** Tallest height near the place of the point: the squeeze takes in half a gape either way. */
function tallestNear(bait: HookedBait, station: number, reach: number): number {
  const steps = [-1, -0.5, 0, 0.5, 1].map((part) => station + part * reach);
  return Math.max(...steps.map((x) => bait.heightAt(Math.min(bait.length, Math.max(0, x)))));
}

/** From the entry to the point and to the end of the bend [m]. */
function reaches(lie: HookLie, { length, bite }: HookSizes): { point: number; bend: number } {
  if (lie === 'through the nose') return { point: 0, bend: 0 };
  const ahead = lie === 'threaded' ? EYE_AHEAD * length : 0;
  return { point: length - ahead - bite, bend: length - ahead };
}

interface Judged {
  readonly ratio: number;
  readonly share: number;
  readonly wire: number;
  readonly intoTail: boolean;
}

function verdictOf(judged: Judged, habit: RigHabit): Pick<GapeFit, 'verdict' | 'reason'> {
  const { ratio, share, wire, intoTail } = judged;
  // A hook that reaches into the tail is too long whatever it would have to clear there.
  if (share > habit.most) return { verdict: 'too large', reason: 'long hook' };
  if (intoTail) return { verdict: 'too large', reason: 'into the tail' };
  if (ratio < RATIO_LEAST) return { verdict: 'too small', reason: 'gape' };
  if (share < habit.least) return { verdict: 'too small', reason: 'short hook' };
  if (wire > WIRE_MOST) return { verdict: 'too large', reason: 'thick wire' };
  if (ratio < RATIO_COMFORTABLE) return { verdict: 'tight', reason: 'gape' };
  return { verdict: 'fits', reason: 'comfortable' };
}

/**
 * How one hook size fits a bait on a rig.
 *
 * @param hook - gape, length, throat, wire [m]
 * @param bait - length [m], height [m] at a station [m], and where its tail begins [m]
 * @param rig - how it is rigged
 * @returns stations, clearance, ratio and verdict, taken at the nominal squeeze
 * @throws {RangeError} when a size is not positive
 *
 * Valid: soft bodies; Texas style clears the whole squeezed height, a threaded hook half of it.
 * Cost: five heights.
 * Source: gape over squeezed body height, 1.5 comfortable, 1.2 least, hook 0.35 to 0.55 of the bait on weedless
 * rigs, 0.40 to 0.65 threaded, 0.14 to 0.40 through the nose; common practice. Squeeze to 0.5 (0.4 to 0.6) is an estimate.
 */
export function hookFit(hook: HookSizes, bait: HookedBait, rig: Rig): GapeFit {
  const { gape, length, bite, wire } = hook;
  needPositive('hookFit', { gape, length, bite, wire, baitLength: bait.length });
  const habit = RIG_HABITS[rig];
  const way = reaches(habit.lie, hook);
  const trim = trimStation(habit, { ...bait, hook: length, free: way.point + gape / 2 });
  const entry = trim + habit.entry * bait.length;
  const point = entry + way.point;
  const height = tallestNear(bait, Math.min(point, bait.length), gape / 2);
  need(height > 0 && height < Infinity, 'hookFit', 'a body height above 0 at the hook', height);
  const squeezed = (factor: number) => height * habit.between * factor;
  const at = (factor: number) => gapeClearance(gape, squeezed(factor));
  const [nominal, flat, full] = [at(SQUEEZED.value), at(SQUEEZED.low), at(SQUEEZED.high)];
  const lengthShare = length / (bait.length - trim);
  const wireShare = wire / height;
  const intoTail = habit.trims !== false && bait.tailRoot !== undefined && point > bait.tailRoot;
  return {
    trim,
    entry,
    point,
    reach: entry + way.bend,
    height,
    squeezed: band(squeezed(SQUEEZED.value), squeezed(SQUEEZED.low), squeezed(SQUEEZED.high)),
    clearance: band(nominal.clearance, full.clearance, flat.clearance),
    ratio: band(nominal.ratio, full.ratio, flat.ratio),
    lengthShare,
    wireShare,
    ...verdictOf({ ratio: nominal.ratio, share: lengthShare, wire: wireShare, intoTail }, habit),
  };
}

/** The size to recommend, and the sizes that will do. */
export interface HookChoice {
  /** Index of the best; −1 when none will do. */
  readonly best: number;
  /** Indices of the smallest and the largest that fit or are merely tight; −1 when none. */
  readonly smallest: number;
  readonly largest: number;
}

/**
 * The size to recommend: the smallest that fits, else the largest that is merely tight; and the range that will do.
 *
 * @param fits - of the sizes of one pattern, from small to large; `trim` is what each cuts off [m]
 * @returns indices into `fits`, −1 where none will do
 *
 * Valid: where a bait is cut to fit and as much of it as possible should stay, set `keep`: the least trim comes first.
 * Cost: linear in the number of sizes.
 * Source: common practice.
 */
export function hookChoice(fits: readonly Pick<GapeFit, 'verdict' | 'trim'>[], keep = false): HookChoice {
  const usable = ({ verdict }: Pick<GapeFit, 'verdict'>) => verdict === 'fits' || verdict === 'tight';
  const fitting = fits.filter(({ verdict }) => verdict === 'fits');
  const least = Math.min(...fitting.map(({ trim }) => (keep ? trim : 0)));
  const first = fits.findIndex(({ verdict, trim }) => verdict === 'fits' && (!keep || trim <= least));
  return {
    best: first >= 0 ? first : fits.findLastIndex(({ verdict }) => verdict === 'tight'),
    smallest: fits.findIndex(usable),
    largest: fits.findLastIndex(usable),
  };
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
