import { describe, expect, test } from 'vitest';
import type { Vec2 } from '../../../src/core/mesh/mesh.ts';
import { hookForm, wireCentroid, wireExit, type HookSizes } from '../../../src/core/rigging/hook-form.ts';
import type { SideBody } from '../../../src/core/rigging/side-body.ts';

// Worked by hand from the construction: a body 30 high from −10 to 20 whose nose stands at 100, a hook 20 long that enters
// 2 behind it, at 102. Whatever the unit.

const SIZES: HookSizes = { gape: 4, length: 20, bite: 5, wire: 1, shank: 12, offset: 3 };

const even = (belly: number, back: number, nose: Vec2 = [100, 7]): SideBody => ({
  nose,
  length: 80,
  bellyAt: () => belly,
  backAt: () => back,
});
const BODY = even(-10, 20);

const near = (line: readonly Vec2[], expected: readonly Vec2[]) => {
  expect(line.length).toBe(expected.length);
  line.forEach((point, i) => {
    for (const axis of [0, 1] as const) expect(point[axis]).toBeCloseTo(expected[i]![axis], 12);
  });
};

/** From the shank's end at 12 down 8 to the hook's end at 20, and back up 5 to the point: an ellipse each, 7.5° a step. */
const BEND = Array.from({ length: 25 }, (_, step): Vec2 => {
  const angle = (step * Math.PI) / 24;
  return [step < 12 ? 12 + 8 * Math.sin(angle) : 15 + 5 * Math.sin(angle), 2 - 2 * Math.cos(angle)];
});

describe('a weedless hook', () => {
  test('steps down from the eye by its offset, lies under the belly, and turns up to its point', () => {
    const { line, eye, point, foot, bend, strain, lie } = hookForm(SIZES, 'weedless', BODY, 2);
    // Half a wire under the belly: −10.5; the eye 3 above that.
    const step: Vec2[] = [
      [102, -7.5],
      [103.4, -7.5],
      [104, -8.25],
      [105, -10.05],
      [105.8, -10.5],
    ];
    near(line, [...step, ...BEND.map(([u, v]): Vec2 => [102 + u, v - 10.5])]);
    near(
      [eye.at, point, foot, bend],
      [
        [102, -7.5],
        [117, -6.5],
        [117, -10.5],
        [122, -8.5],
      ],
    );
    expect([eye.radius, strain, lie]).toEqual([1.6, 0, 'weedless']);
  });

  test.each([0.3, 0.45, 0.6, 0.75])('lies under the lowest belly, also at %f of its length', (share) => {
    const belly = (x: number) => (Math.abs(x - 102 - 20 * share) < 1e-9 ? -12 : -10);
    expect(hookForm(SIZES, 'weedless', { ...BODY, bellyAt: belly }, 2).foot[1]).toBe(-12.5);
  });

  test.each([
    ['a step within the skin is taken whole', BODY, 3, -7.5, 0],
    ['one too high stays a wire under the back', BODY, 40, 19, 10.5],
    ['one too low stays a wire above the belly', BODY, 0, -9, 1.5],
    ['between skins nearer than two wires: the upper of both', even(-0.5, 0.5), 3, 0.5, 1.5],
    ['and the lower of both', even(-0.5, 0.5), 0, -0.5, 0.5],
  ])('%s', (_, body, offset, eye, strain) => {
    const form = hookForm({ ...SIZES, offset }, 'weedless', body, 2);
    expect(form.eye.at).toEqual([102, eye]);
    expect(form.strain).toBe(strain);
  });

  test('the skin counts a twentieth of its length behind the entry', () => {
    const at = (x: number) => (Math.abs(x - 103) < 1e-9 ? 1 : 0);
    const body = { ...BODY, bellyAt: (x: number) => -10 + at(x), backAt: (x: number) => 20 - 20 * at(x) };
    expect(hookForm({ ...SIZES, offset: 0 }, 'weedless', body, 2).eye.at[1]).toBe(-8);
    expect(hookForm({ ...SIZES, offset: 40 }, 'weedless', body, 2).eye.at[1]).toBe(-1);
  });
});

describe('a threaded hook', () => {
  test('has its eye 6 % ahead of the entry and lies in the middle of the body there', () => {
    const at = (x: number) => (Math.abs(x - 103) < 1e-9 ? 2 : 0);
    const body = { ...BODY, bellyAt: (x: number) => -10 - at(x), backAt: (x: number) => 20 + 2 * at(x) };
    const { line, foot, strain } = hookForm(SIZES, 'threaded', body, 2);
    // From −12 to 24 at 103: middle 6. Eye at 102 − 1.2.
    near(line, [[100.8, 6], ...BEND.map(([u, v]): Vec2 => [100.8 + u, 6 + v])]);
    near([foot], [[115.8, 6]]);
    expect(strain).toBe(0);
  });
});

