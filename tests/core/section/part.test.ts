import { describe, expect, test } from 'vitest';
import type { Vec2 } from '../../../src/core/mesh/mesh.ts';
import { partAt } from '../../../src/core/section/part.ts';
import { largestCircleDiameter } from '../../../src/core/section/pole.ts';
import { sectionOf } from '../../support/sections.ts';

type Ring = readonly Vec2[];

/** A rectangle, its least corner at (u, v). */
const rectangle = (u: number, v: number, width: number, height: number): Ring => [
  [u, v],
  [u + width, v],
  [u + width, v + height],
  [u, v + height],
];
const hole = (ring: Ring): Ring => ring.toReversed();
const turned = (ring: Ring, angle: number): Ring =>
  ring.map(([u, v]): Vec2 => [
    u * Math.cos(angle) - v * Math.sin(angle),
    u * Math.sin(angle) + v * Math.cos(angle),
  ]);

describe('a rectangle of 6 by 2', () => {
  const ring = rectangle(3, 5, 6, 2);
  test('area, thickness, width and middle', () => {
    const part = partAt(sectionOf(ring), [4, 6])!;
    expect(Object.keys(part).sort()).toEqual(['area', 'centroid', 'thickness', 'width']);
    expect(part.area).toBeCloseTo(12, 12);
    expect(Math.abs(part.thickness - 2)).toBeLessThan(4e-4);
    expect(part.width).toBeCloseTo(6, 12);
    expect(part.centroid).toEqual([expect.closeTo(6, 12), expect.closeTo(6, 12)]);
  });

  // Half its thickness is 1.
  test.each<[string, Vec2, boolean]>([
    ['to its left', [2.01, 6], true],
    ['too far to its left', [1.99, 6], false],
    ['to its right', [9.99, 6], true],
    ['too far to its right', [10.01, 6], false],
    ['below it', [6, 4.01], true],
    ['too far below it', [6, 3.99], false],
    ['above it', [6, 7.99], true],
    ['too far above it', [6, 8.01], false],
    ['off a corner, 0.99 away', [9 + 0.99 * 0.6, 7 + 0.99 * 0.8], true],
    ['off a corner, 1.01 away', [9 + 1.01 * 0.6, 7 + 1.01 * 0.8], false],
  ])('a point %s', (_, point, taken) => {
    expect(partAt(sectionOf(ring), point) !== null).toBe(taken);
  });

  test.each([0.1, 0.7, 1.2, 2.5, 4])('turned by %d rad it is as wide and as thick', (angle) => {
    const part = partAt(sectionOf(turned(rectangle(-3, -1, 6, 2), angle)), [0, 0])!;
    expect(part.width).toBeCloseTo(6, 9);
    expect(Math.abs(part.thickness - 2)).toBeLessThan(4e-4);
    expect(part.area).toBeCloseTo(12, 9);
  });
});

test('a triangle of sides 13, 14 and 15: 4·area / perimeter thick', () => {
  const triangle: Ring = [
    [0, 0],
    [14, 0],
    [5, 12],
  ];
  const part = partAt(sectionOf(triangle), [6, 3])!;
  expect(part.area).toBeCloseTo(84, 12);
  expect(Math.abs(part.thickness / (2 * 4) - 1)).toBeLessThan(2e-4);
  expect(part.centroid).toEqual([expect.closeTo(19 / 3, 12), expect.closeTo(4, 12)]);
});

test('an L is as wide as the rectangle of least area about it', () => {
  // 8 × 1 along u and 1 × 4 along v: hull cut by the line from (8, 1) to (1, 5).
  const ell: Ring = [
    [0, 0],
    [8, 0],
    [8, 1],
    [1, 1],
    [1, 5],
    [0, 5],
  ];
  const part = partAt(sectionOf(ell), [0.5, 3])!;
  expect(part.area).toBeCloseTo(12, 12);
  expect(part.centroid).toEqual([
    expect.closeTo((8 * 4 + 4 * 0.5) / 12, 12),
    expect.closeTo((8 * 0.5 + 4 * 3) / 12, 12),
  ]);
  // On the axes 8 × 5 = 40; along the slanted side of the hull, of √65, it is 76/√65 × 39/√65 = 45.6.
  expect(part.width).toBeCloseTo(8, 12);
});

