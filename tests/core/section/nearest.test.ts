import { describe, expect, test } from 'vitest';
import type { Mesh, Vec3 } from '../../../src/core/mesh/mesh.ts';
import { boxTree, LEAF, type BoxTree } from '../../../src/core/section/box-tree.ts';
import { nearest, nearestResult } from '../../../src/core/section/nearest.ts';
import { once } from '../../support/once.ts';
import { meshOf, torus } from '../../support/solids.ts';
import { countedReads, seededPoint } from '../../support/searches.ts';

const minus = (a: Vec3, b: Vec3): Vec3 => [a[0] - b[0], a[1] - b[1], a[2] - b[2]];
const dot = (a: Vec3, b: Vec3) => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
const plus = (a: Vec3, b: Vec3, share: number): Vec3 => [
  a[0] + share * b[0],
  a[1] + share * b[1],
  a[2] + share * b[2],
];
const cross = (a: Vec3, b: Vec3): Vec3 => [
  a[1] * b[2] - a[2] * b[1],
  a[2] * b[0] - a[0] * b[2],
  a[0] * b[1] - a[1] * b[0],
];

/** Nearest point of a triangle, the plain way: the foot on its plane if it lies inside, else the best of its edges. */
function onTriangle(corners: readonly [Vec3, Vec3, Vec3], point: Vec3): Vec3 {
  const [a, b, c] = corners;
  const normal = cross(minus(b, a), minus(c, a));
  const foot = plus(point, normal, -dot(minus(point, a), normal) / dot(normal, normal));
  const edges = [
    [a, b],
    [b, c],
    [c, a],
  ] as const;
  if (edges.every(([from, to]) => dot(cross(minus(to, from), minus(foot, from)), normal) >= 0)) return foot;
  const feet = edges.map(([from, to]) => {
    const line = minus(to, from);
    return plus(from, line, Math.min(1, Math.max(0, dot(minus(point, from), line) / dot(line, line))));
  });
  return feet.reduce((best, one) =>
    Math.hypot(...minus(one, point)) < Math.hypot(...minus(best, point)) ? one : best,
  );
}

function cornersOf({ positions, triangles }: Mesh, t: number): [Vec3, Vec3, Vec3] {
  return [0, 1, 2].map((corner) => {
    const row = 3 * triangles[3 * t + corner]!;
    return [positions[row]!, positions[row + 1]!, positions[row + 2]!];
  }) as unknown as [Vec3, Vec3, Vec3];
}

const distancesOf = (mesh: Mesh, point: Vec3): number[] =>
  Array.from({ length: mesh.triangles.length / 3 }, (_, t) =>
    Math.hypot(...minus(onTriangle(cornersOf(mesh, t), point), point)),
  );

const found = (tree: BoxTree, point: Vec3, ...rest: [slack?: number, enough?: number]) => {
  const result = nearestResult();
  nearest(tree, ...point, result, ...rest);
  return result;
};

describe('one triangle, worked by hand', () => {
  // Right angle at a, legs of 4 along x and 3 along y, in the plane z = 1.
  const tree = once(() =>
    boxTree(
      meshOf(
        [
          [0, 0, 1],
          [4, 0, 1],
          [0, 3, 1],
        ],
        [[0, 1, 2]],
      ),
    ),
  );
  test.each<[string, Vec3, Vec3]>([
    ['over its face', [1, 1, 3], [1, 1, 1]],
    ['below its face', [0.5, 0.25, -2], [0.5, 0.25, 1]],
    ['beyond the right angle', [-1, -2, 1], [0, 0, 1]],
    ['beyond the end of the long leg', [6, -1, 2], [4, 0, 1]],
    ['beyond the end of the short leg', [-1, 5, 0], [0, 3, 1]],
    ['beside the long leg', [2, -1, 1], [2, 0, 1]],
    ['beside the short leg', [-2, 1.5, 1], [0, 1.5, 1]],
    // The foot of (3.5, 4) on 3x + 4y = 12: (3.5, 4) − (14.5 / 25)·(3, 4).
    ['beside the long side', [3.5, 4, 1], [1.76, 1.68, 1]],
  ])('%s', (_, point, foot) => {
    const { distance, x, y, z, place } = found(tree(), point);
    expect([x, y, z].map((value) => Number(value.toFixed(12)))).toEqual(foot);
    expect(distance).toBeCloseTo(Math.hypot(...minus(point, foot)), 12);
    expect(place).toBe(0);
  });
});

