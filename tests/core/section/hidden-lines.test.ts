import { describe, expect, test } from 'vitest';
import type { Mesh, Vec2, Vec3 } from '../../../src/core/mesh/mesh.ts';
import { seenEdges, type Sight } from '../../../src/core/section/seen-edges.ts';
import { foldedBar } from '../../support/folded-bar.ts';
import { box, flipped, joined, mapped, skinned } from '../../support/solids.ts';

const MM = 1e-3;

/** A roof of 45° along x, its ridge at y = 0, z = 5 mm, in even steps along its length. */
function roof(length: number, steps: number): Mesh {
  const corners: Vec2[] = [
    [5 * MM, 0],
    [0, 5 * MM],
    [-5 * MM, 0],
  ];
  const rings = Array.from({ length: steps + 1 }, (_, i) =>
    corners.map(([y, z]): Vec3 => [(i * length) / steps, y, z]),
  );
  return skinned([0, 0, MM], rings, [length, 0, MM]);
}

/** A bar across the ridge, above it, over x from `from` to `to`. */
const over = (from: number, to: number): Mesh => box([to - from, 0.03, MM], [from, -0.015, 8 * MM]);
/** Where the ridge shows, along x [mm], from the nose on. */
const shown = (mesh: Mesh): number[][] =>
  seenEdges(mesh, 'plan')
    .ridges.filter((line) => line.every(([, y]) => Math.abs(y) < 1e-9))
    .map((line) => line.map(([x]) => x / MM))
    .map((xs) => [Math.min(...xs), Math.max(...xs)])
    .sort((a, b) => a[0]! - b[0]!);

describe.each([1, 7, 40])('a ridge of 40 mm in %i edges', (steps) => {
  test.each<[string, [number, number][], [number, number][]]>([
    ['nothing over it', [], [[0, 40]]],
    ['its beginning hidden', [[-5, 8.13]], [[8.13, 40]]],
    ['its end hidden', [[33.3, 50]], [[0, 33.3]]],
    [
      'both ends hidden',
      [
        [-5, 8.13],
        [33.3, 50],
      ],
      [[8.13, 33.3]],
    ],
    [
      'three bars over it',
      [
        [5.05, 9.17],
        [14.2, 20.9],
        [30.33, 35.6],
      ],
      [
        [0, 5.05],
        [9.17, 14.2],
        [20.9, 30.33],
        [35.6, 40],
      ],
    ],
    ['all of it hidden', [[-1, 41]], []],
    // A stretch of 2.4 mm is a speck, one of 2.6 mm is not.
    [
      'a short stretch left over',
      [
        [-5, 10],
        [12.4, 50],
      ],
      [],
    ],
    [
      'a longer one',
      [
        [-5, 10],
        [12.6, 50],
      ],
      [[10, 12.6]],
    ],
  ])('%s', (_, bars, expected) => {
    const got = shown(joined(roof(40 * MM, steps), ...bars.map(([from, to]) => over(from * MM, to * MM))));
    expect(got).toHaveLength(expected.length);
    // 6 µm along the edge, 2 µm off it.
    got.forEach((ends, i) =>
      ends.forEach((end, side) => expect(Math.abs(end - expected[i]![side]!)).toBeLessThan(0.008)),
    );
  });
});

test('a bar below the ridge hides nothing', () => {
  const below = box([10 * MM, 0.03, MM], [10 * MM, -0.015, -8 * MM]);
  expect(shown(joined(roof(40 * MM, 4), below))).toEqual([[0, expect.closeTo(40, 9)]]);
});

test('shorter grooves than 2.5 mm are specks, longer ones are not', () => {
  const lines = (length: number) =>
    seenEdges(foldedBar([-40], [], { length, steps: 1 }).mesh, 'plan').grooves;
  expect(lines(2.45 * MM)).toEqual([]);
  expect(lines(2.55 * MM)).toHaveLength(1);
});

