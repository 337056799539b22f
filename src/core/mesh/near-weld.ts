import { meshBox } from './mass-properties.ts';
import type { Mesh, Vec3 } from './mesh.ts';
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
  const kept = keptPoints(mesh, tolerance);
  const triangles = mesh.triangles.map((index) => kept.numbers[index]!);
  const points = mesh.positions.length / 3;
  return {
    mesh: { positions: kept.positions, triangles },
    joined: points - kept.positions.length / 3,
  };
}

/** Which points are kept, and the number of the kept point for each point. */
function keptPoints(mesh: Mesh, tolerance: number): { positions: Float64Array; numbers: Uint32Array } {
  const { positions } = mesh;
  const cells = cellLists(positions.length / 3, 4 * tolerance, meshBox(mesh).min);
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
function cellLists(expected: number, edge: number, origin: Vec3) {
  const index = pointIndex(expected);
  const lists: number[][] = [];
  // From the corner of the box, so that cell numbers stay small far from the origin.
  const cell = (value: number, axis: 0 | 1 | 2) => Math.floor((value - origin[axis]) / edge);
  const listAt = (i: number, j: number, k: number): number[] => (lists[index.numberOf(i, j, k)] ??= []);
  return {
    at: (x: number, y: number, z: number): readonly number[] => listAt(cell(x, 0), cell(y, 1), cell(z, 2)),
    add(point: number, [x, y, z]: Vec3, reach: number): void {
      for (let i = cell(x - reach, 0); i <= cell(x + reach, 0); i++) {
        for (let j = cell(y - reach, 1); j <= cell(y + reach, 1); j++) {
          for (let k = cell(z - reach, 2); k <= cell(z + reach, 2); k++) listAt(i, j, k).push(point);
        }
      }
    },
  };
}
