import type { Box, Vec3 } from '../mesh/mesh.ts';
import type { BoxTree } from './box-tree.ts';
import { stretchesInside } from './inside.ts';

/**
 * The solid inside a box as cubes. Cube n is `cubes[n]` = i + nx·(j + ny·k); `numbers` leads back from there to n, and
 * holds −1 where there is no solid.
 */
export interface Voxels {
  readonly origin: Vec3;
  readonly cell: number;
  readonly counts: readonly [number, number, number];
  readonly cubes: Int32Array;
  readonly numbers: Int32Array;
}

/** Cubes that the solid in the box is cut into, about. */
const TARGET = 40_000;
const LIMIT = 4_000_000;

/**
 * The solid inside a box as cubes, about 40 000 of them unless more are wanted. Along z a cube that the solid only
 * touches counts too, so a thin flat part is never lost.
 *
 * @param tree - boxes over a closed mesh [m]
 * @param box - where to look [m]
 * @param target - about how many cubes are wanted
 * @returns the cubes [m]; none where the box holds no solid
 *
 * Valid: parts at least as thick as a cube across x and y.
 * Cost: a line search for each column.
 * Source: own derivation.
 */
export function voxelsIn(tree: BoxTree, box: Box, target = TARGET): Voxels {
  const sides: Vec3 = [box.max[0] - box.min[0], box.max[1] - box.min[1], box.max[2] - box.min[2]];
  const space = sides[0] * sides[1] * sides[2];
  const coarse = filledVoxels(tree, box, sides, Math.cbrt(space / target));
  const solid = coarse.cubes.length * coarse.cell ** 3;
  if (solid === 0) return coarse;
  return filledVoxels(tree, box, sides, Math.max(Math.cbrt(solid / target), Math.cbrt(space / LIMIT)));
}

function filledVoxels(tree: BoxTree, { min, max }: Box, sides: Vec3, cell: number): Voxels {
  const counts = sides.map((side) => Math.max(1, Math.ceil(side / cell - 1e-9))) as [number, number, number];
  const [nx, ny, nz] = counts;
  const numbers = new Int32Array(nx * ny * nz).fill(-1);
  const cubes: number[] = [];
  for (let j = 0; j < ny; j++) {
    for (let i = 0; i < nx; i++) {
      for (const [bottom, top] of stretchesInside(
        tree,
        min[0] + (i + 0.5) * cell,
        min[1] + (j + 0.5) * cell,
      )) {
        // The last cube may reach beyond the box.
        if (bottom > max[2]) continue;
        const first = Math.max(0, Math.floor((bottom - min[2]) / cell));
        const last = Math.min(nz - 1, Math.floor((top - min[2]) / cell));
        for (let k = first; k <= last; k++) {
          const place = i + nx * (j + ny * k);
          if (numbers[place]! >= 0) continue;
          numbers[place] = cubes.length;
          cubes.push(place);
        }
      }
    }
  }
  return { origin: min, cell, counts, cubes: Int32Array.from(cubes), numbers };
}

/** Steps to the 26 cubes about one, and their lengths in cells. */
const STEPS = Array.from(
  { length: 27 },
  (_, n) => [(n % 3) - 1, (Math.floor(n / 3) % 3) - 1, Math.floor(n / 9) - 1] as const,
)
  .filter(([i, j, k]) => i !== 0 || j !== 0 || k !== 0)
  .map(([i, j, k]) => ({ i, j, k, length: Math.hypot(i, j, k) }));

/**
 * Shortest way through the solid from some cubes to every other.
 *
 * @param voxels - the solid
 * @param starts - numbers of the cubes where the way begins
 * @param among - numbers of the cubes that the way may use; left out, all
 * @returns for each cube the length of the way [m], Infinity where none leads
 *
 * Valid: ways along cubes and their diagonals, at most 13 % longer than straight ones.
 * Cost: 26 steps a cube and a little more.
 * Source: R. B. Dial, Algorithm 360, Comm. ACM 12 (1969), from memory.
 */
