import { between } from '../../quantity/guard.ts';
import type { Cavity } from './cavity.ts';
import type { FeatureCells } from './feature-cells.ts';
import type { GridFeed } from './feed.ts';
import { fillCavity, FILL_SETTINGS, type CavityFill, type FillSettings } from './fill-cavity.ts';
import type { GridMelt } from './state.ts';

/**
 * Share of a feature's volume from which it counts as filled: all but its last cell and a half, at most 98.5 %, since
 * the rest is the rounding of its rim.
 *
 * @param cells - of the feature [1]
 * @returns 0 to 1 [1]
 *
 * Cost: constant.
 * Source: own choice: what the grid cannot tell apart does not count as short.
 */
export function filledFrom(cells: number): number {
  return 1 - Math.max(0.015, 1.5 / Math.max(1.5, cells));
}

/**
 * Share of some cells' volume that is filled.
 *
 * @param fill - a run
 * @param cells - of its cavity
 * @returns 0 to 1 [1]; 1 when there are no cells
 *
 * Cost: linear in the cells.
 * Source: definition.
 */
export function filledShare(fill: CavityFill, cells: readonly number[]): number {
  const { share, cavity } = fill.state;
  const whole = cells.reduce((sum, cell) => sum + cavity.volume[cell]!, 0);
  const held = cells.reduce((sum, cell) => sum + share[cell]! * cavity.volume[cell]!, 0);
  return whole > 0 ? held / whole : 1;
}

/** How far the viscosity is taken up and down from the given one, in ln: reserves from 0.1 to 10. */
const WIDEST = 2 * Math.log(10);

/** Features whose stiffest melt is sought, and how closely. */
export interface CriticalSearch {
  readonly features: readonly FeatureCells[];
  /** Width of the answer's bracket, relative [1]. */
  readonly tolerance?: number;
  /** Runs at most, for each feature [1]. */
  readonly most?: number;
  readonly settings?: FillSettings;
}

/** A cavity under a shot, at viscosities that are tried. */
export interface Trials {
  /** Share of each feature that fills at a viscosity exp(at) times the given one. */
  readonly sharesAt: (at: number) => readonly number[];
}

/**
 * A shot that can be tried at other viscosities.
 *
 * @param cavity - from `cutCavity`
 * @param melt - as `fillCavity`
 * @param feed - as `fillCavity`
 * @param search - features and settings [1]
 * @returns shares of the features [1], each viscosity run once
 * @throws {RangeError} as `fillCavity`, when a viscosity is tried
 *
 * Cost: a filling run a viscosity.
 * Source: definition.
 */
export function viscosityTrials(
  cavity: Cavity,
  melt: GridMelt,
  feed: GridFeed,
  search: Pick<CriticalSearch, 'features' | 'settings'>,
): Trials {
  const kept = new Map<number, readonly number[]>();
  const sharesAt = (at: number) => {
    const known = kept.get(at);
    if (known) return known;
    const viscosity = { ...melt.viscosity, reference: melt.viscosity.reference * Math.exp(at) };
    const fill = fillCavity(cavity, { ...melt, viscosity }, feed, [], search.settings ?? FILL_SETTINGS);
    const shares = search.features.map(({ cells }) => filledShare(fill, cells));
    kept.set(at, shares);
    return shares;
  };
  return { sharesAt };
}

/** Viscosities tried so far for one feature, in ln. */
interface Bracket {
  /** Stiffest that filled below the thinnest that did not. */
  low: number;
  high: number;
  /** Share at `high`. */
  share: number;
}

function noted(bracket: Bracket, at: number, share: number, wanted: number): Bracket {
  const { low, high } = bracket;
  if (share >= wanted) return at < high ? { ...bracket, low: Math.max(low, at) } : bracket;
  // What fills beyond a melt that does not is no reserve.
  return at < high ? { low: low < at ? low : -Infinity, high: at, share } : bracket;
}