describe('each kind in its own list', () => {
  const { mesh, profile } = foldedBar([40, -40, 45, -45], [4 * MM, 4 * MM, 4 * MM], {
    length: 0.02,
    steps: 4,
  });
  test('ridges and grooves lie at their folds', () => {
    const { ridges, grooves, contours } = seenEdges(mesh, 'plan');
    const at = (lines: typeof ridges) =>
      lines.map((line) => [...new Set(line.map(([, y]) => +y.toFixed(9)))]);
    const folds = profile.slice(1, -1).map(([y]) => +y.toFixed(9));
    expect(at(ridges).sort()).toEqual([[folds[0]!], [folds[2]!]].sort());
    expect(at(grooves).sort()).toEqual([[folds[1]!], [folds[3]!]].sort());
    expect(contours).toEqual([]);
    for (const line of [...ridges, ...grooves]) {
      const xs = line.map(([x]) => x);
      expect(line).toHaveLength(5);
      expect(Math.max(...xs) - Math.min(...xs)).toBeCloseTo(0.02, 12);
    }
  });
});

describe('a bar that stands upright, with an edge at x = 10 mm, z from 0 to 8 mm, on the side of +y only', () => {
  // Plan of a kite: corners at (0, 0), (10, 4), (20, 0), (10, −1).
  const nosed = mapped(
    skinned(
      [0, 0, 4 * MM],
      [0, 8 * MM].map((z) =>
        (
          [
            [20, 0],
            [10, 4],
            [0, 0],
            [10, -1],
          ] as const
        ).map(([x, y]): Vec3 => [z, x * MM, y * MM]),
      ),
      [0.008, 0, 4 * MM],
    ),
    // Rings turn from +y to +z about x: laid so that their axis is z.
    ([a, b, c]) => [b, c, a],
  );
  const ridges = (mesh: Mesh, sight: Sight) => seenEdges(mesh, sight).ridges;
  const edge = [
    [10, 0],
    [10, 8],
  ];

  test('is an upright line seen from +y, and none from −y, where the surface is nearly flat', () => {
    const [line, ...others] = ridges(nosed, 'across from +y');
    expect(others).toEqual([]);
    expect(line!.map(([x, z]) => [+(x / MM).toFixed(6), +(z / MM).toFixed(6)]).sort()).toEqual(edge);
    expect(ridges(nosed, 'across from -y')).toEqual([]);
  });

  test('turned over it is the other way round, x to the right all the same', () => {
    const turnedOver = flipped(mapped(nosed, ([x, y, z]) => [x, -y, z]));
    const [line, ...others] = ridges(turnedOver, 'across from -y');
    expect(others).toEqual([]);
    expect(line!.map(([x, z]) => [+(x / MM).toFixed(6), +(z / MM).toFixed(6)]).sort()).toEqual(edge);
    expect(ridges(turnedOver, 'across from +y')).toEqual([]);
  });
});

describe('contours', () => {
  /** A table of 30 × 20 mm over a larger one, both 2 mm high. */
  const tables = (width: number) =>
    joined(box([0.03, width, 2 * MM], [0, 0, 5 * MM]), box([0.05, 0.04, 2 * MM], [-0.01, -0.01, 0]));
  const total = (lines: readonly (readonly Vec2[])[]) =>
    lines.reduce(
      (sum, line) =>
        sum + line.slice(1).reduce((all, [x, y], i) => all + Math.hypot(x - line[i]![0], y - line[i]![1]), 0),
      0,
    );
  test('are where something lies behind: the upper table’s outline, not the lower one’s', () => {
    const { contours } = seenEdges(tables(0.02), 'plan');
    expect(total(contours)).toBeCloseTo(0.1, 9);
    for (const [x, y] of contours.flat()) {
      expect(x === 0 || x === 0.03 || y === 0 || y === 0.02).toBe(true);
    }
  });
  test('end where the lower table ends', () => {
    // The upper one reaches 10 mm beyond it along y; either end is found to 7 µm.
    const { contours } = seenEdges(tables(0.04), 'plan');
    expect(Math.abs(total(contours) - (0.03 + 2 * 0.03))).toBeLessThan(2 * 7e-6);
  });
  test('shorter ones than 1 mm are specks', () => {
    const specks = (side: number) =>
      seenEdges(
        joined(box([side, 0.3 * MM, MM], [5 * MM, 5 * MM, 3 * MM]), box([0.02, 0.02, 2 * MM])),
        'plan',
      ).contours;
    expect(total(specks(0.4 * MM))).toBeCloseTo(2 * (0.3 + 0.4) * MM, 9);
    expect(specks(0.1 * MM)).toEqual([]);
  });
});
