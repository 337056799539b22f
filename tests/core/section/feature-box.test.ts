import { describe, expect, test } from 'vitest';
import type { Box, Mesh, Vec3 } from '../../../src/core/mesh/mesh.ts';
import { boxTree } from '../../../src/core/section/box-tree.ts';
import {
  bandMiddles,
  centredLine,
  middleLineInBox,
  type RootSide,
} from '../../../src/core/section/feature-box.ts';
import { once } from '../../support/once.ts';
import { box, flipped, joined, mapped, turned } from '../../support/solids.ts';
import { voxelsOf } from '../../support/voxels.ts';

describe('middles of bands of equal way', () => {
  test('a row of twelve cubes, three to a band', () => {
    const row = voxelsOf(['############'], { origin: [100, 20, 3], cell: 2 });
    const ways = Float64Array.from({ length: 12 }, (_, i) => 2 * i);
    expect(bandMiddles(row, ways)).toEqual([103, 109, 115, 121].map((x) => [x, 21, 4]));
  });

  test('a row of 201 cubes: forty bands of five, and the last cube', () => {
    const row = voxelsOf(['#'.repeat(201)]);
    const middles = bandMiddles(
      row,
      Float64Array.from({ length: 201 }, (_, i) => i),
    );
    expect(middles).toEqual([
      ...Array.from({ length: 40 }, (_, i) => [5 * i + 2.5, 0.5, 0.5]),
      [200.5, 0.5, 0.5],
    ]);
  });

  test('a block, storey by storey: the middle of what is solid; cubes that no way leads to are left out', () => {
    const block = voxelsOf(['##.', '#..'], { origin: [1, 1, 1], cell: 1 }, ['##.', '##.'], ['..#', '...']);
    // Ways put the first cube in a band of its own, and the one in the far corner nowhere.
    const ways = Float64Array.of(0, 9, 9, 9, 9, 9, 9, Infinity);
    const middles = bandMiddles(block, ways);
    expect(middles[0]).toEqual([1.5, 1.5, 1.5]);
    // Six cubes: x 1, 0, 0, 1, 0, 1; y 0, 1, 0, 0, 1, 1; z 0, 0, 1, 1, 1, 1.
    expect(middles[3]).toEqual([1.5 + 3 / 6, 1.5 + 3 / 6, expect.closeTo(1.5 + 4 / 6, 12)]);
  });
});

/** A bar of 2 mm that runs 30 mm along x out of a body of 10 mm, round with twelve flats. */
const BAR = turned(
  [
    [-0.01, 0],
    [-0.01, 0.005],
    [0, 0.005],
    [0, 0.001],
    [0.03, 0.001],
    [0.03, 0],
  ],
  12,
);

/** The bar laid along each axis, growing from each side of a box about it. */
const LAID: Readonly<Record<RootSide, readonly [(point: Vec3) => Vec3, mirrored: boolean]>> = {
  front: [([x, y, z]) => [x, y, z], false],
  back: [([x, y, z]) => [-x, y, z], true],
  left: [([x, y, z]) => [z, x, y], false],
  right: [([x, y, z]) => [z, -x, y], true],
  bottom: [([x, y, z]) => [y, z, x], false],
  top: [([x, y, z]) => [y, z, -x], true],
};

describe('a bar that leaves the body at one side of its box', () => {
  const ROOM: readonly [Vec3, Vec3] = [
    [0.002, -0.003, -0.004],
    [0.035, 0.003, 0.004],
  ];
  test.each(Object.keys(LAID) as RootSide[])(
    '%s: a line along its axis from that side to its end',
    (root) => {
      const [lay, mirrored] = LAID[root];
      const mesh: Mesh = mirrored ? flipped(mapped(BAR, lay)) : mapped(BAR, lay);
      const [one, two] = ROOM.map(lay) as [Vec3, Vec3];
      const room: Box = {
        min: [Math.min(one[0], two[0]), Math.min(one[1], two[1]), Math.min(one[2], two[2])],
        max: [Math.max(one[0], two[0]), Math.max(one[1], two[1]), Math.max(one[2], two[2])],
      };
      const line = middleLineInBox(boxTree(mesh), 'tail', room, root);
      const axis = lay([1, 0, 0]).findIndex((value) => value !== 0);
      const along = line.map((point) => Math.abs(point[axis]!));
      expect(along[0]).toBeCloseTo(0.002, 9);
      expect(along.toSorted((a, b) => a - b)).toEqual(along);
      // The last band's middle lies within half a band, a fortieth of the way, of the end.
      expect(along.at(-1)).toBeGreaterThan(0.03 - 0.028 / 40);
      expect(along.at(-1)).toBeLessThan(0.03);
      expect(line.length).toBeGreaterThan(38);
      for (const point of line)
        point.forEach((value, i) => {
          if (i !== axis) expect(Math.abs(value)).toBeLessThan(1e-6);
        });
    },
  );
});

