import { describe, expect, test } from 'vitest';
import { ALLOYS } from '../../../src/core/mold/alloy.ts';
import { blockMass, blockSurface, metalVolume, shippingMass } from '../../../src/core/mold/block.ts';
import {
  clampForce,
  fillingForce,
  handPressure,
  plungerPressure,
  powerScrewForce,
  screwForce,
  toggleMultiplier,
} from '../../../src/core/mold/clamp.ts';
import { band } from '../../../src/core/quantity/band.ts';
import { fromSI, toSI } from '../../../src/core/quantity/units.ts';

const off = (got: number, expected: number): number => Math.abs(got / expected - 1);

describe('pressure of a hand on a plunger, P = F/A', () => {
  test.each([
    [110, 0.025, 224090.15987],
    [110, 0.038, 96991.932078],
    [250, 0.025, 509295.817894],
  ])('%i N on a piston of %f m', (force, piston, expected) => {
    expect(off(plungerPressure(force, piston), expected)).toBeLessThan(1e-6);
  });

  test('110 N on 25 mm are 32.50 psi', () => {
    expect(fromSI(plungerPressure(110, 0.025), '[psi]')).toBeCloseTo(32.50152983563719, 6);
  });

  test('twice the bore is a quarter of the pressure, low and high included', () => {
    const hand = band(110, 60, 250);
    const [small, large] = [handPressure(0.02, hand), handPressure(0.04, hand)];
    expect(small.value / large.value).toBeCloseTo(4, 12);
    expect(small.low / small.value).toBeCloseTo(60 / 110, 12);
    expect(small.high / small.value).toBeCloseTo(250 / 110, 12);
  });
});

describe('forces', () => {
  test('40 cm² under 224 kPa: 896.36 N, with the factor 1344.54 N', () => {
    expect(off(clampForce(224090.15987338862, 0.004, 1), 896.3606394936)).toBeLessThan(1e-6);
    expect(off(clampForce(224090.15987338862, 0.004, 1.5), 1344.5409592403)).toBeLessThan(1e-6);
    expect(() => clampForce(1e5, 0.004, 0.5)).toThrow('clampForce: wants a factor of 1 or more, got 0.5');
  });

  test('while a slot fills the mean is half the pressure', () => {
    expect(fillingForce(2e5, 0.004)).toBeCloseTo(400, 9);
    expect(clampForce(2e5, 0.004, 1)).toBeCloseTo(800, 9);
  });

  // Shigley's Mechanical Engineering Design: F = T/(K·d), K = 0.2; square thread raised by T, collar ignored.
  test('5 N·m on an M10 screw give 2500 N', () => {
    expect(screwForce(5, 0.01, 0.2)).toBeCloseTo(2500, 9);
  });
  test('5 N·m on a square thread of 9 mm, lead 2 mm, friction 0.15 give 4980 N', () => {
    const force = powerScrewForce(5, { meanDiameter: 0.009, lead: 0.002, friction: 0.15 });
    expect(off(force, 4980.2669047304)).toBeLessThan(1e-6);
  });
  test('without friction the screw does the work of its torque', () => {
    const force = powerScrewForce(5, { meanDiameter: 0.009, lead: 0.002, friction: 1e-12 });
    expect(off(force * 0.002, 5 * 2 * Math.PI)).toBeLessThan(1e-6);
  });

  // Component makers print 14, 28, 57 and 114 for 2°, 1°, 0.5° and 0.25°.
  test.each([
    [2, 14],
    [1, 28],
    [0.5, 57],
    [0.25, 114],
  ])('a toggle %f° from straight multiplies by about %i', (degrees, printed) => {
    const multiplier = toggleMultiplier(toSI(degrees, 'deg'));
    expect(Math.abs(multiplier - printed)).toBeLessThanOrEqual(printed === 28 ? 0.7 : 0.6);
    if (degrees === 2) expect(off(multiplier, 14.3181266415)).toBeLessThan(1e-6);
  });
});

describe('block', () => {
  const block = { length: 0.15, width: 0.1, thickness: 0.03 };

  test('metal is the block less its hollows', () => {
    expect(metalVolume(block, 0)).toBeCloseTo(4.5e-4, 15);
    expect(blockMass(block, 5e-5, 2700)).toBeCloseTo(4e-4 * 2700, 12);
    expect(blockSurface(block)).toBeCloseTo(2 * (0.015 + 0.003 + 0.0045), 15);
    expect(() => metalVolume(block, 1)).toThrow(/^metalVolume: wants hollows smaller than the block/u);
  });

  test('a parcel weighs more than what is in it', () => {
    expect(shippingMass(1.2)).toBeCloseTo(1.2 * 1.05 + 0.12, 12);
  });
});

/** Logarithmic polynomial of the NIST cryogenic material fits: 10^Σ cᵢ·(log₁₀ T)ⁱ. */
const nistFit = (coefficients: readonly number[], kelvin: number): number =>
  10 ** coefficients.reduceRight((sum, c) => sum * Math.log10(kelvin) + c, 0);

describe('6061-T6', () => {
  const alloy = ALLOYS['6061-T6'];

  test('diffusivity 6.9031e-5 m²/s, effusivity 20100', () => {
    const { conductivity, density, specificHeat } = alloy;
    const perVolume = density * specificHeat.value;
    expect(off(conductivity.value / perVolume, 6.903108465608466e-5)).toBeLessThan(1e-6);
    expect(off(Math.sqrt(conductivity.value * perVolume), 20099.9104475617)).toBeLessThan(1e-6);
  });

  // NIST cryogenic materials database, 6061-T6, coefficients from memory: 155.319 W/(m·K), 953.86 J/(kg·K) at 300 K.
  test('the band reaches to the NIST fit at 300 K, within the fit’s own error', () => {
    const k = nistFit([0.07918, 1.0957, -0.07277, 0.08084, 0.02803, -0.09464, 0.04179, -0.00571], 300);
    const c = nistFit(
      [46.6467, -314.292, 866.662, -1298.3, 1162.27, -637.795, 210.351, -38.3094, 2.96344],
      300,
    );
    expect(off(k, 155.31878979363233)).toBeLessThan(1e-5);
    expect(off(c, 953.8643601003938)).toBeLessThan(1e-5);
    expect(off(alloy.conductivity.low, k)).toBeLessThan(0.005);
    expect(off(alloy.specificHeat.high, c)).toBeLessThan(0.05);
  });
});
