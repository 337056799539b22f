import { describe, expect, test } from 'vitest';
import type { Vec2 } from '../../../src/core/mesh/mesh.ts';
import { sectionArea, sectionMoments } from '../../../src/core/section/moments.ts';
import { sectionOf } from '../../support/sections.ts';

const RECTANGLE: readonly Vec2[] = [
  [3, 1],
  [9, 1],
  [9, 5],
  [3, 5],
];

describe('worked by hand', () => {
  test('a right triangle, its legs b = 6 and h = 4 along the axes: b²h²/72 below zero, b³h/36, h³b/36', () => {
    const triangle = sectionOf([
      [2, 7],
      [8, 7],
      [2, 11],
    ]);
    expect(sectionArea(triangle)).toBe(12);
    const { area, perimeter, centroid, uu, vv, uv } = sectionMoments(triangle);
    expect(area).toBe(12);
    expect(perimeter).toBeCloseTo(10 + Math.sqrt(52), 12);
    expect(centroid[0]).toBeCloseTo(4, 12);
    expect(centroid[1]).toBeCloseTo(7 + 4 / 3, 12);
    expect(uu).toBeCloseTo((6 ** 3 * 4) / 36, 10);
    expect(vv).toBeCloseTo((4 ** 3 * 6) / 36, 10);
    expect(uv).toBeCloseTo(-(6 ** 2 * 4 ** 2) / 72, 10);
  });

  test('a rectangle with a hole: areas, first and second moments are those of the one less the other', () => {
    // 6 × 4 about (6, 3), less 2 × 1 about (5, 2.5).
    const hole: Vec2[] = [
      [4, 2],
      [4, 3],
      [6, 3],
      [6, 2],
    ];
    const section = sectionOf(RECTANGLE, hole);
    expect(sectionArea(section)).toBe(22);
    const { area, perimeter, centroid, uu, vv, uv } = sectionMoments(section);
    expect(area).toBeCloseTo(22, 12);
    expect(perimeter).toBeCloseTo(20 + 6, 12);
    const [cu, cv] = [(24 * 6 - 2 * 5) / 22, (24 * 3 - 2 * 2.5) / 22];
    expect(centroid).toEqual([expect.closeTo(cu, 12), expect.closeTo(cv, 12)]);
    // Each about its own middle, then moved by the theorem of parallel axes.
    expect(uu).toBeCloseTo(
      (6 ** 3 * 4) / 12 + 24 * (6 - cu) ** 2 - (2 ** 3 * 1) / 12 - 2 * (5 - cu) ** 2,
      10,
    );
    expect(vv).toBeCloseTo(
      (4 ** 3 * 6) / 12 + 24 * (3 - cv) ** 2 - (1 ** 3 * 2) / 12 - 2 * (2.5 - cv) ** 2,
      10,
    );
    expect(uv).toBeCloseTo(24 * (6 - cu) * (3 - cv) - 2 * (5 - cu) * (2.5 - cv), 10);
  });

  test('two parts in one list add up', () => {
    const other: Vec2[] = [
      [-4, -1],
      [-2, -1],
      [-2, 2],
      [-4, 2],
    ];
    expect(sectionArea(sectionOf(RECTANGLE, other))).toBe(24 + 6);
    expect(sectionMoments(sectionOf(other, RECTANGLE)).perimeter).toBeCloseTo(20 + 10, 12);
  });

  test('nothing is all zero; a ring that runs clockwise has a length and no more', () => {
    const zero = { area: 0, centroid: [0, 0], uu: 0, vv: 0, uv: 0 };
    expect(sectionArea(sectionOf())).toBe(0);
    expect(sectionMoments(sectionOf())).toEqual({ ...zero, perimeter: 0 });
    expect(sectionArea(sectionOf(RECTANGLE.toReversed()))).toBe(-24);
    expect(sectionMoments(sectionOf(RECTANGLE.toReversed()))).toEqual({ ...zero, perimeter: 20 });
  });
});

test('a small section far from the axis loses no digits', () => {
  const far = RECTANGLE.map(([u, v]): Vec2 => [1e7 + u * 2 ** -10, -1e7 + v * 2 ** -10]);
  expect(sectionArea(sectionOf(far)) / (24 * 2 ** -20)).toBeCloseTo(1, 12);
  const { area, centroid, uu } = sectionMoments(sectionOf(far));
  expect(area / (24 * 2 ** -20)).toBeCloseTo(1, 12);
  expect(centroid[0] - 1e7).toBeCloseTo(6 * 2 ** -10, 8);
  expect(uu / (72 * 2 ** -40)).toBeCloseTo(1, 9);
});

test('a quarter turn swaps both second moments and turns the sign of the mixed one', () => {
  const kite: Vec2[] = [
    [0, 0],
    [5, 1],
    [7, 6],
    [1, 4],
  ];
  const [one, two] = [kite, kite.map(([u, v]): Vec2 => [-v, u])].map((ring) =>
    sectionMoments(sectionOf(ring)),
  );
  expect(two!.uu).toBeCloseTo(one!.vv, 10);
  expect(two!.vv).toBeCloseTo(one!.uu, 10);
  expect(two!.uv).toBeCloseTo(-one!.uv, 10);
  expect(two!.centroid[0]).toBeCloseTo(-one!.centroid[1], 12);
});
