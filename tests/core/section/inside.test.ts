import { describe, expect, test } from 'vitest';
import type { Mesh, Vec2, Vec3 } from '../../../src/core/mesh/mesh.ts';
import { boxTree, LEAF } from '../../../src/core/section/box-tree.ts';
import { isInside, sideInPlan, stretchesInside, surfaceOnLine } from '../../../src/core/section/inside.ts';
import { once } from '../../support/once.ts';
import { box, flipped, joined, meshOf, torus } from '../../support/solids.ts';
import { countedReads, seededPoint } from '../../support/searches.ts';

describe('side of a line in plan', () => {
  const at = (points: readonly Vec2[]) => Float64Array.from(points.flatMap(([x, y]) => [x, y, 99]));

  test('is twice the area of the triangle, positive on the left', () => {
    const rows = at([
      [1, 2],
      [5, 3],
    ]);
    // (5 − 1)(4 − 2) − (3 − 2)(2 − 1) = 7, and on the other side (4)(0 − 2) − (1)(2 − 1) = −9.
    expect(sideInPlan(rows, 0, 1, 2, 4)).toBe(7);
    expect(sideInPlan(rows, 0, 1, 2, 0)).toBe(-9);
    expect(sideInPlan(rows, 1, 0, 2, 4)).toBe(-7);
  });

  // A point on the line counts as moved a vanishing step along +x, and a far smaller one along +y.
  test.each<[string, Vec2, Vec2, number]>([
    ['up: it lies to the right', [0, 0], [0, 2], -1],
    ['down: to the left', [0, 2], [0, 0], 1],
    ['forward: to the left', [0, 0], [2, 0], 1],
    ['back: to the right', [2, 0], [0, 0], -1],
    ['up and forward: to the right', [0, 0], [2, 2], -1],
    ['up and back: to the right', [2, 0], [0, 2], -1],
    ['down and back: to the left', [2, 2], [0, 0], 1],
    ['nowhere: on neither side', [1, 1], [1, 1], 0],
  ])('a point on a line that leads %s', (_, a, b, sign) => {
    const rows = at([a, b]);
    const [x, y] = [(a[0] + b[0]) / 2, (a[1] + b[1]) / 2];
    const [there, back] = [sideInPlan(rows, 0, 1, x, y), sideInPlan(rows, 1, 0, x, y)];
    expect(Math.sign(there)).toBe(sign);
    expect(there + back).toBe(0);
    expect(Math.abs(there)).toBeLessThan(1e-200);
  });
});

describe('unit boxes that tile the plane', () => {
  const tiles = once(() =>
    [0, 1, 2].flatMap((i) => [0, 1, 2].map((j) => ({ i, j, tree: boxTree(box([1, 1, 1], [i, j, 0])) }))),
  );

  test('every line along z goes through exactly one, be it on an edge or a corner: the one beyond it', () => {
    for (const x of [0, 0.25, 0.5, 1, 1.5, 2, 2.75]) {
      for (const y of [0, 0.5, 0.75, 1, 1.5, 2, 2.25]) {
        const through = tiles().filter(({ tree }) => stretchesInside(tree, x, y).length > 0);
        expect(through.map(({ i, j }) => [i, j])).toEqual([[Math.floor(x), Math.floor(y)]]);
        for (const { i, j, tree } of tiles()) {
          const within = i === Math.floor(x) && j === Math.floor(y);
          expect(stretchesInside(tree, x, y)).toEqual(within ? [[0, 1]] : []);
          expect(isInside(tree, x, y, 0.5)).toBe(within);
          expect([-1, 0, 0.5, 1, 2].map((above) => surfaceOnLine(tree, x, y, above))).toEqual(
            within ? [true, true, true, false, false] : [false, false, false, false, false],
          );
        }
      }
    }
  });
});

/** Winding number of a mesh about a point, by the solid angles of its triangles (A. van Oosterom and J. Strackee 1983). */
function winding({ positions, triangles }: Mesh, point: Vec3): number {
  let sum = 0;
  for (let t = 0; t < triangles.length; t += 3) {
    const [a, b, c] = [0, 1, 2].map((corner) =>
      [0, 1, 2].map((axis) => positions[3 * triangles[t + corner]! + axis]! - point[axis]!),
    ) as [number[], number[], number[]];
    const dot = (u: number[], v: number[]) => u[0]! * v[0]! + u[1]! * v[1]! + u[2]! * v[2]!;
    const [la, lb, lc] = [a, b, c].map((v) => Math.sqrt(dot(v, v))) as [number, number, number];
    const triple =
      a[0]! * (b[1]! * c[2]! - b[2]! * c[1]!) +
      a[1]! * (b[2]! * c[0]! - b[0]! * c[2]!) +
      a[2]! * (b[0]! * c[1]! - b[1]! * c[0]!);
    sum += 2 * Math.atan2(triple, la * lb * lc + dot(a, b) * lc + dot(b, c) * la + dot(c, a) * lb);
  }
  return Math.round(sum / (4 * Math.PI));
}

