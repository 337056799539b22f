import { describe, expect, test } from 'vitest';
import fc from 'fast-check';
import {
  evenLoadDeflection,
  plateStiffness,
  tipLoadDeflection,
} from '../../../src/core/action/cantilever.ts';
import {
  equivalentThickness,
  meanStiffness,
  meanWidth,
  stripLimpness,
  type Strip,
} from '../../../src/core/action/strip.ts';

const even = (length: number, thickness: number, width: number): Strip => ({
  length,
  stations: [
    { s: 0, thickness, width },
    { s: length, thickness, width },
  ],
});

// Euler–Bernoulli closed forms (Young & Budynas, Roark): worked with the numbers beside them.
describe('cantilever', () => {
  const strip = { length: 0.03, width: 0.008, thickness: 0.002, modulus: 3e5 };

  test('0.5 mN on the tip of 30 × 8 × 2 mm at 0.3 MPa: 2.8125 mm', () => {
    expect(tipLoadDeflection(strip, 5e-4)).toBeCloseTo(2.8125e-3, 12);
  });

  test('20 mm of it under 0.162398 N/m: 2.02998 mm', () => {
    const load = 0.162398124;
    expect(evenLoadDeflection({ ...strip, length: 0.02 }, load) / 2.02997655e-3).toBeCloseTo(1, 6);
  });

  test('plate stiffness goes with the cube of thickness', () => {
    expect(plateStiffness(3e5, 1e-3)).toBeCloseTo(3.3333333333e-5, 14);
    expect(plateStiffness(3e5, 2e-3) / plateStiffness(3e5, 1e-3)).toBeCloseTo(8, 9);
    expect(() => plateStiffness(3e5, 1e-3, 0.6)).toThrow(
      'plateStiffness: wants a Poisson ratio of 0 to 0.5, got 0.6',
    );
  });
});

describe('strip', () => {
  test('an even strip bends as the closed form says: δ/L = p·b·L³/8EI', () => {
    const [length, thickness, width, modulus, pressure] = [0.05, 0.0012, 0.009, 2.2e5, 1.7];
    const exact = evenLoadDeflection({ length, thickness, width, modulus }, pressure * width) / length;
    const got = (pressure / modulus) * stripLimpness(even(length, thickness, width));
    expect(got / exact).toBeCloseTo(1, 9);
  });

  // Straight taper to half thickness: ∫₀¹ (1−x)³/(1−x/2)³ dx = 17 − 24·ln 2, by hand with u = 1 − x/2; G = 6(L/t)³ times it.
  test('a taper to half thickness agrees with its integral in closed form', () => {
    const [length, root] = [0.04, 0.002];
    const tapered: Strip = {
      length,
      stations: [
        { s: 0, thickness: root, width: 0.006 },
        { s: length, thickness: root / 2, width: 0.006 },
      ],
    };
    const exact = 6 * (length / root) ** 3 * (17 - 24 * Math.LN2);
    expect(stripLimpness(tapered) / exact).toBeCloseTo(1, 6);
  });

  // Width tapering to nothing, even thickness: M = p·b₀(L−s)³/6L and I ∝ (L−s)/L, so the integral is (L/t)³·12/6·¹⁄₃·… = 2·∫(1−x)³dx·(L/t)³ = ½(L/t)³.
  test('a triangle of even thickness agrees with its integral in closed form', () => {
    const [length, thickness] = [0.04, 0.002];
    const triangle: Strip = {
      length,
      stations: [
        { s: 0, thickness, width: 0.01 },
        { s: length, thickness, width: 1e-9 },
      ],
    };
    expect(stripLimpness(triangle) / (0.5 * (length / thickness) ** 3)).toBeCloseTo(1, 4);
  });

  // Chebyshev–Gauss quadrature of the double integral for a tail that thins and narrows on a curve.
  test('a curved taper agrees with Gauss quadrature of its own formula', () => {
    const [length, n] = [0.045, 400];
    const thickness = (x: number) => 0.0018 * (1 - 0.6 * x + 0.2 * x * x);
    const width = (x: number) => 0.009 * (1 - 0.5 * x * x);
    const strip = {
      length,
      stations: Array.from({ length: 401 }, (_, i) => ({
        s: (length * i) / 400,
        thickness: thickness(i / 400),
        width: width(i / 400),
      })),
    };
    const gauss = (f: (x: number) => number, from: number) =>
      Array.from({ length: n }, (_, k) => ((k + 0.5) * Math.PI) / n).reduce(
        (sum, angle) => sum + f(from + ((1 - from) * (1 - Math.cos(angle))) / 2) * Math.sin(angle),
        0,
      ) *
      ((Math.PI / n) * ((1 - from) / 2));
    const moment = (at: number) => gauss((x) => width(x) * (x - at), at);
    const exact = gauss((x) => ((1 - x) * moment(x) * length ** 3 * 12) / (width(x) * thickness(x) ** 3), 0);
    expect(stripLimpness(strip) / exact).toBeCloseTo(1, 4);
  });

  const size = (min: number, max: number) => fc.double({ min, max, noNaN: true });
  const shape = fc.record({
    length: size(0.005, 0.2),
    root: size(5e-4, 4e-3),
    tip: size(5e-4, 4e-3),
    width: size(1e-3, 0.02),
  });
  const tapered = ({
    length,
    root,
    tip,
    width,
  }: {
    length: number;
    root: number;
    tip: number;
    width: number;
  }): Strip => ({
    length,
    stations: [
      { s: 0, thickness: root, width },
      { s: length, thickness: tip, width },
    ],
  });

  test('cubic law: k times as thick is k³ times as stiff and bends 1/k³ as far', () => {
    fc.assert(
      fc.property(shape, size(0.5, 2), (one, k) => {
        const thicker = { ...one, root: k * one.root, tip: k * one.tip };
        expect(meanStiffness(tapered(thicker), 2e5) / meanStiffness(tapered(one), 2e5)).toBeCloseTo(
          k ** 3,
          6,
        );
        expect(stripLimpness(tapered(one)) / stripLimpness(tapered(thicker))).toBeCloseTo(k ** 3, 6);
      }),
      { seed: 7 },
    );
  });

  test('the even strip that stands for a taper lies between its ends', () => {
    fc.assert(
      fc.property(shape, (one) => {
        const t = equivalentThickness(tapered(one));
        expect(t).toBeGreaterThanOrEqual(Math.min(one.root, one.tip) * (1 - 1e-6));
        expect(t).toBeLessThanOrEqual(Math.max(one.root, one.tip) * (1 + 1e-6));
        expect(meanWidth(tapered(one)) / one.width).toBeCloseTo(1, 9);
      }),
      { seed: 8 },
    );
  });

  test('a strip without stations or size is refused', () => {
    expect(() => stripLimpness({ length: 0.02, stations: [] })).toThrow(
      'stripLimpness: wants at least one station, got 0',
    );
    expect(() => meanWidth(even(0, 1e-3, 1e-3))).toThrow(
      'meanWidth: length: wants a finite number above 0, got 0',
    );
  });
});
