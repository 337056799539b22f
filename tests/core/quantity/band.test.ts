import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { band, corners, quadrature, within } from '../../../src/core/quantity/band.ts';

describe('band', () => {
  test('is one number when no ends are given', () => {
    expect(band(3)).toEqual({ value: 3, low: 3, high: 3 });
    expect(within(-10, 0.1)).toEqual({ value: -10, low: -11, high: -9 });
  });
  test.each([
    [1, 2, 3],
    [1, 0, 0.5],
    [NaN, 0, 1],
    [1, -Infinity, 2],
  ])('refuses %f from %f to %f', (value, low, high) => {
    expect(() => band(value, low, high)).toThrow(
      `band: wants finite low ≤ value ≤ high, got ${low}, ${value}, ${high}`,
    );
  });
});

const factor = (sigma: number) => band(1, Math.exp(-sigma), Math.exp(sigma));

// Reach of a fin x ∝ K·h²·√(P/(μα)) with ln σ of 0.03 (h), 0.35 (P), 0.85 (μ), 0.2 (α), 0.2 (K):
// √((2·0.03)² + (0.35/2)² + (0.85/2)² + (0.2/2)² + 0.2²) = 0.5146357935, a factor of 1.6730290629.
test('quadrature of a product of powers', () => {
  const reach = quadrature((x) => x.K * x.h ** 2 * Math.sqrt(x.P / (x.mu * x.alpha)), {
    h: factor(0.03),
    P: factor(0.35),
    mu: factor(0.85),
    alpha: factor(0.2),
    K: factor(0.2),
  });
  expect(Math.log(reach.high)).toBeCloseTo(0.5146357935472425, 9);
  expect(1 / reach.low).toBeCloseTo(1.6730290628431281, 9);
  expect(reach.shares[0]?.name).toBe('mu');
  expect(reach.shares[0]?.share).toBeCloseTo((0.425 / 0.5146357935472425) ** 2, 9);
  expect(reach.shares.reduce((sum, { share }) => sum + share, 0)).toBeCloseTo(1, 12);
});

// Cooling of a 6 mm slab, θ = 6.75, over the band of the diffusivity alone: 74.7266 / 104.6173 / 156.9259 s.
test.each([quadrature, corners])('cooling time over the band of the diffusivity, by %o', (combine) => {
  const time = combine((x) => (0.006 ** 2 / (Math.PI ** 2 * x.alpha)) * Math.log((4 / Math.PI) * 6.75), {
    alpha: band(7.5e-8, 5e-8, 1.05e-7),
  });
  expect(Math.abs(time.value / 104.61729857788428 - 1)).toBeLessThan(1e-9);
  expect(Math.abs(time.low / 74.72664184134591 - 1)).toBeLessThan(1e-9);
  expect(Math.abs(time.high / 156.92594786682642 - 1)).toBeLessThan(1e-9);
});

// Reach K·h²·√(P/(μα)) of a 1 mm fin with every input adverse, usual, favourable: 10.44 / 65.63 / 799.5 mm, own
// derivation, relative tolerance 2 %. K from its table over θ, straight between rows: uniform age at θ = 105/145 low,
// own age at θ = 74/152 usual, fresh core at the table's edge θ = 0.2 high.
const between = (
  x: number,
  [x0, y0]: readonly [number, number],
  [x1, y1]: readonly [number, number],
): number => y0 + ((y1 - y0) * (x - x0)) / (x1 - x0);

test('corners of a fin’s reach span what quadrature does not', () => {
  const inputs = {
    P: band(2e5, 1e5, 4e5),
    mu: band(3, 0.5, 15),
    alpha: band(7.5e-8, 5e-8, 1.05e-7),
    K: band(
      between(74 / 152, [0.4, 0.08139], [0.5, 0.06783]),
      between(105 / 145, [0.7, 0.04273], [0.8, 0.0351]),
      0.19989,
    ),
  };
  const reach = (x: Record<keyof typeof inputs, number>) =>
    x.K * 0.001 ** 2 * Math.sqrt(x.P / (x.mu * x.alpha));
  const hard = corners(reach, inputs);
  expect(Math.abs(hard.low / 0.010442976 - 1)).toBeLessThan(0.02);
  expect(Math.abs(hard.value / 0.0656304054 - 1)).toBeLessThan(0.02);
  expect(Math.abs(hard.high / 0.7995443889 - 1)).toBeLessThan(0.02);
  const likely = quadrature(reach, inputs);
  expect(likely.low).toBeGreaterThan(hard.low);
  expect(likely.high).toBeLessThan(hard.high);
});

