import type { Voxels } from '../../src/core/section/voxels.ts';

/** Cubes as drawn: storeys of rows along x, the first row at the least y; `#` is solid. */
export function voxelsOf(
  storey: readonly string[],
  { origin = [0, 0, 0], cell = 1 }: Partial<Pick<Voxels, 'origin' | 'cell'>> = {},
  ...others: readonly (readonly string[])[]
): Voxels {
  const signs = [storey, ...others].flat().join('');
  const places = Array.from(signs.matchAll(/#/gu), ({ index }) => index);
  const numbers = new Int32Array(signs.length).fill(-1);
  places.forEach((place, cube) => (numbers[place] = cube));
  return {
    origin,
    cell,
    counts: [storey[0]!.length, storey.length, 1 + others.length],
    cubes: Int32Array.from(places),
    numbers,
  };
}
