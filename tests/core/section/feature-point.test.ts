import { describe, expect, test } from 'vitest';
import type { Mesh, Vec3 } from '../../../src/core/mesh/mesh.ts';
import { boxTree } from '../../../src/core/section/box-tree.ts';
import { depthsOf, middleLineAtPoint } from '../../../src/core/section/feature-point.ts';
import { measureFeature } from '../../../src/core/section/feature.ts';
import { measureBait } from '../../../src/core/section/measure.ts';
import { treeBox } from '../../../src/core/section/thickness.ts';
import { once } from '../../support/once.ts';
import { ellipsoid, mapped, turned } from '../../support/solids.ts';

const AROUND = 64;
/** What the flats of a turned solid take of its diameter [1]. */
const FLATS = Math.cos(Math.PI / AROUND);

/** Measures parts of a solid by points on them; its cubes are made once. */
function solidOf(mesh: Mesh) {
  const tree = boxTree(mesh);
  const depths = depthsOf(tree);
  return (point: Vec3) =>
    measureFeature(tree, {
      name: 'tail',
      kind: 'arm',
      middleLine: middleLineAtPoint(tree, depths, 'tail', point),
      within: treeBox(tree),
    });
}

describe('a rod of 3 mm, 40 mm long, on a body of 12 mm', () => {
  const rod = turned(
    [
      [0, 0],
      [0, 0.006],
      [0.04, 0.006],
      [0.04, 0.0015],
      [0.08, 0.0015],
      [0.08, 0],
    ],
    AROUND,
  );
  const measured = once(() => solidOf(rod));
  test.each([
    ['near the body', 0.046],
    ['in the middle', 0.06],
    ['near its end', 0.076],
  ])('named by a point %s: 40 mm long and 3 mm thick all along', (_, x) => {
    const { length, rootThickness, tipThickness, thinnest } = measured()([x, 0.0005, 0]);
    expect(Math.abs(length - 0.04)).toBeLessThan(2e-4);
    for (const thickness of [rootThickness, tipThickness, thinnest.thickness])
      expect(Math.abs(thickness / (0.003 * FLATS) - 1)).toBeLessThan(2e-3);
  });
  test('and by a point half a millimetre off its surface', () => {
    const { length } = measured()([0.06, 0, 0.002]);
    // Within a cube of the grid.
    expect(Math.abs(length - 0.04)).toBeLessThan(5e-4);
  });
  test('a point farther off is refused, with the nearest place', () => {
    expect(() => measured()([0.06, 0, 0.004])).toThrow(
      'tail: wants a point in the bait or within 1 mm of it, got [60 mm, 0 mm, 4 mm], 2.5 mm away; the nearest place is [60 mm, 0 mm, 1.5 mm]',
    );
  });
  test('asked for among everything that is measured it is the same', async () => {
    const point: Vec3 = [0.06, 0.0005, 0];
    const { features } = await measureBait(rod, [{ name: 'tail', kind: 'arm', point }]);
    expect(features).toEqual([measured()(point)]);
  });
  test('a point in the body is refused', () => {
    expect(() => measured()([0.02, 0, 0])).toThrow(
      /^tail: wants a point on a thin part, got \[20 mm, 0 mm, 0 mm\], where the bait is about 1[12]\.?\d? mm thick/u,
    );
  });
});

test('a tapered rod: thickness at root and tip from its taper', () => {
  const rod = turned(
    [
      [0, 0],
      [0, 0.006],
      [0.03, 0.006],
      [0.03, 0.002],
      [0.07, 0.001],
      [0.07, 0],
    ],
    AROUND,
  );
  const { length, rootThickness, tipThickness } = solidOf(rod)([0.05, 0, 0]);
  expect(Math.abs(length - 0.04)).toBeLessThan(2e-4);
  expect(Math.abs(rootThickness / (0.004 * FLATS) - 1)).toBeLessThan(5e-3);
  // One thickness short of the end: 2·(0.001 + t/40), t = 0.002 / (1 − 2/40).
  expect(Math.abs(tipThickness / ((0.002 / 0.95) * FLATS) - 1)).toBeLessThan(5e-3);
});

test('mirror images are named by mirrored points and measure alike', () => {
  const bent = (side: 1 | -1) =>
    mapped(
      turned(
        [
          [0, 0],
          [0, 0.006],
          [0.03, 0.006],
          [0.03, 0.0015],
          [0.07, 0.0015],
          [0.07, 0],
        ],
        AROUND,
      ),
      ([x, y, z]) => [x, side * (y + 4 * Math.max(0, x - 0.03) ** 2), z],
    );
  const flipped = (side: 1 | -1) => {
    const mesh = bent(side);
    return side > 0 ? mesh : { ...mesh, triangles: mesh.triangles.toReversed() };
  };
  const [left, right] = ([1, -1] as const).map((side) => solidOf(flipped(side))([0.05, side * 0.0016, 0]));
  expect(Math.abs(left!.length / right!.length - 1)).toBeLessThan(5e-3);
  expect(Math.abs(left!.rootThickness / right!.rootThickness - 1)).toBeLessThan(5e-3);
});

test('a bait without thin parts has none to name', () => {
  const egg = mapped(ellipsoid([0.03, 0.008, 0.006], 48, 48), ([x, y, z]) => [x + 0.03, y, z]);
  expect(() => solidOf(egg)([0.03, 0, 0])).toThrow('wants a point on a thin part');
});
