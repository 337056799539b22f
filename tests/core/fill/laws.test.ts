import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { coneDrag, roundSection } from '../../../src/core/fill/channel-flow.ts';
import { freezeConstant, freezeReach, shortShotViscosity } from '../../../src/core/fill/freeze-constant.ts';
import { branchHesitation } from '../../../src/core/fill/hesitation.ts';
import { closing, openFraction } from '../../../src/core/fill/open-fraction.ts';
import { featureProfile } from '../../../src/core/fill/profile.ts';
import {
  criticalDrive,
  fillReserve,
  frontReach,
  limitedFillReserve,
  type ThinPart,
} from '../../../src/core/fill/reach.ts';
import { graetzRoots } from '../../../src/core/fill/thermal-entry.ts';
import { tubeViscosity } from '../../../src/core/fill/viscosity.ts';
import { slabExcess } from '../../../src/core/heat/conduction-series.ts';
import { besselJ0, besselJ0Zeros } from '../../../src/core/numeric/bessel.ts';

const SEED = 20260702;
const THETA = 0.4868369995;
const FEED = { pressure: 2e5, viscosity: 3, diffusivity: 7.5e-8 };

function tail(root: number, tip: number, length: number, theta = THETA): ThinPart {
  const stations = [
    { s: 0, thickness: root, width: 0.01 },
    { s: length, thickness: tip, width: 0.01 },
  ];
  return { stations, form: 'slot', ageing: 'own age', theta };
}

describe('open share', () => {
  test.each([0.1, 0.3, 0.5, 0.8])('the profile has θ = %s where the slot is said to end', (theta) => {
    const table = closing('slot', theta);
    for (const part of [0.003, 0.02, 0.2, 0.5, 0.9, 0.99]) {
      const fourier = part * table.shut;
      expect(Math.abs(slabExcess(openFraction(table, fourier), fourier) - theta)).toBeLessThan(2e-3);
    }
    expect(openFraction(table, 0)).toBe(1);
    expect(openFraction(table, table.shut)).toBe(0);
  });

  test.each([0.1, 0.3, 0.5, 0.8])('and so in a round channel', (theta) => {
    const table = closing('round', theta);
    for (const part of [0.06, 0.2, 0.5, 0.9, 0.99]) {
      const fourier = part * table.shut;
      const r = openFraction(table, fourier);
      const excess = besselJ0Zeros(60).reduce(
        (sum, { root, slope }) =>
          sum + (2 * besselJ0(root * r) * Math.exp(-root * root * fourier)) / (root * slope),
        0,
      );
      expect(Math.abs(excess - theta)).toBeLessThan(2e-3);
    }
  });

  test('θ out of range is refused', () => {
    expect(() => closing('slot', 1)).toThrow('closing: theta: wants a number from 0.005 to 0.985, got 1');
  });
});

describe('reach and reserve', () => {
  test('reserve times length is the closed-form reach of a uniform slot', () => {
    const reach = freezeReach(freezeConstant('slot', THETA), 0.001, FEED);
    for (const length of [0.02, 0.05, 0.2]) {
      expect(Math.abs((fillReserve(tail(0.001, 0.001, length), FEED) * length) / reach - 1)).toBeLessThan(
        0.005,
      );
    }
  });

  test('a round oval reaches K·R²√(P/(μα))', () => {
    const stations = [0, 0.03].map((s) => ({ s, thickness: 0.002, width: 0.002 }));
    const reserve = fillReserve({ stations, form: 'oval', ageing: 'own age', theta: 0.5 }, FEED);
    const reach = freezeReach(freezeConstant('round', 0.5), 0.001, FEED);
    expect(Math.abs((reserve * 0.03) / reach - 1)).toBeLessThan(0.01);
  });

  test('a part stretched by its reserve just fills, a little more does not', () => {
    const part = tail(0.0012, 0.0004, 0.05);
    const reserve = fillReserve(part, FEED);
    expect(frontReach(tail(0.0012, 0.0004, 0.05 * reserve * 0.99), FEED, 600).filled).toBe(true);
    expect(frontReach(tail(0.0012, 0.0004, 0.05 * reserve * 1.02), FEED, 600).filled).toBe(false);
    expect(Math.abs(limitedFillReserve(part, FEED) / reserve - 1)).toBeLessThan(0.005);
  });

  test('gate age, own age and fresh core come in that order', () => {
    const of = (ageing: ThinPart['ageing']) => fillReserve({ ...tail(0.001, 0.0006, 0.04), ageing }, FEED);
    expect(of('gate age')).toBeLessThan(of('own age'));
    expect(of('own age')).toBeLessThan(of('fresh core'));
  });

  test('too cold to flow gives no reach, too warm to freeze gives a long one', () => {
    expect(fillReserve(tail(0.001, 0.001, 0.05, 0.99), FEED)).toBe(0);
    expect(frontReach(tail(0.001, 0.001, 0.05, 0.99), FEED).distance).toBe(0);
    expect(fillReserve(tail(0.001, 0.001, 0.05, -0.2), FEED)).toBeGreaterThan(5);
  });

  test(`thicker, hotter, warmer, harder pushed never fills less (seed ${SEED})`, { timeout: 60_000 }, () => {
    const thin = fc.double({ min: 4e-4, max: 2e-3, noNaN: true });
    const taper = fc.double({ min: 0.4, max: 1, noNaN: true });
    const theta = fc.double({ min: 0.1, max: 0.85, noNaN: true });
    fc.assert(
      fc.property(thin, taper, theta, (root, narrow, cold) => {
        const base = criticalDrive(tail(root, root * narrow, 0.03, cold), 60);
        expect(criticalDrive(tail(root * 1.1, root * narrow * 1.1, 0.03, cold), 60)).toBeLessThan(base);
        expect(criticalDrive(tail(root, root * narrow, 0.03, cold - 0.05), 60)).toBeLessThan(base);
        expect(criticalDrive(tail(root, root * narrow, 0.033, cold), 60)).toBeGreaterThan(base);
        const reserve = fillReserve(tail(root, root * narrow, 0.03, cold), FEED, 60);
        const harder = { ...FEED, pressure: 2 * FEED.pressure };
        expect(fillReserve(tail(root, root * narrow, 0.03, cold), harder, 60) / reserve).toBeCloseTo(
          Math.SQRT2,
          6,
        );
      }),
      { seed: SEED, numRuns: 25 },
    );
  });

  test('a runner before the root and a weak flow both cost reserve', () => {
    const part = tail(0.001, 0.0006, 0.03);
    const free = limitedFillReserve(part, FEED);
    expect(limitedFillReserve(part, { ...FEED, feedDrag: 1e12 })).toBeLessThan(free);
    expect(limitedFillReserve(part, { ...FEED, flowLimit: 2e-7 })).toBeLessThan(free);
  });

  test('the rounding of the very end does not count as infinitely thin', () => {
    const stations = [0, 0.01, 0.0199, 0.02].map((s, i) => ({
      s,
      thickness: [0.002, 0.0015, 0.001, 0.00001][i] as number,
      width: 0.006,
      at: [s, 0, 0] as const,
    }));
    const profile = featureProfile({ stations, thinnest: { thickness: 0.001, at: [0, 0, 0] } });
    expect(profile.at(-1)?.thickness).toBe(0.001);
    expect(profile[0]?.thickness).toBe(0.002);
  });
});

