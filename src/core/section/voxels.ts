import type { Box, Vec3 } from '../mesh/mesh.ts';
import type { BoxTree } from './box-tree.ts';
import { stretchesInside } from './inside.ts';

/** The solid inside a box as cubes: `filled[i + nx·(j + ny·k)]` is 1 inside. */
export interface Voxels {
  readonly origin: Vec3;
  readonly cell: number;
  readonly counts: readonly [number, number, number];
  readonly filled: Uint8Array;
}

/** Cubes that the solid in the box is cut into, about. */
const TARGET = 40_000;
const LIMIT = 4_000_000;

/**
 * The solid inside a box as cubes, about 40 000 of them. Along z a cube that the solid only touches counts too, so
 * a thin flat part is never lost.
 *
 * @param tree - boxes over a closed mesh [m]
 * @param box - where to look [m]
 * @returns the cubes [m]; none filled where the box holds no solid
 *
 * Valid: parts at least as thick as a cube across x and y.
 * Cost: a line search for each column.
 * Source: own derivation.
 */
export function voxelsIn(tree: BoxTree, box: Box): Voxels {
  const sides: Vec3 = [box.max[0] - box.min[0], box.max[1] - box.min[1], box.max[2] - box.min[2]];
  const space = sides[0] * sides[1] * sides[2];
  const coarse = filledVoxels(tree, box, sides, Math.cbrt(space / TARGET));
  const solid = coarse.filled.reduce((sum, one) => sum + one, 0) * coarse.cell ** 3;
  if (solid === 0) return coarse;
  return filledVoxels(tree, box, sides, Math.max(Math.cbrt(solid / TARGET), Math.cbrt(space / LIMIT)));
}

function filledVoxels(tree: BoxTree, { min, max }: Box, sides: Vec3, cell: number): Voxels {
  const counts = sides.map((side) => Math.max(1, Math.ceil(side / cell - 1e-9))) as [number, number, number];
  const [nx, ny, nz] = counts;
  const filled = new Uint8Array(nx * ny * nz);
  for (let j = 0; j < ny; j++) {
    for (let i = 0; i < nx; i++) {
      for (const [bottom, top] of stretchesInside(
        tree,
        min[0] + (i + 0.5) * cell,
        min[1] + (j + 0.5) * cell,
      )) {
        if (top < min[2] || bottom > max[2]) continue;
        const first = Math.max(0, Math.floor((bottom - min[2]) / cell));
        const last = Math.min(nz - 1, Math.floor((top - min[2]) / cell));
        for (let k = first; k <= last; k++) filled[i + nx * (j + ny * k)] = 1;
      }
    }
  }
  return { origin: min, cell, counts, filled };
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
 * @param starts - places in `filled` where the way begins
 * @returns for each cube the length of the way [m], Infinity where none leads
 *
 * Valid: ways along cubes and their diagonals, at most 13 % longer than straight ones.
 * Cost: 26 steps a filled cube and a little more.
 * Source: R. B. Dial, Algorithm 360, Comm. ACM 12 (1969), from memory.
 */
export function waysThrough(
  { counts: [nx, ny, nz], filled, cell }: Voxels,
  starts: readonly number[],
): Float64Array {
  const ways = new Float64Array(filled.length).fill(Infinity);
  // Bucket n holds the cubes whose way is n to n + 1 cells; no step is shorter than one.
  const buckets: number[][] = [[...starts]];
  for (const start of starts) ways[start] = 0;
  for (let n = 0; n < buckets.length; n++) {
    for (const place of buckets[n] ?? []) {
      const way = ways[place]!;
      if (Math.floor(way) !== n) continue;
      const [i, j, k] = [place % nx, Math.floor(place / nx) % ny, Math.floor(place / (nx * ny))];
      for (const step of STEPS) {
        const [a, b, c] = [i + step.i, j + step.j, k + step.k];
        if (a < 0 || b < 0 || c < 0 || a >= nx || b >= ny || c >= nz) continue;
        const other = a + nx * (b + ny * c);
        const longer = way + step.length;
        if (!filled[other] || longer >= ways[other]!) continue;
        ways[other] = longer;
        (buckets[Math.floor(longer)] ??= []).push(other);
      }
    }
  }
  return ways.map((way) => way * cell);
}
