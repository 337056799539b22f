import { describe, expect, test } from 'vitest';
import type { Mesh, Vec3 } from '../../../src/core/mesh/mesh.ts';
import { boxTree, LEAF } from '../../../src/core/section/box-tree.ts';
import { sectionMoments } from '../../../src/core/section/moments.ts';
import { frameAcross, obliqueSection, pointOf } from '../../../src/core/section/oblique.ts';
import { sectionAt } from '../../../src/core/section/slice.ts';
import { box, mapped, torus } from '../../support/solids.ts';
import { countedReads, seededPoint } from '../../support/searches.ts';

const dot = (a: Vec3, b: Vec3): number => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
const cross = (a: Vec3, b: Vec3): Vec3 => [
  a[1] * b[2] - a[2] * b[1],
  a[2] * b[0] - a[0] * b[2],
  a[0] * b[1] - a[1] * b[0],
];
const close = (values: readonly number[]) => values.map((value) => expect.closeTo(value, 12) as unknown);

describe('a plane across a direction', () => {
  test.each<[string, Vec3, Vec3, Vec3]>([
    // Looking against the normal, V up: U to the right.
    ['along x', [2, 0, 0], [0, 1, 0], [0, 0, 1]],
    ['against x', [-3, 0, 0], [0, -1, 0], [0, 0, 1]],
    ['along y', [0, 5, 0], [-1, 0, 0], [0, 0, 1]],
    ['along x and y', [1, 1, 0], [-Math.SQRT1_2, Math.SQRT1_2, 0], [0, 0, 1]],
    ['up a slope of 3 in 4', [4, 0, 3], [0, 1, 0], [-0.6, 0, 0.8]],
    // Nearly along z there is no up in the plane: V is as near to +x as it can be.
    ['along z', [0, 0, 1], [0, -1, 0], [1, 0, 0]],
    ['against z', [0, 0, -1], [0, 1, 0], [1, 0, 0]],
  ])('%s', (_, direction, u, v) => {
    const frame = frameAcross([7, 8, 9], direction);
    const size = Math.hypot(...direction);
    expect(frame.origin).toEqual([7, 8, 9]);
    expect(frame.normal).toEqual(close(direction.map((value) => value / size)));
    expect(frame.u).toEqual(close(u));
    expect(frame.v).toEqual(close(v));
  });

  test('seeded: unit vectors, square to each other and right-handed, V up until the normal is within 0.9 of z', () => {
    for (let i = 0; i < 50; i++) {
      const { u, v, normal } = frameAcross([0, 0, 0], seededPoint(i, 3));
      for (const one of [u, v, normal]) expect(dot(one, one)).toBeCloseTo(1, 12);
      expect(dot(u, v)).toBeCloseTo(0, 12);
      expect(cross(u, v)).toEqual(close(normal));
      if (Math.abs(normal[2]) < 0.9) {
        expect(Math.abs(u[2])).toBe(0);
        expect(v[2]).toBeGreaterThan(0);
      } else {
        expect(Math.abs(u[0])).toBe(0);
        expect(v[0]).toBeGreaterThan(0);
      }
    }
  });

  test('a direction without a length is refused', () => {
    expect(() => frameAcross([0, 0, 0], [0, 0, 0])).toThrow(
      'frameAcross: wants a direction with a length, got 0, 0, 0',
    );
  });

  test('a point of it is the origin and so much of U and V', () => {
    const frame = frameAcross([1, 2, 3], [0, 4, 3]);
    // Normal (0, 0.8, 0.6), U = (−1, 0, 0), V = (0, −0.6, 0.8).
    expect(pointOf(frame, 2, 5)).toEqual(close([1 - 2, 2 - 3, 3 + 4]));
    expect(pointOf(frame, 0, 0)).toEqual([1, 2, 3]);
    const slanted = { ...frame, u: [0.5, 0.25, 2], v: [4, 8, 0.125] } as const;
    expect(pointOf(slanted, 10, 100)).toEqual([1 + 5 + 400, 2 + 2.5 + 800, 3 + 20 + 12.5]);
  });
});

/** The whole mesh in the coordinates of a plane. */
const turned = (mesh: Mesh, { origin, u, v, normal }: ReturnType<typeof frameAcross>): Mesh =>
  mapped(mesh, (point) => {
    const offset: Vec3 = [point[0] - origin[0], point[1] - origin[1], point[2] - origin[2]];
    return [dot(offset, u), dot(offset, v), dot(offset, normal)];
  });

test('seeded planes through a ring: the section of the whole mesh, turned', () => {
  const mesh = torus(20, 6, 30, 16);
  const tree = boxTree(mesh);
  for (let i = 0; i < 40; i++) {
    const frame = frameAcross(seededPoint(2 * i, 20), seededPoint(2 * i + 1, 1));
    const got = sectionMoments(obliqueSection(tree, frame));
    const want = sectionMoments(sectionAt(turned(mesh, frame), 'z', 0));
    expect(got.area).toBeCloseTo(want.area, 9);
    expect(got.perimeter).toBeCloseTo(want.perimeter, 9);
    expect(got.centroid).toEqual([expect.closeTo(want.centroid[0], 9), expect.closeTo(want.centroid[1], 9)]);
    expect(got.uv).toBeCloseTo(want.uv, 6);
  }
});

test('a plane that lies in a face has the whole face below it and nothing above', () => {
  const tree = boxTree(box([2, 3, 4]));
  expect(sectionMoments(obliqueSection(tree, frameAcross([1, 1, 4], [0, 0, 1]))).area).toBeCloseTo(6, 12);
  expect(obliqueSection(tree, frameAcross([1, 1, 0], [0, 0, 1])).points).toHaveLength(0);
});

test('only triangles in boxes that the plane meets are looked at', () => {
  const mesh = torus(20, 6, 40, 24);
  const tree = boxTree(mesh);
  for (let i = 0; i < 20; i++) {
    const frame = frameAcross(seededPoint(2 * i, 24), seededPoint(2 * i + 1, 1));
    const { array, reads } = countedReads(tree.order);
    obliqueSection({ ...tree, order: array }, frame);
    let needed = 0;
    for (let leaf = 0; leaf < tree.leaves; leaf++) {
      const corners = Array.from({ length: 8 }, (_, n): Vec3 => {
        const at = (axis: number) => tree.boxes[6 * (tree.leaves + leaf) + axis + 3 * ((n >> axis) & 1)]!;
        return [at(0), at(1), at(2)];
      });
      const heights = corners.map((corner) => dot(corner, frame.normal) - dot(frame.origin, frame.normal));
      const count = Math.min(LEAF, tree.order.length - LEAF * leaf);
      if (count > 0 && Math.min(...heights) <= 0 && Math.max(...heights) >= 0) needed += count;
    }
    expect(reads()).toBe(needed);
  }
});
