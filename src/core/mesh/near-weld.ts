import type { Mesh } from './mesh.ts';
import { pointIndex } from './weld.ts';

/**
 * A mesh whose points within a distance of an earlier point are joined to it, so that hairline gaps close.
 *
 * @param mesh - any unit
 * @param tolerance - greatest distance that is joined, above 0 [unit of the mesh]
 * @returns the mesh on the points that were kept, and how many were joined to others [-]; triangles that collapse stay in
 * @throws {RangeError} when `tolerance` is not positive and finite
 *
 * Valid: a point joins the first kept point in reach; chains do not creep, since kept points never move.
 * Cost: linear in the points, at most 8 cells each.
 * Source: own derivation.
 */
export function nearWelded(mesh: Mesh, tolerance: number): { mesh: Mesh; joined: number } {
  if (!(tolerance > 0 && tolerance < Infinity)) {
    throw new RangeError(`nearWelded: wants tolerance positive and finite, got ${tolerance}`);
  }
  const kept = keptPoints(mesh.positions, tolerance);
  const triangles = mesh.triangles.map((index) => kept.numbers[index]!);
  const points = mesh.positions.length / 3;
  return {
    mesh: { positions: kept.positions, triangles },
    joined: points - kept.positions.length / 3,
  };
}

/** Which points are kept, and the number of the kept point for each point. */
function keptPoints(
  positions: Float64Array,
  tolerance: number,
): { positions: Float64Array; numbers: Uint32Array } {
  const cells = cellLists(positions.length / 3, 4 * tolerance);
  const rows = new Float64Array(positions.length);
  const numbers = new Uint32Array(positions.length / 3);
  let count = 0;
  for (let point = 0; point < numbers.length; point++) {
    const [x, y, z] = [positions[3 * point]!, positions[3 * point + 1]!, positions[3 * point + 2]!];
    const near = cells.at(x, y, z).find((other) => {
      const gap = Math.hypot(rows[3 * other]! - x, rows[3 * other + 1]! - y, rows[3 * other + 2]! - z);
      return gap <= tolerance;
    });
    if (near === undefined) {
      rows.set([x, y, z], 3 * count);
      cells.add(count, [x, y, z], tolerance);
    }
    numbers[point] = near ?? count++;
  }
  return { positions: rows.slice(0, 3 * count), numbers };
}

/** Points listed in every cell of a cubic grid that a ball about them touches. */
function cellLists(expected: number, edge: number) {
  const index = pointIndex(expected);
  const lists: number[][] = [];
  const cell = (value: number) => Math.floor(value / edge);
  const listAt = (i: number, j: number, k: number): number[] => (lists[index.numberOf(i, j, k)] ??= []);
  return {
    at: (x: number, y: number, z: number): readonly number[] => listAt(cell(x), cell(y), cell(z)),
    add(point: number, [x, y, z]: readonly [number, number, number], reach: number): void {
      for (let i = cell(x - reach); i <= cell(x + reach); i++) {
        for (let j = cell(y - reach); j <= cell(y + reach); j++) {
          for (let k = cell(z - reach); k <= cell(z + reach); k++) listAt(i, j, k).push(point);
        }
      }
    },
  };
}