test('seeded slanted triangles: the nearest point is that of the plain way', () => {
  for (let i = 0; i < 400; i++) {
    const corners = [0, 1, 2].map((corner) => seededPoint(4 * i + corner, 1)) as [Vec3, Vec3, Vec3];
    const point = seededPoint(4 * i + 3, 2);
    const { x, y, z } = found(boxTree(meshOf(corners, [[0, 1, 2]])), point);
    const foot = onTriangle(corners, point);
    expect(Math.hypot(...minus([x, y, z], foot))).toBeLessThan(1e-9);
  }
});

describe('a ring of 1152 triangles', () => {
  const mesh = torus(0.02, 0.006, 48, 12);
  const tree = once(() => boxTree(mesh));
  const points = Array.from({ length: 60 }, (_, i) => seededPoint(i, 0.03));
  const leasts = once(() => points.map((point) => Math.min(...distancesOf(mesh, point))));

  test('distance, point and triangle are those of the plain way, whatever was found before', () => {
    const result = nearestResult();
    expect(result).toEqual({ distance: Infinity, x: 0, y: 0, z: 0, place: -1 });
    for (const [i, point] of points.entries()) {
      nearest(tree(), ...point, result);
      const least = leasts()[i]!;
      expect(result.distance).toBeCloseTo(least, 14);
      const foot: Vec3 = [result.x, result.y, result.z];
      expect(Math.hypot(...minus(foot, point))).toBeCloseTo(least, 14);
      expect(
        Math.hypot(...minus(onTriangle(cornersOf(mesh, tree().order[result.place]!), foot), foot)),
      ).toBeLessThan(1e-12);
      expect(found(tree(), point)).toMatchObject({ distance: result.distance });
    }
  });

  test.each([0.0005, 0.002])('with a slack of %d m it is too large by no more than that', (slack) => {
    points.forEach((point, i) => {
      const { distance } = found(tree(), point, slack);
      expect(distance).toBeGreaterThanOrEqual(leasts()[i]! - 1e-14);
      expect(distance).toBeLessThanOrEqual(leasts()[i]! + slack + 1e-14);
    });
  });

  /** Triangles looked at for all points together. */
  const looks = (...rest: [slack?: number, enough?: number]): number => {
    const { array, reads } = countedReads(tree().faces.edges, 12);
    for (const point of points)
      found({ ...tree(), faces: { ...tree().faces, edges: array } }, point, ...rest);
    return reads();
  };

  type Five = [number, number, number, number, number];

  /** Triangles whose own plane and whose lowest box and slab come nearer to a point than the mesh does: no search can leave them out. */
  const needed = (point: Vec3, least: number): number =>
    Array.from(tree().order.keys()).filter((i) => {
      const [nx, ny, nz, height] = tree().faces.planes.subarray(4 * i, 4 * i + 4) as unknown as [
        number,
        number,
        number,
        number,
      ];
      const corner = 6 * (tree().leaves + Math.floor(i / LEAF));
      const gaps = point.map((value, axis) =>
        Math.max(tree().boxes[corner + axis]! - value, 0, value - tree().boxes[corner + 3 + axis]!),
      );
      const leaf = 5 * (tree().leaves + Math.floor(i / LEAF));
      const [sx, sy, sz, middle, half] = tree().faces.slabs.subarray(leaf, leaf + 5) as unknown as Five;
      return (
        Math.abs(dot([nx, ny, nz], point) - height) < least &&
        Math.hypot(...gaps) < least &&
        Math.abs(dot([sx, sy, sz], point) - middle) - half < least
      );
    }).length;

  test('few triangles are looked at that could be left out', () => {
    const all = points.reduce((sum, point, i) => sum + needed(point, leasts()[i]!), 0);
    expect(looks()).toBeGreaterThanOrEqual(all);
    expect(looks()).toBeLessThan((4 / 3) * all);
    expect(looks(0.002)).toBeLessThan(looks(0.0005));
    expect(looks(0.0005)).toBeLessThan(looks());
  });

  test('the triangle found before is tried first, which leaves out others', () => {
    let [warm, cold] = [0, 0];
    for (const point of points) {
      const known = found(tree(), point);
      for (const place of [-1, known.place]) {
        const { array, reads } = countedReads(tree().faces.edges, 12);
        const result = { ...nearestResult(), place };
        nearest({ ...tree(), faces: { ...tree().faces, edges: array } }, ...point, result);
        expect(result.distance).toBe(known.distance);
        if (place < 0) cold += reads();
        else warm += reads();
      }
    }
    expect(warm).toBeLessThan(cold);
  });

  test('any distance up to enough ends the search: one lowest box', () => {
    expect(looks(0, 1)).toBeLessThanOrEqual(LEAF * points.length);
    expect(looks(0, 0.004)).toBeLessThan(looks());
    const far = found(tree(), [0, 0, 1], 0, 2);
    expect(far.distance).toBeLessThanOrEqual(2);
  });
});
