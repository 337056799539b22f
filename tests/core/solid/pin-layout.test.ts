import { describe, expect, test } from 'vitest';
import type { Vec2 } from '../../../src/core/mesh/mesh.ts';
import type { Channels } from '../../../src/core/solid/channel-layout.ts';
import type { MoldTable, PlacedCavity } from '../../../src/core/solid/mold-table.ts';
import { pinsOf } from '../../../src/core/solid/pin-layout.ts';

const mm = 1e-3;
/** Pins of 5 mm keep 2.5 + 3 = 5.5 mm from the edges. */
const mold: MoldTable = {
  cavities: [],
  block: { length: 120 * mm, width: 60 * mm, thickness: 24 * mm },
  sprue: { mouth: 12 * mm, end: 7 * mm, length: 20 * mm },
  runner: { diameter: 6 * mm },
  gate: { width: 4 * mm, depth: 2 * mm, length: 3 * mm, at: 'nose' },
  vents: [],
  pins: { count: 2, diameter: 5 * mm },
};
const far: Vec2 = [-1, -1];
const none: Channels = { gates: [], runner: [], runnerLength: 0, sprue: { mouth: far, end: far } };
const at = (x: number, y: number): Vec2 => [x * mm, y * mm];
const square = (x0: number, y0: number, x1: number, y1: number): PlacedCavity => ({
  ...{ x: 0, y: 0, turn: 0, mirrored: false, gate: { at: far, out: [-1, 0] } },
  outline: [[at(x0, y0), at(x1, y0), at(x1, y1), at(x0, y1)]],
});
const places = (table: MoldTable, cavities: PlacedCavity[] = [], channels = none) =>
  pinsOf(table, cavities, channels).map(({ at: [x, y] }) => [x / mm, y / mm]);
const near = (rows: readonly (readonly number[])[]) =>
  rows.map((row) => row.map((value) => expect.closeTo(value, 9) as number));
const sized = (changes: Partial<MoldTable['block']>, count: number): MoldTable => ({
  ...mold,
  block: { ...mold.block, ...changes },
  pins: { count, diameter: 5 * mm },
});

test('no pins stated, no pins', () => {
  expect(places({ ...mold, pins: undefined })).toEqual([]);
  expect(places(sized({}, 0))).toEqual([]);
});

test('the first stands in the lower left corner, the next ones as far off as there is room', () => {
  expect(places(mold)).toEqual(near([[5.5, 5.5], [114.5, 54.5]])); // prettier-ignore
  // In a square the third and the fourth find the other corners.
  expect(places(sized({ length: 60 * mm }, 4))).toEqual(
    near([[5.5, 5.5], [54.5, 54.5], [5.5, 54.5], [54.5, 5.5]]), // prettier-ignore
  );
});

test('a third pin on a long block: no place along the edges is farther from both', () => {
  const [first, second, third] = places(sized({}, 3)) as [number, number][];
  const room = ([x, y]: readonly number[]) =>
    Math.min(...[first, second].map((pin) => Math.hypot(x! - pin![0], y! - pin![1])));
  // Equally far from both lower corners' pins: u² = (109 − u)² + 49², u = 65.5 mm from either along the long sides.
  expect(room(third!)).toBeGreaterThan(65.5 - 2);
  expect(room(third!)).toBeLessThan(65.52);
  expect([5.5, 54.5]).toContainEqual(expect.closeTo(third![1], 9));
});

test('places are at most 2 mm apart', () => {
  // 109 mm in 55 steps, 49 mm in 25: the first step along each side that clears 20 + 5.5 mm is the eleventh.
  expect(places(mold, [square(0, 0, 20, 20)])[0]).toEqual(near([[5.5, 5.5 + (11 * 49) / 25]])[0]);
  expect(places(mold, [square(0, 0, 20, 54)])[0]).toEqual(near([[5.5 + (11 * 109) / 55, 5.5]])[0]);
});

test.each<[string, PlacedCavity, number]>([
  ['right', square(-1, -1, 100, 61), 114.5],
  ['left', square(20, -1, 121, 61), 5.5],
])('where only the %s side is free, the third stands half way up it', (_, cavity, x) => {
  const third = places(sized({}, 3), [cavity])[2]!;
  expect(third[0]).toBeCloseTo(x, 9);
  expect(Math.abs(third[1]! - 30)).toBeLessThan(4);
});

describe('pins keep 3 mm of metal', () => {
  // The corner pin's middle at (5.5, 5.5) mm; it moves on as soon as anything is nearer than its radius and 3 mm.
  const stays = near([[5.5, 5.5]])[0];
  const along = (x: number): Channels => ({ ...none, runner: [{ from: at(x, 0), to: at(x, 30) }] });
  const sprue = (x: number): Channels => ({ ...none, sprue: { mouth: at(x, 0), end: at(x, 20) } });
  test.each<[string, PlacedCavity[], Channels, boolean]>([
    ['from a cavity', [square(11.1, 0, 20, 20)], none, true],
    ['from a cavity that is too near', [square(10.9, 0, 20, 20)], none, false],
    ['from the second cavity', [square(90, 30, 95, 35), square(10.9, 0, 20, 20)], none, false],
    // 5.5 mm and half the runner's 6.
    ['from a runner', [], along(5.5 + 8.6), true],
    ['from a runner that is too near', [], along(5.5 + 8.4), false],
    // 5.5 mm and half the mouth's 12.
    ['from the sprue', [], sprue(5.5 + 11.6), true],
    ['from a sprue that is too near', [], sprue(5.5 + 11.4), false],
  ])('%s', (_, cavities, channels, unmoved) => {
    const [first] = places(mold, cavities, channels);
    if (unmoved) expect(first).toEqual(stays);
    else expect(first).not.toEqual(stays);
  });
  test('without a runner its stretches have no breadth', () => {
    const plain = { ...mold, runner: undefined };
    expect(places(plain, [], along(5.5 + 5.6))[0]).toEqual(stays);
    expect(places(plain, [], along(5.5 + 5.4))[0]).not.toEqual(stays);
  });
});

test('holes are twice as deep as wide, and stop short of the outer faces', () => {
  const depths = (thickness: number) => pinsOf(sized({ thickness: thickness * mm }, 2), [], none);
  expect(depths(24)[1]).toMatchObject({ diameter: 5 * mm, depth: 10 * mm });
  // Half of 20 mm less 1.5 mm.
  expect(depths(20)[1]!.depth).toBeCloseTo(8.5 * mm, 12);
});

describe('refuses', () => {
  const message = (count: number, found: number) =>
    `pins: wants room for ${count} along the block's edge, got room for ${found}; make the block larger or the pins fewer`;
  test('more pins than stand two diameters apart', () => {
    // Corners of a square of 49 mm: a fifth pin would stand 24.5 mm from two of them, the ninth 12.25 mm or less.
    expect(places(sized({ length: 60 * mm }, 8))).toHaveLength(8);
    expect(places(sized({ length: 21.1 * mm, width: 21.1 * mm }, 4))).toHaveLength(4);
    const small = sized({ length: 20.9 * mm, width: 20.9 * mm }, 4);
    expect(() => places(small)).toThrow(message(4, 2));
  });
  test('pins where nothing is free', () => {
    expect(() => places(mold, [square(-1, -1, 121, 61)])).toThrow(message(2, 0));
  });
});
