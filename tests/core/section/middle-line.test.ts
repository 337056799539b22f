import { describe, expect, test } from 'vitest';
import type { Vec3 } from '../../../src/core/mesh/mesh.ts';
import { apart, middleLineOf } from '../../../src/core/section/middle-line.ts';
import { once } from '../../support/once.ts';

const close = (values: readonly number[]) => values.map((value) => expect.closeTo(value, 12) as unknown);

describe('a line of three stretches of 3, 4 and 12, one along each axis', () => {
  const corners: Vec3[] = [
    [1, 2, 3],
    [4, 2, 3],
    [4, 6, 3],
    [4, 6, 15],
  ];
  const line = once(() => middleLineOf(corners));

  test('is as long as its stretches', () => {
    expect(line().length).toBe(19);
  });

  test.each<[number, Vec3]>([
    [0, [1, 2, 3]],
    [1.5, [2.5, 2, 3]],
    [3, [4, 2, 3]],
    [5, [4, 4, 3]],
    [7, [4, 6, 3]],
    [10, [4, 6, 6]],
    [19, [4, 6, 15]],
    // Straight on beyond both ends.
    [-2, [-1, 2, 3]],
    [20, [4, 6, 16]],
  ])('at %d', (s, point) => {
    expect(line().pointAt(s)).toEqual(close(point));
  });

  test('its direction is that of the chord over a twelfth of the length', () => {
    expect(line().directionAt(1.5)).toEqual(close([1, 0, 0]));
    expect(line().directionAt(13)).toEqual(close([0, 0, 1]));
    // Half a twelfth of 19 to either side of a corner: evenly along both.
    expect(line().directionAt(3)).toEqual(close([Math.SQRT1_2, Math.SQRT1_2, 0]));
    // 0.19 before the corner at 7, the chord has 19/24 − 0.19 beyond it and 19/24 + 0.19 before it.
    const [up, on] = [19 / 24 - 0.19, 19 / 24 + 0.19];
    const size = Math.hypot(up, on);
    expect(line().directionAt(6.81)).toEqual(close([0, on / size, up / size]));
  });

  test('points that repeat are skipped', () => {
    const twice = middleLineOf(corners.flatMap((corner) => [corner, corner]));
    expect(twice.length).toBe(19);
    for (const s of [-2, 0, 3, 5, 7, 19, 20]) expect(twice.pointAt(s)).toEqual(line().pointAt(s));
  });

  test('without a box it covers everything', () => {
    expect(line().covers([1e9, -1e9, 0])).toBe(true);
  });
});

describe('a box bounds what belongs to it, a billionth of its size beyond as well', () => {
  const line = once(() =>
    middleLineOf(
      [
        [0, 0, 0],
        [1, 0, 0],
      ],
      { min: [0, -1, -2], max: [2, 2, 4] },
    ),
  );
  // The diagonal is √(2² + 3² + 6²) = 7: the slack is 7·10⁻⁹.
  test.each<[Vec3, boolean]>([
    [[1, 0, 0], true],
    [[0, -1, -2], true],
    [[2, 2, 4], true],
    [[-6e-9, 0, 0], true],
    [[-8e-9, 0, 0], false],
    [[2 + 6e-9, 0, 0], true],
    [[2 + 8e-9, 0, 0], false],
    [[1, -1 - 6e-9, 0], true],
    [[1, -1 - 8e-9, 0], false],
    [[1, 2 + 8e-9, 0], false],
    [[1, 0, -2 - 8e-9], false],
    [[1, 0, 4 + 6e-9], true],
    [[1, 0, 4 + 8e-9], false],
  ])('%j: %s', (point, within) => {
    expect(line().covers(point)).toBe(within);
  });
});

test('fewer than two different points are refused', () => {
  for (const [points, count] of [
    [[], 0],
    [[[1, 2, 3]], 1],
    [
      [
        [1, 2, 3],
        [1, 2, 3],
      ],
      1,
    ],
  ] as [Vec3[], number][])
    expect(() => middleLineOf(points)).toThrow(
      `middleLineOf: wants two different points or more, got ${count}`,
    );
});

test('points lie as far apart as a box of 2, 3, 6 is from corner to corner: 7', () => {
  expect(apart([1, 1, 1], [3, -2, 7])).toBe(7);
});