/** By how much the melt would have to be thinner, in ln, for a feature that got as far as √(1/viscosity) lets it. */
const fallShort = (share: number, wanted: number) => 2 * Math.log(wanted / Math.max(0.2, share));

/** A short feature got as far as √(1/viscosity) lets it: the guess that would just fill it. */
function nextGuess({ low, high, share }: Bracket, start: number, wanted: number): number {
  if (high === Infinity) return low === -Infinity ? start : Math.min(WIDEST, low + 1.2);
  const aimed = high - fallShort(share, wanted) - 0.01;
  if (low === -Infinity) return Math.max(-WIDEST, aimed);
  const inside = aimed > low + 0.02 && aimed < high - 0.02 && high - low > 0.3;
  return inside ? aimed : (low + high) / 2;
}

function criticalOf(
  trials: Trials,
  feature: number,
  wanted: number,
  limits: { start: number; tolerance: number; most: number },
): number {
  let bracket: Bracket = { low: -Infinity, high: Infinity, share: 1 };
  for (let run = 0; run < limits.most && !(bracket.high - bracket.low <= limits.tolerance); run++) {
    const at = nextGuess(bracket, limits.start, wanted);
    bracket = noted(bracket, at, trials.sharesAt(at)[feature]!, wanted);
    if (bracket.low >= WIDEST) return WIDEST;
    if (bracket.high <= -WIDEST) return -WIDEST;
  }
  return (Math.max(-WIDEST, bracket.low) + Math.min(WIDEST, bracket.high)) / 2;
}

/**
 * Stiffest melt with which each feature still fills, all else alike. The reserve of a feature is the square root of this
 * over the melt's own viscosity: as far as everything could be stretched and still fill.
 *
 * @param cavity - from `cutCavity`
 * @param melt - as `fillCavity`
 * @param feed - as `fillCavity`
 * @param search - features, tolerance [1], most runs [1]
 * @returns viscosity at the melt's reference temperature [Pa·s], one a feature; bounded to a hundredth and to a hundred
 *   times the given one
 * @throws {RangeError} as `fillCavity`
 *
 * Valid: as `fillCavity`. A feature without cells counts as filled.
 * Cost: 4 to 10 filling runs a feature, shared where features are alike.
 * Source: own derivation: lengths enter the equations of filling as viscosity times length squared.
 */
export function criticalViscosities(
  cavity: Cavity,
  melt: GridMelt,
  feed: GridFeed,
  search: CriticalSearch,
): number[] {
  const tolerance = between('criticalViscosities: tolerance', search.tolerance ?? 0.06, 1e-3, 1);
  const trials = viscosityTrials(cavity, melt, feed, search);
  let start = 0;
  return search.features.map(({ cells }, feature) => {
    const limits = { start, tolerance, most: search.most ?? 24 };
    start = criticalOf(trials, feature, filledFrom(cells.length), limits);
    return melt.viscosity.reference * Math.exp(start);
  });
}

/** A feature's stiffest melt under known conditions, and how its share falls with stiffer ones. */
export interface KnownCritical {
  /** ln of the stiffest melt relative to the given one. */
  readonly at: number;
  /** Share lost a unit of ln viscosity just beyond it [1]. */
  readonly slope: number;
}

/** How far beyond the stiffest melt its slope is measured, in ln. */
const BEYOND = 0.2;

/**
 * How the share of a feature falls just beyond its stiffest melt.
 *
 * @param trials - from `viscosityTrials`
 * @param feature - index of the feature
 * @param cells - how many it has [1]
 * @param at - ln of its stiffest melt relative to the given one
 * @returns `at` with the slope [1]
 *
 * Cost: a filling run.
 * Source: difference quotient.
 */
export function knownCritical(trials: Trials, feature: number, cells: number, at: number): KnownCritical {
  const lost = filledFrom(cells) - trials.sharesAt(at + BEYOND)[feature]!;
  return { at, slope: Math.max(0.05, lost / BEYOND) };
}

/** Shares within this part of the wanted one are close enough for its slope [1]. */
const NEAR = 0.8;

