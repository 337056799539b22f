import { describe, expect, test } from 'vitest';
import { besselJ0, besselJ0Zeros, besselJ1 } from '../../../src/core/numeric/bessel.ts';
import { between, positive, rising } from '../../../src/core/quantity/guard.ts';
import { erf, erfc, erfInverse } from '../../../src/core/numeric/error-function.ts';
import { bisect, interpolate } from '../../../src/core/numeric/root.ts';

// Abramowitz & Stegun (1964), table 7.1, printed to 10 decimals.
const ERF = [
  { x: 0.1, value: 0.112462916 },
  { x: 0.5, value: 0.5204998778 },
  { x: 1, value: 0.8427007929 },
  { x: 1.5, value: 0.9661051465 },
  { x: 2, value: 0.995322265 },
];

describe('error function', () => {
  test.each(ERF)('erf $x is $value', ({ x, value }) => {
    expect(Math.abs(erf(x) - value)).toBeLessThanOrEqual(1e-10);
    expect(erf(-x)).toBe(-erf(x));
  });

  // Abramowitz & Stegun (1964), table 7.3: x·e^(x²)·erfc x tends to 1/√π; at x = 5, erfc 5 = 1.5374597944e-12.
  test('erfc keeps its digits far out', () => {
    expect(Math.abs(erfc(5) / 1.5374597944e-12 - 1)).toBeLessThan(1e-9);
    expect(erfc(-5)).toBeCloseTo(2, 11);
  });

  test('both branches meet at 2.5', () => {
    expect(Math.abs(erf(2.5 - 1e-12) - erf(2.5 + 1e-12))).toBeLessThan(1e-13);
  });

  test('inverse undoes the function', () => {
    for (const y of [-0.999, -0.7, -0.1, 0, 0.02, 0.4826, 0.9, 0.999]) {
      expect(Math.abs(erf(erfInverse(y)) - y)).toBeLessThan(1e-14);
    }
    expect(() => erfInverse(1)).toThrow('erfInverse: y: wants a number from');
  });
});

describe('Bessel functions', () => {
  // Abramowitz & Stegun (1964), table 9.1: J₀ to 15 decimals, J₁ to 10.
  test.each([
    { x: 0, j0: 1, j1: 0 },
    { x: 1, j0: 0.765197686557967, j1: 0.4400505857 },
    { x: 2, j0: 0.223890779141236, j1: 0.5767248078 },
    { x: 5, j0: -0.177596771314338, j1: -0.3275791376 },
    { x: 10, j0: -0.245935764451348, j1: 0.0434727462 },
  ])('J₀ and J₁ at $x', ({ x, j0, j1 }) => {
    expect(Math.abs(besselJ0(x) - j0)).toBeLessThanOrEqual(1e-14);
    expect(Math.abs(besselJ1(x) - j1)).toBeLessThanOrEqual(1e-10);
  });

  // Abramowitz & Stegun (1964), table 9.5, from memory: zeros and J₁ there to 10 decimals.
  test.each([
    { n: 1, root: 2.4048255577, slope: 0.5191474973 },
    { n: 2, root: 5.5200781103, slope: -0.3402648065 },
    { n: 5, root: 14.9309177085, slope: 0.2065464331 },
    { n: 10, root: 30.6346064684, slope: -0.1441659777 },
  ])('zero $n of J₀', ({ n, root, slope }) => {
    const zero = besselJ0Zeros(n)[n - 1];
    expect(Math.abs((zero?.root ?? NaN) - root)).toBeLessThanOrEqual(1e-10);
    expect(Math.abs((zero?.slope ?? NaN) - slope)).toBeLessThanOrEqual(2e-10);
  });
});

describe('roots and lines', () => {
  test('halving finds √2 and the ends', () => {
    expect(bisect((x) => x * x - 2, 0, 2)).toBeCloseTo(Math.SQRT2, 14);
    expect(bisect((x) => x, 0, 1)).toBe(0);
    expect(() => bisect((x) => x * x + 1, 0, 1)).toThrow('bisect: wants a change of sign');
  });

  test('a broken line passes through its points and holds its ends', () => {
    const at = (x: number) => interpolate([0, 1, 3], [0, 10, 0], x);
    expect([at(-1), at(0), at(0.5), at(1), at(2), at(3), at(9)]).toEqual([0, 0, 5, 10, 5, 0, 0]);
  });

  test('checks name the parameter, what is wanted and what came', () => {
    expect(() => positive('f: x', -1)).toThrow('f: x: wants a finite number above 0, got -1');
    expect(() => between('f: x', NaN, 0, 1)).toThrow('f: x: wants a number from 0 to 1, got NaN');
    expect(() => rising('f: a < b', [2, 1])).toThrow('f: a < b: wants finite rising values, got 2, 1');
  });
});
