import { expect, test } from 'vitest';
import { monotoneCurve } from '../../../src/core/solid/pchip.ts';

test('passes through its points and reproduces a straight line', () => {
  const line = monotoneCurve([0, 1, 3, 7], [2, 4, 8, 16]);
  for (const x of [0, 0.3, 1, 2.2, 3, 5, 7]) expect(line(x)).toBeCloseTo(2 + 2 * x, 12);
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
  const curve = monotoneCurve([1, 2], [3, 4]);
  expect([curve(0), curve(9)]).toEqual([3, 4]);
});

test('refuses points that do not increase', () => {
  expect(() => monotoneCurve([0, 1, 1], [1, 2, 3])).toThrow('monotoneCurve: wants increasing points');
  expect(() => monotoneCurve([0], [1])).toThrow('at least 2');
});
