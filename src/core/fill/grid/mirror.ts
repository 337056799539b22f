import type { CavityMap } from './plan-width.ts';

/** The entry on the other side of the middle line of a map. */
export function mirrorPlace({ nx, ny }: Pick<CavityMap, 'nx' | 'ny'>, place: number): number {
  const i = place % nx;
  return i + nx * (ny - 1) - (place - i);
}

/** How unlike two mirrored heights, and two mirrored thicknesses, may be, over the larger [1]. */
const ALIKE = { height: 1e-6, thickness: 0.1 } as const;

/**
 * Whether a cavity is its own mirror image about the middle line of its map. Thicknesses, which balls on a grid tell, may be a
 * tenth apart.
 *
 * @param map - heights and thicknesses [m]
 *
 * Cost: linear in the map.
 * Source: definition; tolerances: own choice.
 */
export function isMirrored(map: Pick<CavityMap, 'nx' | 'ny' | 'height' | 'thickness'>): boolean {
  const { nx, ny, height, thickness } = map;
  const alike = (values: Float64Array, place: number, within: number) => {
    const [one, other] = [values[place]!, values[mirrorPlace(map, place)]!];
    return Math.abs(one - other) <= within * Math.max(one, other);
  };
  for (let place = nx * Math.ceil(ny / 2); place < height.length; place++) {
    if (!alike(height, place, ALIKE.height)) return false;
    if (thickness && !alike(thickness, place, ALIKE.thickness)) return false;
  }
  return true;
}
