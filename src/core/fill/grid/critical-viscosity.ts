import { between } from '../../numeric/check.ts';
import type { Cavity } from './cavity.ts';
import type { FeatureCells } from './feature-cells.ts';
import type { GridFeed } from './feed.ts';
import { fillCavity, FILL_SETTINGS, type CavityFill, type FillSettings } from './fill-cavity.ts';
import type { GridMelt } from './state.ts';

/** Share of a feature’s volume from which it counts as filled [1]: the rest is the rounding of its rim. Source: own choice. */
export const FILLED_SHARE = 0.985;

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

/** Stiffest melt with which a feature fills, in ln of the viscosity at the gate relative to the given one. */
interface Bracket {
  low: number;
  high: number;
  /** Next guess. */
  guess: number;
}

/** How far the viscosity is taken up and down from the given one, in ln: reserves from 0.1 to 10. */
const WIDEST = 2 * Math.log(10);

/** A short feature got as far as √(1/viscosity) lets it: the guess that would just fill it. */
function narrow(bracket: Bracket, at: number, share: number): void {
  const fills = share >= FILLED_SHARE;
  if (fills) bracket.low = Math.max(bracket.low, at);
  else bracket.high = Math.min(bracket.high, at);
  const { low, high } = bracket;
  const open = low === -WIDEST || high === WIDEST;
  const aimed = fills ? at + 1.2 : at + 2 * Math.log(Math.max(0.25, share));
  const inside = aimed > low + 0.02 && aimed < high - 0.02;
  bracket.guess = open && inside ? aimed : open ? Math.min(high, Math.max(low, aimed)) : (low + high) / 2;
}

/** Features whose stiffest melt is sought, and how closely. */
export interface CriticalSearch {
  readonly features: readonly FeatureCells[];
  /** Width of the answer's bracket, relative [1]. */
  readonly tolerance?: number;
  /** Runs at most [1]. */
  readonly most?: number;
  readonly settings?: FillSettings;
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
 * Cost: 4 to 12 filling runs for all features together.
 * Source: own derivation: lengths enter the equations of filling as viscosity times length squared.
 */
export function criticalViscosities(
  cavity: Cavity,
  melt: GridMelt,
  feed: GridFeed,
  search: CriticalSearch,
): number[] {
  const tolerance = between('criticalViscosities: tolerance', search.tolerance ?? 0.06, 1e-3, 1);
  const brackets = search.features.map((): Bracket => ({ low: -WIDEST, high: WIDEST, guess: 0 }));
  const wide = ({ low, high }: Bracket) => high - low > tolerance;
  for (let run = 0; run < (search.most ?? 24); run++) {
    const next = brackets.filter(wide).sort((a, b) => a.guess - b.guess)[0];
    if (next === undefined) break;
    const at = Math.min(WIDEST, Math.max(-WIDEST, next.guess));
    const viscosity = { ...melt.viscosity, reference: melt.viscosity.reference * Math.exp(at) };
    const fill = fillCavity(cavity, { ...melt, viscosity }, feed, [], search.settings ?? FILL_SETTINGS);
    search.features.forEach(({ cells }, n) => narrow(brackets[n]!, at, filledShare(fill, cells)));
  }
  return brackets.map(({ low, high }) => melt.viscosity.reference * Math.exp((low + high) / 2));
}
