import type { CavityFill } from './fill-cavity.ts';

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
