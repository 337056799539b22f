import type { Cavity } from './cavity.ts';
import type { GridFeed } from './feed.ts';
import { fillCavity, LONG_STEPS, type CavityFill } from './fill-cavity.ts';
import type { ShotConditions } from './reserve-table.ts';

/**
 * Fills a cavity under the conditions of a shot, in long steps.
 *
 * @param cavity - from `cutCavity`
 * @param feed - channels [1/m³] and air [Pa·s/m³]; pressure and flow come with the shot
 * @param shot - conditions [SI]; `gap` and `closing` are taken as 0
 * @returns as `fillCavity`
 * @throws {RangeError} as `fillCavity`
 *
 * Valid: as `fillCavity`.
 * Cost: as `fillCavity`.
 * Source: as `fillCavity`.
 */
export function shotFill(
  cavity: Cavity,
  feed: Pick<GridFeed, 'stretches' | 'airResistance'>,
  shot: ShotConditions,
): CavityFill {
  const { viscosity, melt: temperature, wall, noFlow, diffusivity, pressure, flow } = shot;
  return fillCavity(
    cavity,
    { temperature, wall, noFlow, diffusivity, viscosity, closing: 'own age', cools: true },
    { ...feed, pressure, flowLimit: flow },
    [],
    LONG_STEPS,
  );
}