export function waysThrough(
  voxels: Voxels,
  starts: readonly number[],
  among?: readonly number[],
): Float64Array {
  const { counts, cubes, numbers, cell } = voxels;
  const [nx, ny, nz] = counts;
  const open = new Uint8Array(cubes.length).fill(among ? 0 : 1);
  for (const cube of among ?? []) open[cube] = 1;
  const ways = new Float64Array(cubes.length).fill(Infinity);
  for (const start of starts) ways[start] = 0;
  // Bucket n holds the cubes whose way is n to n + 1 cells; no step is shorter than one.
  const buckets: number[][] = [[...starts]];
  for (let n = 0; n < buckets.length; n++) {
    for (const cube of buckets[n] ?? []) {
      const way = ways[cube]!;
      if (Math.floor(way) !== n) continue;
      const place = cubes[cube]!;
      const i = place % nx;
      const j = Math.floor(place / nx) % ny;
      const k = Math.floor(place / (nx * ny));
      for (let s = 0; s < STEPS.length; s++) {
        const step = STEPS[s]!;
        const a = i + step.i;
        const b = j + step.j;
        const c = k + step.k;
        if (a < 0 || b < 0 || c < 0 || a >= nx || b >= ny || c >= nz) continue;
        const other = numbers[a + nx * (b + ny * c)]!;
        const longer = way + step.length;
        if (other < 0 || open[other] === 0 || longer >= ways[other]!) continue;
        ways[other] = longer;
        const bucket = Math.floor(longer);
        const waiting = buckets[bucket];
        if (waiting) waiting.push(other);
        else buckets[bucket] = [other];
      }
    }
  }
  return ways.map((way) => way * cell);
}

/**
 * Middle of a cube.
 *
 * @param voxels - the solid [m]
 * @param cube - its number
 * @returns the middle [m]
 *
 * Cost: constant.
 * Source: definition.
 */
export function cubeMiddle({ origin, cell, counts, cubes }: Voxels, cube: number): Vec3 {
  const place = cubes[cube]!;
  const [i, j, k] = [
    place % counts[0],
    Math.floor(place / counts[0]) % counts[1],
    Math.floor(place / (counts[0] * counts[1])),
  ];
  return [origin[0] + cell * (i + 0.5), origin[1] + cell * (j + 0.5), origin[2] + cell * (k + 0.5)];
}

/**
 * The cube nearest to a point.
 *
 * @param voxels - the solid [m]
 * @param point - [m]
 * @returns its number; −1 where there is no cube
 *
 * Cost: one look at every cube.
 * Source: definition.
 */
export function cubeNear(voxels: Voxels, [x, y, z]: Vec3): number {
  let [best, found] = [Infinity, -1];
  for (let cube = 0; cube < voxels.cubes.length; cube++) {
    const [u, v, w] = cubeMiddle(voxels, cube);
    const away = (u - x) ** 2 + (v - y) ** 2 + (w - z) ** 2;
    if (away < best) [best, found] = [away, cube];
  }
  return found;
}

/**
 * The cubes that touch one, be it at a corner.
 *
 * @param voxels - the solid
 * @param cube - its number
 * @returns their numbers, at most 26
 *
 * Cost: constant.
 * Source: definition.
 */
export function aboutCube({ counts: [nx, ny, nz], cubes, numbers }: Voxels, cube: number): number[] {
  const place = cubes[cube]!;
  const [i, j, k] = [place % nx, Math.floor(place / nx) % ny, Math.floor(place / (nx * ny))];
  const found: number[] = [];
  for (const step of STEPS) {
    const [a, b, c] = [i + step.i, j + step.j, k + step.k];
    if (a < 0 || b < 0 || c < 0 || a >= nx || b >= ny || c >= nz) continue;
    const other = numbers[a + nx * (b + ny * c)]!;
    if (other >= 0) found.push(other);
  }
  return found;
}

/**
 * Thickness of the solid about a cube: the shortest of the runs of cubes through it along the axes and diagonals.
 *
 * @param voxels - the solid
 * @param cube - its number
 * @returns thickness [cells]
 *
 * Valid: never less than the true thickness by more than a cell.
 * Cost: one walk in each of 13 directions.
 * Source: definition.
 */
export function thicknessAbout({ counts: [nx, ny, nz], cubes, numbers }: Voxels, cube: number): number {
  const place = cubes[cube]!;
  const [i, j, k] = [place % nx, Math.floor(place / nx) % ny, Math.floor(place / (nx * ny))];
  const solidAt = (a: number, b: number, c: number): boolean =>
    a >= 0 && b >= 0 && c >= 0 && a < nx && b < ny && c < nz && numbers[a + nx * (b + ny * c)]! >= 0;
  let shortest = Infinity;
  for (const step of STEPS.slice(0, STEPS.length / 2)) {
    let run = 1;
    for (let n = 1; solidAt(i + n * step.i, j + n * step.j, k + n * step.k); n++) run++;
    for (let n = 1; solidAt(i - n * step.i, j - n * step.j, k - n * step.k); n++) run++;
    shortest = Math.min(shortest, run * step.length);
  }
  return shortest;
}
