import type { Band } from '../quantity/band.ts';
import { needNonNegative, needPositive } from '../quantity/guard.ts';

/** Room left in the injector beyond the shot, so that the plunger never bottoms out: common practice. */
export const INJECTOR_RESERVE = 0.1;

/**
 * Whole mold shots that one filling of an injector gives, with reserve left over.
 *
 * @param shot - hot volume of one shot [m³]; the high end counts
 * @param capacity - volume of one full stroke [m³]
 * @param reserve - share of the shots' volume that has to stay as headroom [1]
 * @returns whole number of shots; 0 when it does not hold one with reserve
 * @throws {RangeError} when a volume is not positive or the reserve is negative
 *
 * Cost: constant.
 * Source: definition; a reserve of 10 % is common practice.
 */
export function wholeShots(shot: Band, capacity: number, reserve: number = INJECTOR_RESERVE): number {
  needPositive('wholeShots', { shot: shot.high, capacity });
  needNonNegative('wholeShots', { reserve });
  return Math.floor(capacity / (1 + reserve) / shot.high + 1e-9);
}

/**
 * The smallest injector that holds one shot with reserve.
 *
 * @param shot - hot volume of one shot [m³]
 * @param injectors - with capacities [m³], any order
 * @param reserve - headroom as a share of the shot [1]
 * @returns the injector, or null when none holds it
 * @throws {RangeError} when a volume is not positive
 *
 * Cost: linear in the number of injectors.
 * Source: definition; a reserve of 10 % is common practice.
 */
export function smallestInjector<Listed extends { readonly capacity: number }>(
  shot: Band,
  injectors: readonly Listed[],
  reserve: number = INJECTOR_RESERVE,
): Listed | null {
  const holding = injectors.filter(({ capacity }) => wholeShots(shot, capacity, reserve) >= 1);
  return holding.reduce<Listed | null>(
    (best, next) => (best === null || next.capacity < best.capacity ? next : best),
    null,
  );
}
