import { describe, expect, test } from 'vitest';
import fc from 'fast-check';
import { forcingFrequency, wetFrequency } from '../../../src/core/action/beat.ts';
import { bendingSpeed, cauchyNumber } from '../../../src/core/action/bending.ts';
import { polynomialRoots } from '../../../src/core/action/complex.ts';
import { flutterSpeed, neutralState } from '../../../src/core/action/flutter.ts';
import { actionSpeeds, chanceAt, onsetOf, type Mover } from '../../../src/core/action/onset.ts';
import { stripLimpness } from '../../../src/core/action/strip.ts';
import { bisect } from '../../../src/core/numeric/root.ts';
import { band } from '../../../src/core/quantity/band.ts';

const WATER = 998.2;
const flap = (thickness: number) => ({
  limpness: stripLimpness({ length: 0.03, stations: [{ s: 0, thickness, width: 0.008 }] }),
  modulus: 3e5,
  water: WATER,
});

// Closed forms worked by hand for a flap of 30 × 8 mm at 0.3 MPa; concept after de Langre (2008), Luhar & Nepf (2011).
describe('Cauchy number', () => {
  test('2 mm thick at 0.3 m/s: 11.825; 1 mm thick: eight times that', () => {
    expect(cauchyNumber(flap(0.002), 0.3) / 11.82492675).toBeCloseTo(1, 6);
    expect(cauchyNumber(flap(0.001), 0.3) / 94.599414).toBeCloseTo(1, 6);
  });

  test('1 mm folds, Ca = 8, at 0.08724 m/s', () => {
    expect(bendingSpeed(flap(0.001)) / 0.08724127924395471).toBeCloseTo(1, 6);
    expect(cauchyNumber(flap(0.001), bendingSpeed(flap(0.001)))).toBeCloseTo(8, 9);
  });
});

describe('beat', () => {
  const strip = { length: 0.03, stations: [{ s: 0, width: 0.008, thickness: 0.002 }] };
  const part = { strip, modulus: 3e5, density: 1035 };
  test('first mode of 30 × 8 × 2 mm: 6.1116 Hz in air, 3.0445 Hz with its added mass in water', () => {
    expect(wetFrequency({ ...part, water: 0 }) / 6.111646121838497).toBeCloseTo(1, 6);
    expect(wetFrequency({ ...part, water: WATER }) / 3.0444687357053595).toBeCloseTo(1, 6);
  });

  /** Jₙ for `sign` −1, Iₙ for +1, by its power series. */
  const bessel = (n: number, z: number, sign: 1 | -1) => {
    let term = 1;
    for (let k = 1; k <= n; k++) term *= z / 2 / k;
    let sum = term;
    for (let k = 1; k < 60; k++) sum += term *= (sign * (z / 2) ** 2) / (k * (k + n));
    return sum;
  };
  const cantilever = (thickness: (x: number) => number, width: (x: number) => number) => ({
    length: 0.05,
    stations: Array.from({ length: 241 }, (_, i) => ({
      s: (0.05 * i) / 240,
      thickness: 0.002 * Math.max(thickness(i / 240), 1e-5),
      width: 0.008 * Math.max(width(i / 240), 1e-5),
    })),
  });
  const root = { rigidity: (3e5 * 0.008 * 0.002 ** 3) / 12, mass: 1035 * 0.008 * 0.002 };
  const dimensionless = (strip: ReturnType<typeof cantilever>) =>
    2 *
    Math.PI *
    wetFrequency({ ...part, strip, water: 0 }) *
    0.05 ** 2 *
    Math.sqrt(root.mass / root.rigidity);

  // Kirchhoff (1879): y = x^(−n/2)·[A·Jₙ(z√x) + B·Iₙ(z√x)], x from the tip, held at x = 1; ω = z²/4 in units of the root.
  test.each([
    { shape: 'a wedge: even width, thickness to a point', n: 1, width: () => 1, printed: 5.315 },
    { shape: 'a pyramid: both to a point', n: 2, width: (x: number) => 1 - x, printed: 8.719 },
  ])('$shape: ω = $printed·√(EI/m)/L² of its root', ({ n, width, printed }) => {
    const held = (z: number) =>
      bessel(n, z, -1) * bessel(n + 1, z, 1) + bessel(n, z, 1) * bessel(n + 1, z, -1);
    const exact = bisect(held, 3, 7, 60) ** 2 / 4;
    expect(exact).toBeCloseTo(printed, 3);
    expect(dimensionless(cantilever((x) => 1 - x, width)) / exact).toBeCloseTo(1, 4);
  });

  // The problem turned round: y = x² is the mode of an even mass where EI/EI₀ = 1 − 4x/3 + x⁴/3, and then ω² = 8·EI₀/(m·L⁴).
  test('an even mass of water on a strip whose stiffness falls to nothing: ω² = 8·EI/(m·L⁴)', () => {
    const strip = cantilever(
      (x) => Math.cbrt(1 - (4 * x) / 3 + x ** 4 / 3),
      () => 1,
    );
    const omega = 2 * Math.PI * wetFrequency({ strip, modulus: 3e5, density: 1e-9, water: WATER });
    const water = (WATER * Math.PI * 0.008 ** 2) / 4;
    expect((omega ** 2 * water * 0.05 ** 4) / root.rigidity / 8).toBeCloseTo(1, 5);
  });

  test('a part without a size is refused', () => {
    expect(() => wetFrequency({ ...part, modulus: 0, water: 0 })).toThrow(
      'wetFrequency: modulus: wants a finite number above 0, got 0',
    );
  });

  test('eddies off 12 mm at 0.4 m/s: 6.667 Hz', () => {
    expect(forcingFrequency(0.4, 0.012)).toBeCloseTo(0.2 * (0.4 / 0.012), 12);
  });
});

