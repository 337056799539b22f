import type { Mesh, Vec3 } from '../mesh/mesh.ts';

/** One section of a solid: a ring of points [m], or a single point where the solid ends in one. */
export interface Ring {
  readonly points: readonly Vec3[];
  /** Where a flat end is fanned from. */
  readonly middle: Vec3;
}

/**
 * A closed mesh over a row of sections; flat ends are closed by a fan.
 *
 * @param rings - sections in order [m], all with the same number of points or one; their points run
 * counter-clockwise seen from the far end
 * @returns closed mesh [m], wound outwards
 *
 * Valid: neighbouring sections do not cross.
 * Cost: linear in the points.
 * Source: own derivation.
 */
export function skin(rings: readonly Ring[]): Mesh {
  const positions: number[] = [];
  const triangles: number[] = [];
  const add = (point: Vec3): number => positions.push(...point) / 3 - 1;
  const rows = rings.map(({ points }) => points.map(add));
  for (let i = 1; i < rows.length; i++) triangles.push(...strip(rows[i - 1]!, rows[i]!));
  const [first, last] = [rows[0]!, rows.at(-1)!];
  if (first.length > 1) triangles.push(...strip([add(rings[0]!.middle)], first));
  if (last.length > 1) triangles.push(...strip(last, [add(rings.at(-1)!.middle)]));
  return { positions: Float64Array.from(positions), triangles: Uint32Array.from(triangles) };
}

/** Triangles between two rows, either of which may be one point. */
function strip(before: readonly number[], after: readonly number[]): number[] {
  const count = Math.max(before.length, after.length);
  const at = (row: readonly number[], i: number): number => row[i % row.length]!;
  const out: number[] = [];
  for (let i = 0; i < count; i++) {
    const [a, b, c, d] = [at(before, i), at(before, i + 1), at(after, i), at(after, i + 1)];
    // The diagonal changes from quarter to quarter, so that a symmetric body gets a symmetric mesh.
    const turned = Math.floor((4 * i) / count) % 2 === 1;
    if (a !== b) out.push(...(turned ? [a, b, c] : [a, b, d]));
    if (c !== d) out.push(...(turned ? [b, d, c] : [a, d, c]));
  }
  return out;
}