test('a ring that stands on its edge: seeded points by solid angles; stretches are where they lie inside', () => {
  const lying = torus(20, 6, 14, 9);
  const mesh: Mesh = {
    positions: lying.positions.map((_, i, all) => all[i - (i % 3) + ((i + 1) % 3)]!),
    triangles: lying.triangles,
  };
  const tree = boxTree(mesh);
  for (let i = 0; i < 120; i++) {
    const [x, y, z] = seededPoint(i, 27);
    const within = winding(mesh, [x, y, z]) !== 0;
    expect(isInside(tree, x, y, z)).toBe(within);
    const stretches = stretchesInside(tree, x, y);
    expect(stretches.some(([bottom, top]) => z > bottom && z < top)).toBe(within);
    expect(surfaceOnLine(tree, x, y, -Infinity)).toBe(stretches.length > 0);
    expect(surfaceOnLine(tree, x, y, z)).toBe(stretches.some(([, top]) => top > z));
    // Rising, each with its own length.
    const ends = stretches.flat();
    expect(ends).toEqual(ends.toSorted((a, b) => a - b));
  }
});

describe('boxes over one another', () => {
  const stretches = (...boxes: readonly Mesh[]) => stretchesInside(boxTree(joined(...boxes)), 0.3, 0.6);
  const deck = (bottom: number, top: number) => box([1, 1, top - bottom], [0, 0, bottom]);

  test.each<[string, Mesh[], [number, number][]]>([
    [
      'apart, the higher one first in the mesh',
      [deck(5, 7), deck(0, 1)],
      [
        [0, 1],
        [5, 7],
      ],
    ],
    ['that overlap are joined', [deck(0, 2), deck(1, 4)], [[0, 4]]],
    ['one within the other are joined', [deck(0, 4), deck(1, 2)], [[0, 4]]],
    ['that touch are joined, whichever comes first', [deck(2, 3), deck(0, 2)], [[0, 3]]],
  ])('%s', (_, boxes, expected) => {
    expect(stretches(...boxes)).toEqual(expected);
  });

  test('a hollow, wound inwards, leaves a floor and a roof', () => {
    expect(stretches(deck(0, 4), flipped(deck(1, 2)))).toEqual([
      [0, 1],
      [2, 4],
    ]);
  });

  test('a box that is wound inwards holds nothing', () => {
    expect(stretches(flipped(deck(0, 1)))).toEqual([]);
    expect(isInside(boxTree(flipped(deck(0, 1))), 0.3, 0.6, 0.5)).toBe(false);
  });
});

test('a slanted roof is met where the line meets its plane', () => {
  // Roof z = 1 + x/2 + y/4 over a right triangle: at (0.5, 1) it is 1.5 high.
  const corners: readonly Vec2[] = [
    [0, 0],
    [2, 0],
    [0, 4],
  ];
  const mesh = meshOf(
    [
      ...corners.map(([x, y]): Vec3 => [x, y, 0]),
      ...corners.map(([x, y]): Vec3 => [x, y, 1 + x / 2 + y / 4]),
    ],
    [
      [0, 2, 1],
      [3, 4, 5],
      [0, 1, 4],
      [0, 4, 3],
      [1, 2, 5],
      [1, 5, 4],
      [2, 0, 3],
      [2, 3, 5],
    ],
  );
  expect(stretchesInside(boxTree(mesh), 0.5, 1)).toEqual([[0, expect.closeTo(1.5, 12)]]);
});

test('a line looks at the triangles of the boxes that it passes through and lie high enough', () => {
  const mesh = torus(20, 6, 40, 24);
  const tree = boxTree(mesh);
  const looked = (x: number, y: number, above: number): number => {
    const { array, reads } = countedReads(tree.order);
    surfaceOnLine({ ...tree, order: array }, x, y, above);
    return reads();
  };
  const met: boolean[] = [];
  for (let i = 0; i < 60; i++) {
    const [x, y, z] = seededPoint(i, 27);
    let needed = 0;
    for (let leaf = tree.leaves; leaf < 2 * tree.leaves; leaf++) {
      const [x0, y0, , x1, y1, z1] = tree.boxes.slice(6 * leaf) as unknown as number[];
      const first = LEAF * (leaf - tree.leaves);
      const count = Math.max(0, Math.min(tree.order.length, first + LEAF) - first);
      if (x >= x0! && x <= x1! && y >= y0! && y <= y1! && z1! >= z) needed += count;
    }
    met.push(surfaceOnLine(tree, x, y, z));
    // One that lies on the line is enough.
    if (met.at(-1)) expect(looked(x, y, z)).toBeLessThanOrEqual(needed);
    else expect(looked(x, y, z)).toBe(needed);
    if (needed > 0) expect(looked(x, y, z)).toBeGreaterThan(0);
  }
  expect(met.filter(Boolean).length).toBeGreaterThan(10);
  expect(met.filter((one) => !one).length).toBeGreaterThan(10);
});
