import type { Mesh, Vec3 } from './mesh.ts';

/** Rows of a 3×3 matrix: image = rows · point. */
export type Matrix3 = readonly [Vec3, Vec3, Vec3];

/**
 * A mesh turned, mirrored or stretched, then moved; where the matrix mirrors, the winding is turned so that the solid
 * still faces outwards.
 *
 * @param mesh - any mesh [m]
 * @param rows - rows of the matrix [-]
 * @param offset - added after it [m]
 * @returns the placed mesh [m]
 * @throws {RangeError} when the matrix or the offset is not finite, or the matrix flattens space
 *
 * Cost: one pass over the points, one over the triangles when mirrored.
 * Source: linear algebra; sign of the determinant decides handedness.
 */
export function placedMesh({ positions, triangles }: Mesh, rows: Matrix3, offset: Vec3 = [0, 0, 0]): Mesh {
  const det = determinant(rows);
  if (!Number.isFinite(det) || det === 0 || !offset.every(Number.isFinite)) {
    throw new RangeError(
      `placedMesh: wants an invertible matrix and a finite offset, got determinant ${det}`,
    );
  }
  const [[a, b, c], [d, e, f], [g, h, i]] = rows;
  const placed = new Float64Array(positions.length);
  for (let row = 0; row < positions.length; row += 3) {
    const x = positions[row]!;
    const y = positions[row + 1]!;
    const z = positions[row + 2]!;
    placed[row] = a * x + b * y + c * z + offset[0];
    placed[row + 1] = d * x + e * y + f * z + offset[1];
    placed[row + 2] = g * x + h * y + i * z + offset[2];
  }
  return { positions: placed, triangles: det < 0 ? turnedOver(triangles) : triangles };
}

/**
 * A mesh scaled about the origin.
 *
 * @param mesh - any mesh [m]
 * @param factor - above 0 [-]
 * @returns the scaled mesh [m]
 * @throws {RangeError} when `factor` is not positive and finite
 *
 * Cost: one pass over the points.
 * Source: definition.
 */
export function scaledMesh({ positions, triangles }: Mesh, factor: number): Mesh {
  if (!(factor > 0 && factor < Infinity)) {
    throw new RangeError(`scaledMesh: wants factor positive and finite, got ${factor}`);
  }
  const scaled = new Float64Array(positions.length);
  for (let i = 0; i < scaled.length; i++) scaled[i] = positions[i]! * factor;
  return { positions: scaled, triangles };
}

/**
 * Determinant of a matrix: how volume scales, negative where it mirrors.
 *
 * @param rows - rows of the matrix [-]
 * @returns determinant [-]
 *
 * Cost: constant.
 * Source: rule of Sarrus.
 */
export function determinant([[a, b, c], [d, e, f], [g, h, i]]: Matrix3): number {
  return a * (e * i - f * h) + b * (f * g - d * i) + c * (d * h - e * g);
}

function turnedOver(triangles: Uint32Array): Uint32Array {
  const turned = triangles.slice();
  for (let corner = 0; corner < turned.length; corner += 3) {
    turned[corner + 1] = triangles[corner + 2]!;
    turned[corner + 2] = triangles[corner + 1]!;
  }
  return turned;
}