describe('a hook through the nose', () => {
  // Its point at 102, a quarter of the height above the back: 20 + 7.5; the shank a gape ahead; the eye 15 above the point.
  test('hangs upright, its point up through the snout', () => {
    const { line, foot, point, strain } = hookForm(SIZES, 'through the nose', BODY, 2);
    near(line, [[98, 42.5], ...BEND.map(([u, v]): Vec2 => [98 + v, 42.5 - u])]);
    near(
      [foot, point],
      [
        [98, 27.5],
        [102, 27.5],
      ],
    );
    expect(strain).toBe(0);
  });

  test.each([
    ['a snout thinner than the wire: a quarter of the wire above it', even(7, 7.5), 7.75],
    ['a nose above the back: as high as the nose', even(-10, 20, [100, 40]), 40],
  ])('%s', (_, body, height) => {
    expect(hookForm(SIZES, 'through the nose', body, 2).point).toEqual([102, height]);
  });
});

test('what is left out: a shank that ends where the throat begins, no offset, the nose', () => {
  const { gape, length, bite, wire } = SIZES;
  const bare = hookForm({ gape, length, bite, wire }, 'threaded', BODY);
  expect(bare).toEqual(hookForm({ ...SIZES, shank: 15, offset: 0 }, 'threaded', BODY, 0));
  expect(hookForm({ gape, length, bite, wire }, 'weedless', BODY)).toEqual(
    hookForm({ ...SIZES, shank: 15, offset: 0 }, 'weedless', BODY, 0),
  );
});

test.each([
  [{ gape: 0 }, 'hookForm: gape: wants a finite number above 0, got 0'],
  [{ length: -1 }, 'hookForm: length: wants a finite number above 0, got -1'],
  [{ bite: 0 }, 'hookForm: bite: wants a finite number above 0, got 0'],
  [{ wire: 0 }, 'hookForm: wire: wants a finite number above 0, got 0'],
  [{ shank: 0 }, 'hookForm: shank: wants a finite number above 0, got 0'],
  [{ shank: 20 }, 'hookForm: wants shank and throat shorter than the hook, got 20, 5'],
  [{ bite: 20 }, 'hookForm: wants shank and throat shorter than the hook, got 12, 20'],
  [{ offset: -1 }, 'hookForm: wants an offset of 0 or more, got -1'],
])('sizes that no hook has: %o', (change, message) => {
  expect(() => hookForm({ ...SIZES, ...change }, 'weedless', BODY)).toThrow(message);
});

test('a wire without length has no centre', () => {
  expect(() => wireCentroid([[1, 1]])).toThrow('wireCentroid: wants a line with a length, got 0');
});

describe('where a wire leaves the body', () => {
  // A body from −1 to 1 whose nose stands at 2. Each piece is looked at in fifty parts: of (4, 0) → (9, −5) the tenth lies
  // on the belly, which is inside, the eleventh at x = 5.1 below it.
  const body = even(-1, 1, [2, 0]);
  const lines: readonly (readonly [string, readonly Vec2[], number | null])[] = [
    ['through the belly', [[4, 0], [9, -5]], 3.1], // prettier-ignore
    ['through the back', [[4, 0], [9, 5]], 3.1], // prettier-ignore
    ['ahead of the nose', [[4, 0], [-1, 0]], -0.1], // prettier-ignore
    ['at its last point', [[4, 0], [5, -1.01]], 3], // prettier-ignore
    ['in its second piece', [[4, 0], [6, 0], [6, 5]], 4], // prettier-ignore
    ['after it came in from ahead', [[0, 0], [10, 0], [10, 5]], 8], // prettier-ignore
    ['after it came in from above', [[4, 5], [4, -5]], 2], // prettier-ignore
    ['never when it stays inside', [[4, 0], [9, 1]], null], // prettier-ignore
    ['never when it was not inside', [[4, 5], [9, 5], [9, 9]], null], // prettier-ignore
  ];
  test.each(lines)('%s', (_, line, station) => {
    const exit = wireExit(line, body);
    if (station === null) expect(exit).toBeNull();
    else expect(exit).toBeCloseTo(station, 12);
  });
});
