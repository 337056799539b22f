import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { flashLength, flashThroughDepth } from '../../../src/core/vent/flash.ts';
import { airResistance, chokedMassFlow, ventMassFlow } from '../../../src/core/vent/slot-flow.ts';
import { backPressure, parallelResistance, tierResistance, ventPath } from '../../../src/core/vent/tiers.ts';

const SEED = 20260703;
const MELT = {
  pressure: 2e5,
  viscosity: 3,
  diffusivity: 7.5e-8,
  theta: 0.4868,
  contact: 2500,
  heatCapacity: 1.92e6,
};
const EDGE = { depth: 50e-6, width: 6e-3, land: 1.5e-3, count: 4 };
const RELIEF = { depth: 0.5e-3, width: 6e-3, land: 20e-3, count: 2 };

describe('ways out for air', () => {
  test('tiers add, slots of a tier share', () => {
    const path = ventPath([EDGE, RELIEF], 293.15);
    expect(path.total).toBeCloseTo(tierResistance(EDGE, 293.15) + tierResistance(RELIEF, 293.15), 3);
    expect(path.shares.reduce((sum, share) => sum + share, 0)).toBeCloseTo(1, 12);
    expect(tierResistance({ ...EDGE, count: 8 }, 293.15) / tierResistance(EDGE, 293.15)).toBeCloseTo(0.5, 12);
    const one = airResistance(EDGE, 293.15);
    expect(parallelResistance([one, one]) / one).toBeCloseTo(0.5, 12);
    expect(() => ventPath([], 293.15)).toThrow('ventPath: tiers: wants a number from 1 to 100, got 0');
  });

  test('back-pressure is R·Q when small, more when the air expands on its way out', () => {
    expect(backPressure(1e8, 1e-5) / 1e3).toBeCloseTo(1, 2);
    expect(backPressure(1e8, 1e-5)).toBeGreaterThan(1e3);
    const squeezed = backPressure(1e11, 1e-5);
    expect((squeezed + 101325) ** 2 - 101325 ** 2).toBeCloseTo(2 * 1e6 * (squeezed + 101325), -3);
  });

  test('friction limits a fine vent, the speed of sound an open one', () => {
    const fine = ventMassFlow(
      { depth: 20e-6, width: 6e-3, land: 3e-3 },
      { inside: 1.2e5, outside: 101325, temperature: 293 },
    );
    expect(fine.limit).toBe('friction');
    expect(fine.reynolds).toBeLessThan(2000);
    const open = ventMassFlow(
      { depth: 5e-4, width: 6e-3, land: 1.5e-3 },
      { inside: 3e5, outside: 101325, temperature: 293 },
    );
    expect(open.limit).toBe('speed of sound');
    expect(open.mass).toBe(chokedMassFlow(5e-4 * 6e-3, 3e5, 293));
  });
});

describe('flash', () => {
  test('runs the whole land at the depth found, and less at a finer one', () => {
    for (const land of [5e-4, 1.5e-3, 6e-3]) {
      const depth = flashThroughDepth(land, MELT);
      expect(flashLength(depth, MELT) / land).toBeCloseTo(1, 9);
      expect(flashLength(depth * 0.9, MELT)).toBeLessThan(land);
    }
  });

  // Common practice, no source: one to two thousandths of an inch stop plastic on a usual land, several times that flash.
  test('one to two thousandths stop plastic on a 1.5 mm land, ten do not', () => {
    expect(flashLength(25.4e-6, MELT)).toBeLessThan(0.3e-3);
    expect(flashLength(50.8e-6, MELT)).toBeLessThan(0.5e-3);
    expect(flashLength(254e-6, MELT)).toBeGreaterThan(1.5e-3);
  });

  test(`deeper, thinner melt, more pressure never flashes less (seed ${SEED})`, () => {
    const deep = fc.double({ min: 5e-6, max: 3e-4, noNaN: true });
    const more = fc.double({ min: 1.01, max: 5, noNaN: true });
    fc.assert(
      fc.property(deep, more, (depth, factor) => {
        const base = flashLength(depth, MELT);
        expect(flashLength(depth * factor, MELT)).toBeGreaterThan(base);
        expect(flashLength(depth, { ...MELT, pressure: MELT.pressure * factor })).toBeGreaterThan(base);
        expect(flashLength(depth, { ...MELT, viscosity: MELT.viscosity * factor })).toBeLessThan(base);
        expect(flashLength(depth, { ...MELT, theta: MELT.theta / factor })).toBeGreaterThan(base);
        expect(flashLength(depth, { ...MELT, contact: MELT.contact * factor })).toBeLessThan(base);
      }),
      { seed: SEED },
    );
  });
});