describe('which part', () => {
  const [left, right] = [rectangle(0, 0, 4, 4), rectangle(10, 0, 6, 6)];
  const areaAt = (point: Vec2, ...rings: Ring[]) => partAt(sectionOf(...rings), point)?.area ?? null;

  test.each<[string, Vec2, number | null]>([
    ['in the left one', [1, 1], 16],
    ['in the right one', [11, 1], 36],
    ['between, nearer to the left', [5.9, 2], 16],
    ['between, nearer to the left and too far', [6.1, 2], null],
    ['between, nearer to the right', [7.9, 2], 36],
  ])('%s', (_, point, area) => {
    const both = [areaAt(point, left, right), areaAt(point, right, left)];
    expect(both).toEqual(area === null ? [null, null] : [expect.closeTo(area, 12), expect.closeTo(area, 12)]);
  });

  test('holes are taken off the part that they lie in, not off its neighbour', () => {
    const dark = hole(rectangle(11, 1, 2, 2));
    const part = partAt(sectionOf(left, dark, right), [15, 3])!;
    expect(part.area).toBeCloseTo(32, 12);
    expect(part.centroid).toEqual([
      expect.closeTo((36 * 13 - 4 * 12) / 32, 12),
      expect.closeTo((36 * 3 - 4 * 2) / 32, 12),
    ]);
    // The largest circle in what is left touches the hole's corner (13, 3) and the sides that meet in (16, 6), 3·√2 away: r·√2 + r.
    const radius = (3 * Math.SQRT2) / (1 + Math.SQRT2);
    expect(Math.abs(part.thickness / (2 * radius) - 1)).toBeLessThan(2e-4);
    expect(areaAt([1, 1], left, dark, right)).toBeCloseTo(16, 12);
  });

  test('an island in a hole is a part of its own', () => {
    const [outer, ring, island] = [
      rectangle(0, 0, 10, 10),
      hole(rectangle(2, 2, 6, 6)),
      rectangle(4, 4, 2, 2),
    ];
    expect(areaAt([5, 5], outer, ring, island)).toBeCloseTo(4, 12);
    expect(areaAt([5, 5], island, ring, outer)).toBeCloseTo(4, 12);
  });

  test('nothing is null: no rings, holes alone, a part that its hole takes whole', () => {
    expect(partAt(sectionOf(), [0, 0])).toBeNull();
    expect(partAt(sectionOf(hole(left)), [1, 1])).toBeNull();
    expect(partAt(sectionOf(left, hole(left)), [1, 1])).toBeNull();
  });
});

describe('largest circle', () => {
  const diameter = (area: number, perimeter: number, ...rings: Ring[]) =>
    largestCircleDiameter(rings, area, perimeter);

  test.each([
    [1, 1],
    [5, 1],
    [0.3, 2],
  ])('of a rectangle of %d by %d is its shorter side', (width, height) => {
    const found = diameter(width * height, 2 * (width + height), rectangle(-7, 3, width, height));
    expect(found).toBeLessThanOrEqual(Math.min(width, height) * (1 + 1e-12));
    expect(found).toBeGreaterThan(Math.min(width, height) * (1 - 1e-4));
  });

  test.each([3, 5, 8])(
    'of a regular polygon of %i sides is 2·cos(π/n), wherever it lies and however large',
    (n) => {
      for (const [scale, u, v] of [
        [1, 0, 0],
        [1e-3, 5e-3, -2e-3],
      ] as const) {
        const ring = Array.from({ length: n }, (_, i): Vec2 => [
          u + scale * Math.cos((2 * Math.PI * i) / n + 0.2),
          v + scale * Math.sin((2 * Math.PI * i) / n + 0.2),
        ]);
        const [area, perimeter] = [(n / 2) * Math.sin((2 * Math.PI) / n), 2 * n * Math.sin(Math.PI / n)];
        const found = diameter(area * scale ** 2, perimeter * scale, ring);
        expect(Math.abs(found / (2 * scale * Math.cos(Math.PI / n)) - 1)).toBeLessThan(1e-4);
      }
    },
  );

  test('of a square ring lies in a corner, between two sides and the corner of the hole', () => {
    // Between the corner (0, 0) of 10 × 10 and the hole's corner (3, 3): r·√2 + r = 3·√2.
    const ring = rectangle(0, 0, 10, 10);
    const inner = hole(rectangle(3, 3, 4, 4));
    const radius = (3 * Math.SQRT2) / (1 + Math.SQRT2);
    expect(Math.abs(diameter(84, 56, ring, inner) / (2 * radius) - 1)).toBeLessThan(1e-4);
  });

  test('a sliver is as thick as twice its area over its perimeter', () => {
    // Perimeter² over area of a rectangle of a × 1 is 4(a + 1)² / a: 1000 at a = 248.
    const at = (length: number) => diameter(length, 2 * (length + 1), rectangle(0, 0, length, 1));
    expect(at(249)).toBe(249 / 250);
    expect(at(247)).toBeGreaterThan(1 - 1e-4);
    expect(diameter(0.001, 1, rectangle(0, 0, 0.5, 0.002))).toBeCloseTo(0.002, 6);
  });
});

