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
 * Valid: a point joins a kept point in reach; chains do not creep, since kept points never move.
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
  const cells = pointCells(positions.length / 3, tolerance, meshBox(mesh).min);
  const numbers = new Uint32Array(positions.length / 3);
  for (let point = 0; point < numbers.length; point++) {
    const x = positions[3 * point]!;
    const y = positions[3 * point + 1]!;
    const z = positions[3 * point + 2]!;
    const near = cells.near(x, y, z);
    numbers[point] = near >= 0 ? near : cells.add(x, y, z);
  }
  return { positions: cells.points(), numbers };
}

/** Points listed by the cells of a cubic grid four tolerances wide; the points of a cell are linked, -1 ends the list. */
function pointCells(expected: number, tolerance: number, [x0, y0, z0]: Vec3) {
  const edge = 4 * tolerance;
  const index = pointIndex(expected);
  const rows = new Float64Array(3 * expected);
  const head = new Int32Array(expected).fill(-1);
  const next = new Int32Array(expected);
  let count = 0;

  function nearInCell(cell: number, x: number, y: number, z: number): number {
    let point = cell < 0 ? -1 : head[cell]!;
    while (point >= 0) {
      const row = 3 * point;
      if (Math.hypot(rows[row]! - x, rows[row + 1]! - y, rows[row + 2]! - z) <= tolerance) return point;
      point = next[point]!;
    }
    return -1;
  }

  return {
    /** A kept point in reach of a place, -1 for none. */
    near(x: number, y: number, z: number): number {
      // Counted from the corner of the box, so that cell numbers stay small far from the origin.
      const toX = Math.floor((x + tolerance - x0) / edge);
      const toY = Math.floor((y + tolerance - y0) / edge);
      const toZ = Math.floor((z + tolerance - z0) / edge);
      for (let i = Math.floor((x - tolerance - x0) / edge); i <= toX; i++) {
        for (let j = Math.floor((y - tolerance - y0) / edge); j <= toY; j++) {
          for (let k = Math.floor((z - tolerance - z0) / edge); k <= toZ; k++) {
            const found = nearInCell(index.find(i, j, k), x, y, z);
            if (found >= 0) return found;
          }
        }
      }
      return -1;
    },
    add(x: number, y: number, z: number): number {
      const cell = index.numberOf(
        Math.floor((x - x0) / edge),
        Math.floor((y - y0) / edge),
        Math.floor((z - z0) / edge),
      );
      rows.set([x, y, z], 3 * count);
      next[count] = head[cell]!;
      head[cell] = count;
      return count++;
    },
    points: () => rows.slice(0, 3 * count),
  };
}
