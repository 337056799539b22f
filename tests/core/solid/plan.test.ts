import { describe, expect, test } from 'vitest';
import { meshVolume } from '../../../src/core/mesh/mass-properties.ts';
import type { Vec2 } from '../../../src/core/mesh/mesh.ts';
import {
  meshInBlock,
  outlineBox,
  outlineDistance,
  placedOutline,
  stretchDistance,
  turnedDirection,
} from '../../../src/core/solid/plan.ts';

const QUARTER = Math.PI / 2;
const close = (values: readonly number[]) => values.map((value) => expect.closeTo(value, 12) as number);

// Rotation by φ takes (x, y) to (x cos φ − y sin φ, x sin φ + y cos φ); a mirror across y = 0 comes before it.
test.each<[Vec2, number, boolean, Vec2]>([
  [[3, 4], 0, false, [3, 4]],
  [[3, 4], 0, true, [3, -4]],
  [[3, 4], QUARTER, false, [-4, 3]],
  [[3, 4], QUARTER, true, [4, 3]],
  [[3, 4], -QUARTER, false, [4, -3]],
  [[2, 0], Math.PI / 6, false, [Math.sqrt(3), 1]],
  [[0, 2], Math.PI / 6, true, [1, -Math.sqrt(3)]],
])('%o turned by %f, mirrored: %s', (direction, turn, mirrored, expected) => {
  expect(turnedDirection(direction, { turn, mirrored })).toEqual(close(expected));
});

const triangle: Vec2[] = [
  [0, 0],
  [4, 0],
  [0, 1],
];

test('an outline is turned, then shifted; the order of its points stays', () => {
  const [ring] = placedOutline([triangle], { x: 10, y: 20, turn: QUARTER, mirrored: false });
  expect(ring).toEqual([[10, 20], [10, 24], [9, 20]].map(close)); // prettier-ignore
});

test('a mirrored outline runs the other way round, so that it stays counter-clockwise', () => {
  const [ring] = placedOutline([triangle], { x: 10, y: 20, turn: 0, mirrored: true });
  expect(ring).toEqual([[10, 19], [14, 20], [10, 20]].map(close)); // prettier-ignore
});

test.each([false, true])(
  'a mesh goes where its outline goes and keeps its volume (mirrored: %s)',
  (mirrored) => {
    // A tetrahedron with legs 4, 1 and 3: volume 4·1·3/6 = 2.
    const mesh = {
      positions: Float64Array.of(0, 0, 0, 4, 0, 0, 0, 1, 0, 0, 0, 3),
      triangles: Uint32Array.of(0, 2, 1, 0, 1, 3, 0, 3, 2, 1, 2, 3),
    };
    const placement = { x: 10, y: 20, turn: 0.3, mirrored };
    const placed = meshInBlock(mesh, placement);
    expect(meshVolume(placed)).toBeCloseTo(2, 12);
    const [base] = placedOutline([triangle], placement);
    const corners = mirrored ? [...base!].reverse() : base!;
    corners.forEach(([x, y], i) => {
      expect([...placed.positions.slice(3 * i, 3 * i + 3)]).toEqual(close([x, y, 0]));
    });
    expect([...placed.positions.slice(9)]).toEqual(close([10, 20, 3]));
  },
);

test('the box of an outline holds every ring', () => {
  const rings: Vec2[][] = [
    [[1, -2], [3, 5], [0, 4]], // prettier-ignore
    [[-7, 1], [2, 9]], // prettier-ignore
  ];
  expect(outlineBox(rings)).toEqual({ min: [-7, -2], max: [3, 9] });
});

describe('distance from an outline', () => {
  // A square of side 6 with a square hole of side 2 in its middle; distances by hand.
  const square = (half: number): Vec2[] => [[-half, -half], [half, -half], [half, half], [-half, half]]; // prettier-ignore
  const frame = [square(3), square(1).reverse()];
  test.each<[Vec2, number]>([
    [[0, 0], 1],
    [[0.25, 0.5], 0.5],
    [[2, 0], -1],
    [[0, -2.5], -0.5],
    [[-1.25, 0.75], -0.25],
    [[5, 0], 2],
    [[-5, 1], 2],
    [[0, 7], 4],
    [[0, -4], 1],
    [[6, 7], 5],
    [[-6, -7], 5],
    [[2, 2], -1],
    [[3, 0], 0],
    [[-2, 1], -1],
    [[2, -1], -1],
  ])('%o: %f', (point, expected) => {
    expect(outlineDistance(frame, point)).toBeCloseTo(expected, 12);
  });

  test('a slanted side: the sign changes where the line is crossed', () => {
    // The hypotenuse x/4 + y = 1 of the triangle; distance (x + 4y − 4)/√17.
    for (const [x, y] of [
      [1, 0.5],
      [2, 0.49],
      [2, 0.51],
      [1, 0.9],
      [3, 0.3],
    ] as Vec2[]) {
      // prettier-ignore
      const off = (x + 4 * y - 4) / Math.sqrt(17);
      expect(outlineDistance([triangle], [x, y])).toBeCloseTo(Math.max(off, -y, -x), 12);
    }
  });
});

// Feet of perpendiculars by hand: the stretch from (1, 1) to (4, 5) is 5 long and points along (0.6, 0.8).
test.each<[Vec2, number]>([
  [[2.2, 2.6], 0],
  [[2.2 - 0.8 * 2, 2.6 + 0.6 * 2], 2],
  [[1 + 0.8, 1 - 0.6], 1],
  [[1 - 0.6 * 3, 1 - 0.8 * 3], 3],
  [[4 + 0.6 * 2, 5 + 0.8 * 2], 2],
  [[1, 0], 1],
])('distance of %o from a stretch is %f', (point, expected) => {
  expect(stretchDistance([1, 1], [4, 5], point)).toBeCloseTo(expected, 12);
  expect(stretchDistance([4, 5], [1, 1], point)).toBeCloseTo(expected, 12);
});

test('a stretch of no length is a point', () => {
  expect(stretchDistance([1, 1], [1, 1], [4, 5])).toBe(5);
});
