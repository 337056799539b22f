import { describe, expect, test } from 'vitest';
import { band } from '../../../src/core/quantity/band.ts';
import { batchFor, sprueShare, yieldOf } from '../../../src/core/shot/batch.ts';
import { fillerMassFraction, filledDensity } from '../../../src/core/shot/compound-density.ts';

const share = { cavities: 3, shotMass: band(20, 18, 24), baitMass: band(5, 4, 6) };
const water = band(1000, 900, 1100);

describe('a batch', () => {
  // 10 baits: 4 shots. Compound 4·20·1.1 = 88, 4·18·1.1 = 79.2, 4·24·1.1 = 105.6; liquid over 1000.
  // Left over: 4·(20 − 15) = 20; least: the smaller of that and 4·(18 − 12) = 24; most: the larger of 20 and 4·(24 − 12) = 48.
  const batch = batchFor(10, share, water, 0.1);

  test('in shots, compound, liquid and what can be melted again', () => {
    expect(batch.shots).toBe(4);
    expect([batch.compound.value, batch.compound.low, batch.compound.high].map((x) => x.toFixed(6))).toEqual([
      '88.000000',
      '79.200000',
      '105.600000',
    ]);
    expect(batch.liquid.value).toBeCloseTo(0.088, 9);
    expect(batch.liquid.low).toBeCloseTo(0.0792, 9);
    expect(batch.liquid.high).toBeCloseTo(0.1056, 9);
    expect(batch.remelt).toEqual(band(20, 20, 48));
  });
});

describe('a bottle', () => {
  // 0.35 of liquid: 350/1.1 = 318.18; /20 = 15.9, /24 = 13.3, /18 = 17.7 shots; /5 = 63.6 baits with every sprue melted again.
  test('in whole shots of three baits', () => {
    expect(yieldOf(0.35, share, water, 0.1)).toEqual({ shots: 13, baits: band(45, 39, 51), withRemelt: 63 });
  });

  test('a shot that fits to the last drop counts', () => {
    const exact = { cavities: 1, shotMass: band(0.1), baitMass: band(0.1) };
    expect(yieldOf(0.0003 * 1.1, exact, band(1000), 0.1)).toEqual({
      shots: 3,
      baits: band(3),
      withRemelt: 3,
    });
  });
});

test('the sprue’s share of a shot, and none of it', () => {
  expect(sprueShare(2, band(10, 8, 16))).toEqual(band(0.2, 0.125, 0.25));
  expect(sprueShare(0, band(10))).toEqual(band(0));
});

describe('fillers', () => {
  // From the rule of mixtures: (1/1100 − 1/1035.3)/(1/2165 − 1/1035.3) = 0.112719 (salt), and to 950 by glass of 200: 0.021499.
  test.each([
    [2165, 1100, 0.112719],
    [2165, 1200, 0.263029],
    [200, 950, 0.021499],
  ])('of %d kg/m³ to reach %d kg/m³', (filler, target, fraction) => {
    expect(fillerMassFraction(1035.3, filler, target)).toBeCloseTo(fraction, 5);
    expect(filledDensity(band(1035.3), band(filler), fraction).value).toBeCloseTo(target, 1);
  });

  test('none, and one as dense as the compound', () => {
    expect(fillerMassFraction(1035.3, 2165, 1035.3)).toBeCloseTo(0, 12);
    expect(() => fillerMassFraction(1000, 1000, 1000)).toThrow('fillerMassFraction: wants a target between');
    expect(filledDensity(band(1000, 980, 1020), band(2000), 0).low).toBeCloseTo(980, 6);
  });
});