// Ritz–Galerkin with 14 polynomials on the equation of Gregory & Païdoussis (1966), an independent computation; 5.59
// at β = 0.2 and 9.32 at 0.5 agree with published plots (from memory).
describe('flutter of a strip in an axial stream', () => {
  test.each([
    [0.1, 4.7499, 14.217],
    [0.2, 5.5914, 13.715],
    [0.3, 8.27, 21.887],
    [0.5, 9.3224, 26.497],
    [0.6, 9.9914, 26.296],
    [0.65, 10.4053, 26.415],
    [0.7, 12.7691, 43.597],
    [0.8, 13.4931, 44.83],
    [0.85, 13.8695, 44.999],
    [0.9, 14.3306, 45.609],
    [0.95, 17.6724, 72.292],
  ])('mass ratio %s: u = %s, ω = %s', (beta, speed, frequency) => {
    const state = neutralState(beta);
    expect(Math.abs(state.speed / speed - 1)).toBeLessThan(2e-3);
    expect(Math.abs(state.frequency / frequency - 1)).toBeLessThan(2e-3);
  });

  // With u_cr interpolated in β between table points, hence 1 %.
  test('two straight tails', () => {
    const tail = { width: 0.008, thickness: 0.001, density: 1035, water: WATER };
    expect(Math.abs(flutterSpeed({ ...tail, modulus: 3e5, length: 0.03 }) / 0.92814 - 1)).toBeLessThan(0.01);
    expect(Math.abs(flutterSpeed({ ...tail, modulus: 1e5, length: 0.04 }) / 0.4019 - 1)).toBeLessThan(0.01);
  });

  test('a mass ratio outside the theory is refused', () => {
    expect(() => neutralState(0.99)).toThrow('neutralState: wants a mass ratio of 0.05 to 0.98, got 0.99');
  });

  test('roots of (x − 1)(x + 2)(x² + 9)', () => {
    const roots = polynomialRoots([1, 1, 7, 9, -18]);
    const exact = [
      [-2, 0],
      [0, -3],
      [0, 3],
      [1, 0],
    ];
    for (const [re, im] of exact) {
      const nearest = Math.min(...roots.map(([a, b]) => Math.hypot(a - re!, b - im!)));
      expect(nearest).toBeLessThan(1e-9);
    }
  });
});