/** A seeded star of eleven corners about (u, v), most of them off its convex hull. */
function star(seed: number, u: number, v: number): Vec2[] {
  const draw = (n: number) => Math.abs(Math.sin((17 * seed + n) * 12.9898) * 43758.5453) % 1;
  return Array.from({ length: 11 }, (_, i): Vec2 => {
    const [angle, reach] = [(2 * Math.PI * (i + 0.6 * draw(i))) / 11, 1 + 3 * draw(i + 20)];
    return [u + reach * Math.cos(angle), v + reach * Math.sin(angle)];
  });
}
const left = ([au, av]: Vec2, [bu, bv]: Vec2, [u, v]: Vec2) => (bu - au) * (v - av) - (bv - av) * (u - au);

/** Longer side of the least rectangle on any line through two corners that has all others on one side. */
function plainWidth(ring: Ring): number {
  let [best, width] = [Infinity, 0];
  for (const a of ring)
    for (const b of ring) {
      if (a === b || ring.some((point) => left(a, b, point) < -1e-12)) continue;
      const size = Math.hypot(b[0] - a[0], b[1] - a[1]);
      const along = ring.map((p) => ((p[0] - a[0]) * (b[0] - a[0]) + (p[1] - a[1]) * (b[1] - a[1])) / size);
      const across = ring.map((p) => left(a, b, p) / size);
      const sides = [along, across].map((values) => Math.max(...values) - Math.min(...values));
      if (sides[0]! * sides[1]! >= best * (1 - 1e-12)) continue;
      [best, width] = [sides[0]! * sides[1]!, Math.max(...sides)];
    }
  return width;
}

describe('seeded stars, the plain way', () => {
  test('width', () => {
    for (let seed = 0; seed < 40; seed++) {
      const ring = star(seed, 3, -2);
      // Wherever the ring begins.
      for (const from of [0, 4, 7]) {
        const begun = [...ring.slice(from), ...ring.slice(0, from)];
        expect(partAt(sectionOf(begun), [3, -2])!.width).toBeCloseTo(plainWidth(ring), 9);
      }
    }
  });

  test('width of stars that are stairs: corners over one another', () => {
    for (let seed = 0; seed < 20; seed++) {
      const ring = star(seed, 0, 0).map(([u, v]): Vec2 => [Math.round(u), v]);
      const part = partAt(sectionOf(ring), [0, 0]);
      if (part) expect(part.width).toBeCloseTo(Math.max(plainWidth(ring), part.thickness), 9);
    }
  });

  test('a point is taken inside, where its turn round the ring is whole, and near it', () => {
    for (let seed = 0; seed < 12; seed++) {
      const ring = star(seed, 0, 0);
      const thickness = partAt(sectionOf(ring), [0, 0])!.thickness;
      for (let i = 0; i < 60; i++) {
        const point: Vec2 = [5 * Math.sin(12.9898 * i + seed), 5 * Math.sin(78.233 * i + 2 * seed)];
        let [turns, away] = [0, Infinity];
        ring.forEach((a, n) => {
          const b = ring[(n + 1) % ring.length]!;
          const [au, av, bu, bv] = [a[0] - point[0], a[1] - point[1], b[0] - point[0], b[1] - point[1]];
          turns += Math.atan2(au * bv - av * bu, au * bu + av * bv) / (2 * Math.PI);
          for (let share = 0; share <= 1; share += 1 / 64)
            away = Math.min(away, Math.hypot(au + share * (bu - au), av + share * (bv - av)));
        });
        const inside = Math.round(turns) !== 0;
        if (!inside && Math.abs(away - thickness / 2) < 0.05) continue;
        expect(partAt(sectionOf(ring), point) !== null).toBe(inside || away < thickness / 2);
      }
    }
  });

  test('a slanted sliver is as thick as twice its area over the way round it', () => {
    // 300 by 1, turned by 0.6 rad: more than 250 times as long as it is thick.
    const part = partAt(sectionOf(turned(rectangle(-150, -0.5, 300, 1), 0.6)), [0, 0])!;
    expect(part.thickness).toBeCloseTo(300 / 301, 9);
  });
});
