import { describe, expect, test } from 'vitest';
import type { Mesh, Vec3 } from '../../../src/core/mesh/mesh.ts';
import { boxTree } from '../../../src/core/section/box-tree.ts';
import { isInside } from '../../../src/core/section/inside.ts';
import { nearest, nearestResult } from '../../../src/core/section/nearest.ts';
import { ballAbout, thickestBall, treeBox } from '../../../src/core/section/thickness.ts';
import { once } from '../../support/once.ts';
import { box, flipped, joined, mapped, torus } from '../../support/solids.ts';

const depth = (tree: ReturnType<typeof boxTree>, point: Vec3): number => {
  const found = nearestResult();
  nearest(tree, ...point, found);
  return isInside(tree, ...point) ? found.distance : -found.distance;
};

describe('the ball about a point touches where the nearest surface is, and one side more', () => {
  const tree = once(() => boxTree(box([10, 8, 6])));
  // Blown up away from its foot, until another face is as near: centre and radius by hand.
  test.each<[string, Vec3, Vec3, number]>([
    ['off the end, in the middle: as high as the box', [1, 4, 3], [3, 4, 3], 3],
    ['off the end, near the floor', [0.5, 4, 2], [2, 4, 2], 2],
    ['off the far end, near a wall', [9.5, 6.5, 3], [8.5, 6.5, 3], 1.5],
    ['off the floor, near a wall', [5, 2, 1], [5, 2, 2], 2],
    ['off the floor, in the middle', [5, 4, 1], [5, 4, 3], 3],
    ['off the roof', [6, 4, 5.5], [6, 4, 3], 3],
    ['off a wall, high up', [5, 7.5, 5], [5, 7, 5], 1],
  ])('%s', (_, point, centre, radius) => {
    const { thickness, at } = ballAbout(tree(), point);
    expect(Math.abs(thickness / (2 * radius) - 1)).toBeLessThan(4e-3);
    at.forEach((value, axis) => expect(Math.abs(value - centre[axis]!)).toBeLessThan(4e-3 * radius));
  });

  test('at a point of the surface it has no size', () => {
    expect(ballAbout(tree(), [5, 4, 0])).toEqual({ thickness: 0, at: [5, 4, 0] });
  });

  test('seeded: it holds the point, and no more than its size fits', () => {
    for (let i = 0; i < 60; i++) {
      const share = (n: number) => Math.abs(Math.sin((3 * i + n) * 12.9898) * 43758.5453) % 1;
      const point: Vec3 = [0.1 + 9.8 * share(1), 0.1 + 7.8 * share(2), 0.1 + 5.8 * share(3)];
      const { thickness, at } = ballAbout(tree(), point);
      const radius = thickness / 2;
      expect(Math.hypot(point[0] - at[0], point[1] - at[1], point[2] - at[2])).toBeLessThanOrEqual(
        radius + 1e-12,
      );
      expect(depth(tree(), at)).toBeGreaterThan(radius * (1 - 5e-3));
      expect(radius).toBeGreaterThanOrEqual(depth(tree(), point) - 1e-12);
    }
  });
});

describe('the thickest ball', () => {
  const slab: Vec3 = [0.03, 0.012, 0.004];
  test.each<[string, readonly [0 | 1 | 2, 0 | 1 | 2, 0 | 1 | 2]]>([
    ['z', [0, 1, 2]],
    ['x', [2, 0, 1]],
    ['y', [1, 2, 0]],
  ])('of a slab that is thin along %s, away from the origin', (_, [i, j, k]) => {
    const size: Vec3 = [slab[i], slab[j], slab[k]];
    const { thickness, at } = thickestBall(boxTree(box(size, [0.1, -0.2, 0.05])));
    expect(Math.abs(thickness / 0.004 - 1)).toBeLessThan(1e-6);
    const offset = [at[0] - 0.1, at[1] + 0.2, at[2] - 0.05];
    offset.forEach((value, axis) => {
      expect(value).toBeGreaterThan(0.002 * (1 - 1e-6));
      expect(value).toBeLessThan(size[axis]! - 0.002 * (1 - 1e-6));
    });
  });

  test.each([0.3, 0.1, 0.02])(
    'no ball on a fine grid is larger by more than the resolution: %d',
    (resolution) => {
      // A ring whose tube swells and shrinks twice on its way round.
      const mesh: Mesh = mapped(torus(20, 5, 36, 16), ([x, y, z]) => {
        const [angle, ring] = [Math.atan2(y, x), Math.hypot(x, y)];
        const swell = 1 + 0.25 * Math.sin(2 * angle + 0.4) + 0.05 * Math.cos(angle);
        const reach = 20 + (ring - 20) * swell;
        return [reach * Math.cos(angle), reach * Math.sin(angle), z * swell];
      });
      const tree = boxTree(mesh);
      const { thickness, at } = thickestBall(tree, resolution);
      expect(Math.abs(depth(tree, at) / (thickness / 2) - 1)).toBeLessThan(1e-9);
      let best = 0;
      for (let x = -26; x <= 26; x += 1.3)
        for (let y = -26; y <= 26; y += 1.3)
          for (let z = -1; z <= 1; z += 1) best = Math.max(best, depth(tree, [x, y, z]));
      expect(best).toBeGreaterThan(5);
      expect((2 * best) / thickness).toBeLessThanOrEqual(1 + resolution);
    },
  );

  test('of two blocks lies in the thicker one, whichever comes first', () => {
    const [thin, thick] = [box([9, 9, 3]), box([5, 5, 4], [20, 1, 1])];
    for (const mesh of [joined(thin, thick), joined(thick, thin)]) {
      const { thickness, at } = thickestBall(boxTree(mesh));
      expect(Math.abs(thickness / 4 - 1)).toBeLessThan(1e-6);
      expect(at[0]).toBeGreaterThan(20);
    }
  });

  test.each([0, 1, -0.5, 2, NaN])('refuses a resolution of %d', (resolution) => {
    expect(() => thickestBall(boxTree(box([1, 1, 1])), resolution)).toThrow(
      `thickestBall: wants a resolution between 0 and 1, got ${resolution}`,
    );
  });

  test('refuses a mesh with nothing inside', () => {
    expect(() => thickestBall(boxTree(flipped(box([1, 1, 1]))))).toThrow(
      'thickestBall: wants a closed solid, got nothing inside the mesh',
    );
  });
});

test('the box about a mesh', () => {
  expect(treeBox(boxTree(joined(box([1, 2, 3], [4, 5, 6]), box([1, 1, 1], [-1, 8, 0]))))).toEqual({
    min: [-1, 5, 0],
    max: [5, 9, 9],
  });
});