const curl = (thickness: number): Mover => ({
  kind: 'curl-tail',
  strip: { length: 0.06, stations: [{ s: 0, thickness, width: 0.008 }] },
  density: 1020,
  water: WATER,
  body: 0.011,
});
const spread = { modulus: band(2.5e5, 1.5e5, 4.3e5), thickness: band(1, 0.98, 1.02) };

describe('onset', () => {
  const size = (min: number, max: number) => fc.double({ min, max, noNaN: true });

  test('ratio law: every speed goes with √E; folding and beat go with t^1.5 and t', () => {
    fc.assert(
      fc.property(size(8e-4, 2e-3), size(0.25, 4), (thickness, factor) => {
        const [one, other] = [2.5e5, 2.5e5 * factor].map((modulus) => actionSpeeds(curl(thickness), modulus));
        for (const key of ['folding', 'flutter', 'inStep', 'frequency'] as const)
          expect(other![key] / one![key]).toBeCloseTo(Math.sqrt(factor), 6);
        const thicker = actionSpeeds(curl(1.2 * thickness), 2.5e5);
        expect(thicker.folding / one!.folding).toBeCloseTo(1.2 ** 1.5, 6);
      }),
      { seed: 11, numRuns: 12 },
    );
  });

  // Common practice with no source: ten thousandths off a thin tail plainly changes how slowly it will move.
  test('ten thousandths of an inch off a 1.4 mm tail lower the onset by a fifth or more', () => {
    const [thick, thin] = [1.4e-3, 1.4e-3 - 0.254e-3].map((t) => onsetOf(curl(t), spread, 0.2).from.value);
    expect(thin! / thick!).toBeLessThan(0.8);
    expect(thin! / thick!).toBeGreaterThan(0.5);
  });

  test('a curl moves below the flutter speed of a flat strip, a stiff stub trailing the body only by its eddies', () => {
    const onset = onsetOf(curl(1.3e-3), spread, 0.2);
    expect(onset.from.value).toBeLessThan(actionSpeeds(curl(1.3e-3), 2.5e5).flutter);
    expect(onset.shaken).toBeNull();
    const stub: Mover = {
      ...curl(1.7e-3),
      kind: 'fin',
      strip: { length: 0.012, stations: [{ s: 0, thickness: 1.7e-3, width: 2.6e-3 }] },
    };
    const shaken = onsetOf(stub, spread, 0.2);
    expect(shaken.shaken?.from).toEqual(shaken.from);
    expect(chanceAt(shaken, shaken.from.high * 1.01)).toBe('likely');
    expect(chanceAt(shaken, shaken.shaken!.to.value * 1.01)).toBe('marginal');
  });

  test('likely above the band, unlikely below it, marginal inside', () => {
    const onset = { from: band(0.3, 0.2, 0.5), shaken: null };
    expect([0.1, 0.2, 0.3, 0.49, 0.5].map((speed) => chanceAt(onset, speed))).toEqual([
      'unlikely',
      'marginal',
      'marginal',
      'marginal',
      'likely',
    ]);
  });

  test('softer never needs more speed', () => {
    fc.assert(
      fc.property(size(6e-4, 3e-3), size(1e5, 4e5), size(1.05, 2), (t, modulus, k) => {
        for (const kind of ['curl-tail', 'paddle', 'fin'] as const) {
          const at = (e: number) =>
            onsetOf({ ...curl(t), kind }, { ...spread, modulus: band(e) }, 0).from.value;
          expect(at(modulus)).toBeLessThanOrEqual(at(modulus * k) * (1 + 1e-9));
        }
      }),
      { seed: 12, numRuns: 8 },
    );
  });
});