describe('small relations', () => {
  test('a short shot of known reach gives its viscosity back', () => {
    const K = freezeConstant('slot', 0.5);
    expect(shortShotViscosity(K, 0.001, freezeReach(K, 0.001, FEED), FEED)).toBeCloseTo(3, 10);
  });

  test('a cone of equal ends is a tube; timing a tube gives its viscosity back', () => {
    expect(coneDrag(0.003, 0.003, 0.05) / (roundSection(0.003).drag * 0.05)).toBeCloseTo(1, 12);
    const volume = (60 * 1e5) / (3 * roundSection(0.003).drag * 0.1);
    expect(tubeViscosity({ radius: 0.003, length: 0.1, pressure: 1e5, time: 60, volume })).toBeCloseTo(3, 10);
  });

  test('a cone integrates the drag of its slices', () => {
    let sum = 0;
    for (let k = 0; k < 4000; k++)
      sum += roundSection(0.004 - 0.0025 * ((k + 0.5) / 4000)).drag * (0.05 / 4000);
    expect(coneDrag(0.004, 0.0015, 0.05) / sum).toBeCloseTo(1, 5);
  });

  // The Graetz equation by Runge–Kutta from the middle: the temperature has to vanish at the wall for each root.
  test.each([
    { shape: 'slot', power: 0 },
    { shape: 'tube', power: 1 },
  ] as const)('$shape roots satisfy the entry problem', ({ shape, power }) => {
    for (const { root } of graetzRoots(shape)) expect(Math.abs(wallValue(root, power))).toBeLessThan(2e-4);
    expect(Math.abs(wallValue((graetzRoots(shape)[0]?.root ?? NaN) * 1.01, power))).toBeGreaterThan(2e-3);
  });

  test('a fin that outlasts the body is not flagged', () => {
    const body = roundSection(0.006);
    const branch = {
      ...{
        gap: 0.001,
        bodyDrag: body.drag * 0.06,
        flow: 7e-6,
        viscosity: 3,
        diffusivity: 7.5e-8,
        theta: THETA,
      },
      bodyVolume: body.area * 0.06,
    };
    expect(branchHesitation(branch).freezesFirst).toBe(false);
    expect(branchHesitation({ ...branch, flow: 3e-6 }).freezesFirst).toBe(true);
    expect(branchHesitation({ ...branch, gap: 0.0006 }).freezesFirst).toBe(true);
  });
});

/** y(1) of y'' + (power/r)·y' + λ²(1 − r²)·y = 0, y(0) = 1, y'(0) = 0. */
function wallValue(root: number, power: number): number {
  const steps = 2000;
  const h = 1 / steps;
  const bend = (r: number, y: number, slope: number) =>
    r === 0 ? -(root * root * y) / (1 + power) : -(power / r) * slope - root * root * (1 - r * r) * y;
  let [y, v] = [1, 0];
  for (let k = 0; k < steps; k++) {
    const r = k * h;
    const a1 = bend(r, y, v);
    const a2 = bend(r + h / 2, y + (h / 2) * v, v + (h / 2) * a1);
    const a3 = bend(r + h / 2, y + (h / 2) * v + (h * h * a1) / 4, v + (h / 2) * a2);
    const a4 = bend(r + h, y + h * v + (h * h * a2) / 2, v + h * a3);
    y += h * v + (h * h * (a1 + a2 + a3)) / 6;
    v += (h * (a1 + 2 * a2 + 2 * a3 + a4)) / 6;
  }
  return y;
}
