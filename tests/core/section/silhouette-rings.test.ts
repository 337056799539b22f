import { describe, expect, test } from 'vitest';
import type { Mesh, Vec2, Vec3 } from '../../../src/core/mesh/mesh.ts';
import { outlineArea, silhouette } from '../../../src/core/section/silhouette.ts';
import { box, joined, mapped, meshOf } from '../../support/solids.ts';

const EXACT = 1e-9;
const square = (side: number, u = 0, v = 0): Vec2[] => [
  [u, v],
  [u + side, v],
  [u + side, v + side],
  [u, v + side],
];

test('area of an outline: holes, which run clockwise, taken off', () => {
  expect(outlineArea([])).toBe(0);
  expect(outlineArea([[]])).toBe(0);
  expect(outlineArea([square(4, 100, -50)])).toBe(16);
  expect(outlineArea([square(4), square(2, 1, 1).reverse()])).toBe(12);
  // Half of 6 × 5, and of 5 × 4 as it lies in the plane: shoelace by hand gives 15 and 13.
  expect(
    outlineArea([
      [
        [0, 0],
        [6, 0],
        [1, 5],
      ],
    ]),
  ).toBe(15);
  expect(
    outlineArea([
      [
        [1, 1],
        [5, 2],
        [6, 5],
        [2, 4],
      ],
    ]),
  ).toBe(11);
});

/** Corners of a ring as text, from the least on. */
const cornersOf = (ring: readonly Vec2[]): string[] => {
  const texts = ring.map((point) => point.map((value) => (value * 1e3).toFixed(3)).join(' '));
  const first = texts.indexOf(texts.toSorted()[0]!);
  return [...texts.slice(first), ...texts.slice(0, first)];
};

test('of a box: the corners of its faces, counter-clockwise', async () => {
  const block = box([0.001, 0.002, 0.004], [0.003, 0.005, 0.007]);
  const [plan, across] = [await silhouette(block, 'plan', EXACT), await silhouette(block, 'across', EXACT)];
  expect(plan.map(cornersOf)).toEqual([['3.000 5.000', '4.000 5.000', '4.000 7.000', '3.000 7.000']]);
  // The section across is seen along +y, x to the right and z up.
  expect(across.map((ring) => cornersOf(ring).toSorted())).toEqual([
    ['3.000 11.000', '3.000 7.000', '4.000 11.000', '4.000 7.000'],
  ]);
  expect(outlineArea(across)).toBeCloseTo(4e-6, 12);
});

describe('seeded heaps of boxes: the area is that of the unit squares they cover', () => {
  const draw = (n: number, most: number) =>
    Math.floor((Math.abs(Math.sin(n * 12.9898) * 43758.5453) % 1) * most);
  test.each([1, 2, 3, 4])('heap %i', async (heap) => {
    const boxes = Array.from({ length: 6 }, (_, i) => {
      const at = (n: number, most: number) => draw(100 * heap + 7 * i + n, most);
      return { min: [at(1, 8), at(2, 8), at(3, 8)], size: [1 + at(4, 4), 1 + at(5, 4), 1 + at(6, 4)] } as {
        min: [number, number, number];
        size: [number, number, number];
      };
    });
    const mesh = mapped(joined(...boxes.map(({ min, size }) => box(size, min))), ([x, y, z]) => [
      x / 1000,
      y / 1000,
      z / 1000,
    ]);
    for (const [view, v] of [
      ['plan', 1],
      ['across', 2],
    ] as const) {
      const covered = new Set(
        boxes.flatMap(({ min, size }) =>
          Array.from(
            { length: size[0] * size[v] },
            (_, n) => `${min[0] + (n % size[0])} ${min[v] + Math.floor(n / size[0])}`,
          ),
        ),
      );
      const outline = await silhouette(mesh, view, EXACT);
      expect(outlineArea(outline)).toBeCloseTo(covered.size * 1e-6, 10);
      const sizes = outline.map((ring) => Math.abs(outlineArea([ring])));
      expect(sizes).toEqual(sizes.toSorted((a, b) => b - a));
    }
  });
});

describe('a frame of four bars', () => {
  const bars = joined(
    box([0.01, 0.002, 0.002]),
    box([0.01, 0.002, 0.002], [0, 0.008, 0]),
    box([0.002, 0.01, 0.002]),
    box([0.002, 0.01, 0.002], [0.008, 0, 0]),
  );
  test('has a hole in plan, none across', async () => {
    const plan = await silhouette(bars, 'plan', EXACT);
    expect(plan.map((ring) => outlineArea([ring]))).toEqual([
      expect.closeTo(1e-4, 9),
      expect.closeTo(-3.6e-5, 9),
    ]);
    expect(outlineArea(await silhouette(bars, 'across', EXACT))).toBeCloseTo(2e-5, 9);
  });
});

test('two solids side by side: the larger ring comes first', async () => {
  const pair = joined(box([0.001, 0.001, 0.001]), box([0.003, 0.003, 0.001], [0.005, 0, 0]));
  const areas = (await silhouette(pair, 'plan', EXACT)).map((ring) => outlineArea([ring]));
  expect(areas).toEqual([expect.closeTo(9e-6, 12), expect.closeTo(1e-6, 12)]);
});

test('simplifying leaves out a corner that moves the outline by less than the tolerance, by itself 5 µm', async () => {
  // A prism over a square whose one side bulges by `rise`.
  const prism = (rise: number): Mesh => {
    const ring: Vec2[] = [
      [0, 0],
      [0.005, -rise],
      [0.01, 0],
      [0.01, 0.01],
      [0, 0.01],
    ];
    const points = [0, 0.001].flatMap((z) => ring.map(([x, y]): Vec3 => [x, y, z]));
    const sides = ring.flatMap((_, i): Vec3[] => {
      const next = (i + 1) % 5;
      return [
        [i, next, next + 5],
        [i, next + 5, i + 5],
      ];
    });
    const caps = [1, 2, 3].flatMap((i): Vec3[] => [
      [5, 5 + i, 6 + i],
      [0, i + 1, i],
    ]);
    return meshOf(points, [...sides, ...caps]);
  };
  const corners = async (rise: number, tolerance?: number) =>
    (await silhouette(prism(rise), 'plan', tolerance))[0]!.length;
  expect(await corners(4e-6)).toBe(4);
  expect(await corners(6e-6)).toBe(5);
  expect(await corners(4e-6, EXACT)).toBe(5);
  expect(await corners(6e-6, 1e-5)).toBe(4);
});

test('of an open mesh is that of the triangles that face the eye', async () => {
  const block = box([0.002, 0.003, 0.004]);
  // One half of the face at the top, and of the bottom, which looks away.
  const open = { positions: block.positions, triangles: Uint32Array.of(4, 5, 7, 0, 2, 3) };
  expect(outlineArea(await silhouette(open, 'plan', EXACT))).toBeCloseTo(3e-6, 12);
});
