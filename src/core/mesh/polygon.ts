import { MESH_LIMITS } from './limits.ts';

/**
 * A flat polygon cut into a fan of triangles, all turning the same way as the polygon.
 *
 * @param corners - numbers of its corners in order, three or more
 * @param positions - points, row by row [any unit]
 * @returns triples of corner numbers, or why no fan fits: its corners leave their plane by more than
 * `MESH_LIMITS.planarShare` of its size, or no corner sees all of it
 *
 * Cost: quadratic in the corners at worst.
 * Source: plane after M. E. Newell, as given in F. Tampieri, Graphics Gems III (1992), 231-232 (from memory).
 */
export function polygonFan(
  corners: readonly number[],
  positions: ArrayLike<number>,
): readonly number[] | 'not flat' | 'concave' {
  if (corners.length === 3) return corners;
  const points = corners.map((corner) => [0, 1, 2].map((axis) => positions[3 * corner + axis]!));
  const normal = newellNormal(points);
  const length = Math.hypot(...normal);
  const size = Math.max(...points.map((point) => distance(point, points[0]!)));
  if (length > 0) {
    const heights = points.map((point) => dot(normal, point) / length);
    if (Math.max(...heights) - Math.min(...heights) > MESH_LIMITS.planarShare * size) return 'not flat';
  }
  for (let first = 0; first < corners.length; first++) {
    if (seesAll(points, first, normal)) return fan(corners, first);
  }
  return 'concave';
}

function fan(corners: readonly number[], first: number): number[] {
  const at = (step: number) => corners[(first + step) % corners.length]!;
  return corners.slice(2).flatMap((_, step) => [at(0), at(step + 1), at(step + 2)]);
}

/** Whether every triangle of the fan from one corner turns as the polygon does. */
function seesAll(points: readonly number[][], first: number, normal: readonly number[]): boolean {
  const least = -1e-9 * dot(normal, normal);
  for (let step = 1; step + 1 < points.length; step++) {
    const from = points[first]!;
    const to = (offset: number) =>
      points[(first + step + offset) % points.length]!.map((value, axis) => value - from[axis]!);
    if (dot(normal, cross(to(0), to(1))) < least) return false;
  }
  return true;
}

function newellNormal(points: readonly number[][]): number[] {
  const from = points[0]!;
  const edges = points.map((point) => point.map((value, axis) => value - from[axis]!));
  return edges.reduce(
    (sum, edge, i) => {
      const turn = cross(edge, edges[(i + 1) % edges.length]!);
      return sum.map((value, axis) => value + turn[axis]!);
    },
    [0, 0, 0],
  );
}

function distance(a: readonly number[], b: readonly number[]): number {
  return Math.hypot(a[0]! - b[0]!, a[1]! - b[1]!, a[2]! - b[2]!);
}

function dot(a: readonly number[], b: readonly number[]): number {
  return a[0]! * b[0]! + a[1]! * b[1]! + a[2]! * b[2]!;
}

function cross(a: readonly number[], b: readonly number[]): number[] {
  return [a[1]! * b[2]! - a[2]! * b[1]!, a[2]! * b[0]! - a[0]! * b[2]!, a[0]! * b[1]! - a[1]! * b[0]!];
}