describe('which part', () => {
  const rod = (y: number, radius: number, from = 0): Mesh =>
    mapped(
      turned(
        [
          [from, 0],
          [from, radius],
          [0.02, radius],
          [0.02, 0],
        ],
        12,
      ),
      ([x, across, z]) => [x, y + across, z],
    );
  const room: Box = { min: [0.001, -0.01, -0.005], max: [0.03, 0.01, 0.005] };

  test('of two that cross the root side the one with the larger section there', () => {
    for (const [thin, thick] of [
      [-0.005, 0.004],
      [0.005, -0.004],
    ] as const) {
      const line = middleLineInBox(
        boxTree(joined(rod(thin, 0.0007), rod(thick, 0.0012))),
        'arm',
        room,
        'front',
      );
      for (const [, y] of line) expect(y).toBeCloseTo(thick, 5);
    }
  });

  test('one that does not reach its side begins at the first layer that has any of it', () => {
    const far = { ...room, min: [-0.02, -0.01, -0.005] as const };
    const line = middleLineInBox(boxTree(rod(0, 0.001)), 'arm', far, 'front');
    // Its first point is not run back over so long a way.
    expect(line[0]).toEqual(line[1]);
    expect(line[0]![0]).toBeGreaterThan(0);
    expect(line[0]![0]).toBeLessThan(0.0015);
  });
});

test('a plate is no part along its thickness', () => {
  const tree = boxTree(box([0.02, 0.02, 0.0005]));
  const room: Box = { min: [-0.001, -0.001, -0.001], max: [0.021, 0.021, 0.001] };
  expect(() => middleLineInBox(tree, 'fin', room, 'bottom')).toThrow(
    'fin: wants a box that holds a part longer than it is thick at its bottom side; move the box or name another side as root',
  );
});

describe('a line moved to the middles of its sections', () => {
  const tree = once(() =>
    boxTree(
      turned(
        [
          [0, 0],
          [0, 0.002],
          [0.03, 0.002],
          [0.03, 0],
        ],
        24,
      ),
    ),
  );
  test('beside the axis of a rod comes to lie in it', () => {
    const beside = Array.from({ length: 9 }, (_, i): Vec3 => [0.003 + 0.003 * i, 0.0006 * (i % 2), -0.0004]);
    const line = centredLine(tree(), beside);
    expect(line).toHaveLength(9);
    for (const [, y, z] of line) expect(Math.hypot(y, z)).toBeLessThan(1e-4);
    // Sections across a line that leans are moved along it by no more than a radius.
    line.forEach(([x], i) => expect(Math.abs(x - beside[i]![0])).toBeLessThan(0.002));
  });
  test('outside the solid is left as it is', () => {
    const outside = Array.from({ length: 6 }, (_, i): Vec3 => [0.005 * i, 0.01, 0]);
    expect(centredLine(tree(), outside)).toEqual(outside);
  });
  test('places that run out of it are dropped', () => {
    const out = Array.from({ length: 9 }, (_, i): Vec3 => [0.0051 + 0.005 * i, 0, 0]);
    const line = centredLine(tree(), out);
    expect(line.length).toBeLessThan(9);
    expect(line.length).toBeGreaterThanOrEqual(4);
    for (const [x] of line) expect(x).toBeLessThan(0.03);
  });
});
