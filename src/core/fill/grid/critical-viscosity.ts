import { between } from '../../quantity/guard.ts';
import type { Cavity } from './cavity.ts';
import type { FeatureCells } from './feature-cells.ts';
import type { GridFeed } from './feed.ts';
import { fillCavity, FILL_SETTINGS, type FillSettings } from './fill-cavity.ts';
import { soughtCritical, type Trials } from './critical-search.ts';
import { filledShare } from './filled-share.ts';
import type { GridMelt } from './state.ts';

/** Features whose stiffest melt is sought, and how closely. */
export interface CriticalSearch {
  readonly features: readonly FeatureCells[];
  /** Width of the answer's bracket, relative [1]. */
  readonly tolerance?: number;
  readonly settings?: FillSettings;
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
  return { tried: () => [...kept.keys()], sharesAt };
}

/**
 * Stiffest melt with which each feature still fills, all else alike. The reserve of a feature is the square root of this
 * over the melt's own viscosity: as far as everything could be stretched and still fill.
 *
 * @param cavity - from `cutCavity`
 * @param melt - as `fillCavity`
 * @param feed - as `fillCavity`
 * @param search - features, tolerance [1]
 * @returns viscosity at the melt's reference temperature [Pa·s], one a feature; bounded to a hundredth and to a hundred
 *   times the given one
 * @throws {RangeError} as `fillCavity`
 *
 * Valid: as `fillCavity`. A feature without cells counts as filled.
 * Cost: 4 to 8 filling runs for the first feature, fewer for those that are like it.
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
  return search.features.map(({ cells }, feature) => {
    const at = soughtCritical(trials, feature, cells.length, tolerance / 2);
    return melt.viscosity.reference * Math.exp(at);
  });
}
