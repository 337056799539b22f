import { expect, test } from 'vitest';
import { monotoneCurve } from '../../../src/core/solid/pchip.ts';

test('passes through its points and reproduces a straight line', () => {
  const line = monotoneCurve([0, 1, 3, 7], [2, 4, 8, 16]);
  for (const x of [0, 0.3, 1, 2.2, 3, 5, 7]) expect(line(x)).toBeCloseTo(2 + 2 * x, 12);
});

// Half way between two points a cubic with slopes d₀, d₁ is (y₀ + y₁)/2 + h(d₀ − d₁)/8; a quarter of the way
// it is (27y₀ + 5y₁)/32 + h(9d₀ − 3d₁)/64 (Hermite form). Slopes at the points by hand: inside, the harmonic mean of the
// neighbouring slopes with weights 2h₊ + h₋ and h₊ + 2h₋; at an end ((2h + h₂)s − h·s₂)/(h + h₂).
test.each<[string, number[], number[], number[]]>([
  // Slopes 1, ½, 4 over lengths 1, 2, 1: inside 9/(5/1 + 4/½) and 9/(4/½ + 5/4).
  ['rising', [0, 1, 3, 4], [0, 1, 2, 6], [7 / 6, 9 / 13, 9 / 9.25, 31 / 6]],
  ['falling', [0, 1, 3, 4], [6, 5, 4, 0], [-7 / 6, -9 / 13, -9 / 9.25, -31 / 6]],
  // Slopes 1, −1: 0 where they turn, ((2 + 1)·1 + 1)/2 = 2 at the ends.
  ['a tent', [0, 1, 2], [0, 1, 0], [2, 0, -2]],
  // Slopes 1, −5: ((2 + 1)·1 + 5)/2 = 4 is held to three times the slope, −8 is not.
  ['a tent with a steep side', [0, 1, 2], [0, 1, -4], [3, 0, -8]],
  ['the other way up', [0, 1, 2], [0, -1, 4], [-3, 0, 8]],
  // Slopes 1, 5: ((2 + 1)·1 − 5)/2 = −1 would fall, so 0; inside 6/(3/1 + 3/5); at the end (15 − 1)/2.
  ['slow, then fast', [0, 1, 2], [0, 1, 6], [0, 5 / 3, 7]],
  ['slow, then fast downwards', [0, 1, 2], [0, -1, -6], [0, -5 / 3, -7]],
  ['level first', [0, 1, 2], [3, 3, 4], [0, 0, 1.5]],
  ['two points only', [2, 6], [1, 9], [2, 2]],
])('%s: slopes at the points as worked out by hand', (_, xs, ys, slopes) => {
  const curve = monotoneCurve(xs, ys);
  for (let i = 1; i < xs.length; i++) {
    const [gap, from, to] = [xs[i]! - xs[i - 1]!, ys[i - 1]!, ys[i]!];
    const [before, after] = [slopes[i - 1]!, slopes[i]!];
    expect(curve(xs[i - 1]!)).toBe(from);
    expect(curve(xs[i - 1]! + gap / 2)).toBeCloseTo((from + to) / 2 + (gap * (before - after)) / 8, 12);
    expect(curve(xs[i - 1]! + gap / 4)).toBeCloseTo(
      (27 * from + 5 * to) / 32 + (gap * (9 * before - 3 * after)) / 64,
      12,
    );
  }
});

test('stays between neighbouring values: no bulge that the table does not have', () => {
  const xs = [0, 1, 1.2, 4, 9, 9.5];
  const ys = [0, 5, 5, 1, 1, 6];
  const curve = monotoneCurve(xs, ys);
  for (let i = 1; i < xs.length; i++) {
    const [low, high] = [Math.min(ys[i - 1]!, ys[i]!), Math.max(ys[i - 1]!, ys[i]!)];
    for (let step = 0; step <= 50; step++) {
      const y = curve(xs[i - 1]! + ((xs[i]! - xs[i - 1]!) * step) / 50);
      expect(y).toBeGreaterThanOrEqual(low - 1e-12);
      expect(y).toBeLessThanOrEqual(high + 1e-12);
    }
  }
});

test('a smooth monotone curve is met at third order or better', () => {
  const worst = (count: number): number => {
    const xs = Array.from({ length: count + 1 }, (_, i) => i / count);
    const curve = monotoneCurve(xs, xs.map(Math.exp));
    return Math.max(...Array.from({ length: 997 }, (_, i) => Math.abs(curve(i / 996) - Math.exp(i / 996))));
  };
  expect(Math.log2(worst(16) / worst(32))).toBeGreaterThan(2.8);
});

test('is constant beyond both ends', () => {
  const curve = monotoneCurve([1, 2, 3], [3, 4, 6]);
  expect([curve(0), curve(9)]).toEqual([3, 6]);
});

test.each<[number[], number[], string]>([
  [[0, 1, 1], [1, 2, 3], 'monotoneCurve: wants increasing points, got others'],
  [[0, 2, 1], [1, 2, 3], 'monotoneCurve: wants increasing points, got others'],
  [[0], [1], 'monotoneCurve: wants as many values as points and at least 2, got 1, 1'],
  [[0, 1], [1, 2, 3], 'monotoneCurve: wants as many values as points and at least 2, got 2, 3'],
])('refuses %o with %o', (xs, ys, message) => {
  expect(() => monotoneCurve(xs, ys)).toThrow(message);
});
