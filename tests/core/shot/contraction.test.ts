import { describe, expect, test } from 'vitest';
import {
  gateShutDrop,
  linearContraction,
  topOffShare,
  volumetricContraction,
} from '../../../src/core/shot/contraction.ts';

// β = 7·10⁻⁴ 1/K, 75 K after the gate has shut: 1 − 1/1.0525 by hand.
test('contraction of flexible PVC over 75 K', () => {
  expect(volumetricContraction(7e-4, 75)).toBeCloseTo(1 - 1 / 1.0525, 12);
  expect(volumetricContraction(7e-4, 75)).toBeCloseTo(0.04988123515, 10);
  expect(linearContraction(7e-4, 75)).toBeCloseTo(0.016911463779, 10);
});

const KELVIN = { pour: 448.15, noFlow: 373.15, mold: 303.15 };

describe('fall of the mean temperature until the gate shuts', () => {
  // A square gate of 4 mm shuts at αt = ln(16/π²/θ)/(π²·2/16) mm², θ = 70/145. A body of radius √(αt/0.05) is then
  // at Fourier number 0.05, where the mean excess of a cylinder is 0.5478790 (Carslaw & Jaeger 1959, 7.6).
  test('agrees with the published series at Fourier number 0.05', () => {
    const alphaTime = Math.log(16 / Math.PI ** 2 / (70 / 145)) / (Math.PI ** 2 * (2 / 16)) / 1e6;
    const bodyDiameter = 2 * Math.sqrt(alphaTime / 0.05);
    const drop = gateShutDrop(KELVIN, { gateWidth: 4e-3, gateDepth: 4e-3, bodyDiameter });
    expect(Math.abs(drop - 145 * (1 - 0.547879))).toBeLessThan(145 * 1e-7);
  });

  test('depends on the ratio of the sections only', () => {
    const small = gateShutDrop(KELVIN, { gateWidth: 2e-3, gateDepth: 1e-3, bodyDiameter: 8e-3 });
    const large = gateShutDrop(KELVIN, { gateWidth: 6e-3, gateDepth: 3e-3, bodyDiameter: 24e-3 });
    expect(large).toBeCloseTo(small, 9);
  });

  test('grows with the gate and stops at the no-flow temperature', () => {
    const drops = [1, 2, 4, 8, 16].map((mm) =>
      gateShutDrop(KELVIN, { gateWidth: mm / 1e3, gateDepth: mm / 1e3, bodyDiameter: 10e-3 }),
    );
    expect([...drops].sort((a, b) => a - b)).toEqual(drops);
    expect(drops.at(-1)).toBeCloseTo(75, 9);
    expect(drops[0]).toBeLessThan(20);
  });

  test('refuses a mold as hot as the no-flow temperature', () => {
    expect(() =>
      gateShutDrop({ ...KELVIN, mold: 380 }, { gateWidth: 1e-3, gateDepth: 1e-3, bodyDiameter: 1e-2 }),
    ).toThrow('gateShutDrop: wants mold < no-flow < pour, got 380, 373.15, 448.15 K');
  });
});

test('top-off is the mass that a rigid cavity takes in as its melt contracts', () => {
  const share = topOffShare({ value: 7e-4, low: 5e-4, high: 8e-4 }, 40, 75);
  // Specific volume v = v₀(1 + βT): density rises by 1/(1 − βΔT) − 1, to first order βΔT.
  expect(share.value).toBeCloseTo(0.028, 12);
  expect(share.low).toBe(0);
  expect(share.high).toBeCloseTo(0.06, 12);
  expect(() => topOffShare({ value: 7e-4, low: 5e-4, high: 8e-4 }, 80, 75)).toThrow(
    'topOffShare: wants a drop of at most 75 K, got 80',
  );
});