/** Next viscosity of a search that has no slope to go by. */
function stepped({ low, high, share }: Bracket, stride: number, wanted: number): number {
  if (high === Infinity) return Math.min(WIDEST, low + stride);
  if (low === -Infinity) return Math.max(-WIDEST, high - Math.min(stride, fallShort(share, wanted)));
  return (low + high) / 2;
}

const middleOf = ({ low, high }: Bracket) => (Math.max(-WIDEST, low) + Math.min(WIDEST, high)) / 2;

/** Width of the bracket where a feature jumps from short to full, in ln. */
const JUMP = 0.1;

/**
 * Stiffest melt of a feature under conditions a little off known ones: one short run, put right by the known slope.
 *
 * @param trials - of the new conditions
 * @param feature - index of the feature
 * @param cells - how many it has [1]
 * @param known - under the old conditions
 * @returns ln of the stiffest melt relative to the given one
 *
 * Valid: while the feature stops by freezing along its length. Where it jumps from short to full a bracket of 0.1.
 * Cost: 1 to 3 filling runs, up to 12 where it jumps.
 * Source: own derivation.
 */
export function shiftedCritical(
  trials: Trials,
  feature: number,
  cells: number,
  known: KnownCritical,
): number {
  const wanted = filledFrom(cells);
  let bracket: Bracket = { low: -Infinity, high: Infinity, share: 1 };
  let at = Math.min(WIDEST, known.at + BEYOND / 2);
  for (let run = 0; run < 12; run++) {
    bracket = noted(bracket, at, trials.sharesAt(at)[feature]!, wanted);
    const { low, high, share } = bracket;
    if (low >= WIDEST) return WIDEST;
    if (high <= -WIDEST) return -WIDEST;
    if (high < Infinity && share > NEAR * wanted) {
      return Math.max(low, high - (wanted - share) / known.slope);
    }
    if (high - low < JUMP) break;
    at = stepped(bracket, 0.3 * 2 ** run, wanted);
  }
  return middleOf(bracket);
}

/** Width of the bracket of a closer search, and the most that its slope may bridge, in ln. */
const CLOSE = 0.03;
/** How far beyond the expected end a run is placed so that it comes short, in ln. */
const ASIDE = 0.012;

/**
 * Stiffest melt of a feature that is known from a coarser grid: short runs nearer and nearer, the slope taken from the
 * last two of them, until it bridges no more than 0.03.
 *
 * @param trials - on the finer grid
 * @param feature - index of the feature
 * @param cells - how many it has [1]
 * @param known - on the coarser grid
 * @returns ln of the stiffest melt relative to the given one, within 0.015
 *
 * Valid: as `shiftedCritical`. Where it jumps from short to full a bracket of 0.03.
 * Cost: 2 to 4 filling runs, up to 12 where it jumps.
 * Source: own derivation; secant method.
 */
export function closerCritical(trials: Trials, feature: number, cells: number, known: KnownCritical): number {
  const wanted = filledFrom(cells);
  let bracket: Bracket = { low: -Infinity, high: Infinity, share: 1 };
  let at = Math.min(WIDEST, known.at + BEYOND / 2);
  for (let run = 0; run < 12; run++) {
    const before = bracket;
    bracket = noted(bracket, at, trials.sharesAt(at)[feature]!, wanted);
    const { low, high, share } = bracket;
    if (low >= WIDEST) return WIDEST;
    if (high <= -WIDEST) return -WIDEST;
    if (high - low <= CLOSE) break;
    const own = before.high < Infinity && high < before.high && share > before.share;
    const slope = own ? Math.max(0.05, (share - before.share) / (before.high - high)) : known.slope;
    const bridged = (wanted - share) / slope;
    if (own && bridged <= CLOSE) return Math.max(low, high - bridged);
    const aimed = high - bridged + ASIDE;
    const usable = high < before.high && share > NEAR * wanted && aimed < high && aimed > low;
    at = usable ? aimed : stepped(bracket, 0.2 * 2 ** run, wanted);
  }
  return middleOf(bracket);
}