describe('laws', () => {
  const spread = fc.double({ min: 0, max: 1, noNaN: true });

  test('quadrature lies inside the corners and holds the nominal', () => {
    fc.assert(
      fc.property(spread, spread, spread, (a, b, c) => {
        const inputs = { a: factor(a), b: factor(b), c: factor(c) };
        const f = (x: { a: number; b: number; c: number }) => (x.a * Math.sqrt(x.b)) / x.c ** 2;
        const likely = quadrature(f, inputs);
        const hard = corners(f, inputs);
        expect(likely.low).toBeLessThanOrEqual(likely.value);
        expect(likely.high).toBeGreaterThanOrEqual(likely.value);
        expect(likely.low).toBeGreaterThanOrEqual(hard.low * (1 - 1e-12));
        expect(likely.high).toBeLessThanOrEqual(hard.high * (1 + 1e-12));
      }),
      { seed: 61 },
    );
  });

  test('sums add in squares on the linear scale', () => {
    const sum = quadrature((x) => x.a + x.b, { a: band(10, 7, 13), b: band(-20, -24, -16) }, 'linear');
    expect([sum.low, sum.value, sum.high]).toEqual([-15, -10, -5]);
  });

  test('an input without a band has no share', () => {
    const product = quadrature((x) => x.a * x.b, { a: within(2, 0.1), b: band(3) });
    expect(product.shares).toEqual([
      { name: 'a', share: 1 },
      { name: 'b', share: 0 },
    ]);
  });

  test('refuses results that are not numbers', () => {
    expect(() => quadrature((x) => x.a - 2, { a: band(1) })).toThrow(
      'quadrature: wants a finite result above 0, got -1',
    );
    expect(() => quadrature((x) => x.a / 0, { a: band(1) }, 'linear')).toThrow(
      'quadrature: wants a finite result, got Infinity',
    );
    expect(() => corners((x) => x.a / 0, { a: band(1) })).toThrow(RangeError);
  });
});

describe('corners take at most 12 inputs', () => {
  const inputs = (count: number) =>
    Object.fromEntries(Array.from({ length: count }, (_, i) => [`x${i}`, band(2 ** i, 0, 2 ** (i + 1))]));
  const sum = (values: Record<string, number>) => Object.values(values).reduce((a, b) => a + b, 0);
  test('twelve, each of its ends met by each of the others', () => {
    expect(corners(sum, inputs(12))).toEqual({ value: 4095, low: 0, high: 8190 });
  });
  test('no more', () => {
    expect(() => corners(sum, inputs(13))).toThrow('corners: takes at most 12 inputs, got 13');
  });
});

describe('one input alone', () => {
  test('falling as its input rises, the ends change places', () => {
    const inverse = quadrature((x) => 1 / x.a, { a: band(2, 1, 4) });
    expect([inverse.low, inverse.value, inverse.high]).toEqual(
      [0.25, 0.5, 1].map((value) => expect.closeTo(value, 12) as number),
    );
    expect(corners((x) => -x.a, { a: band(2, 1, 4) })).toEqual({ value: -2, low: -4, high: -1 });
  });
  test('shares are parts of the squared width, the widest first', () => {
    // Sums: 3² + 3² of the first against 4² + 4² of the second, nothing of the third.
    const { shares } = quadrature(
      (x) => x.a + x.b + x.c,
      { a: band(10, 7, 13), c: band(1), b: band(-20, -24, -16) },
      'linear',
    );
    expect(shares).toEqual([
      { name: 'b', share: 0.64 },
      { name: 'a', share: 0.36 },
      { name: 'c', share: 0 },
    ]);
  });
  test('without any band nothing has a share', () => {
    expect(quadrature((x) => x.a, { a: band(2) }).shares).toEqual([{ name: 'a', share: 0 }]);
  });
});

test('results of 0 or below are taken on the linear scale alone', () => {
  const zero = { a: band(0, -1, 2) };
  expect(quadrature((x) => x.a, zero, 'linear')).toMatchObject({ value: 0, low: -1, high: 2 });
  expect(() => quadrature((x) => x.a, zero)).toThrow('quadrature: wants a finite result above 0, got 0');
  expect(() => quadrature((x) => x.a, { a: band(1, -1, 2) })).toThrow('above 0, got -1');
});
