import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { blendShare, logRuleModulus, powerRuleModulus } from '../../../src/core/plan/blend.ts';
import { plasticisedModulus } from '../../../src/core/hardness/compound-hardness.ts';
import { shore00Modulus } from '../../../src/core/hardness/shore-modulus.ts';
import { resinVolumeFraction } from '../../../src/core/shot/compound-density.ts';
import { PLASTICISERS } from '../../../src/core/shot/constituents.ts';
import { refusesNumbers } from '../../support/refusals.ts';

describe('rules of blending', () => {
  test('half and half: geometric mean by the log rule, mean of cube roots cubed by the power rule', () => {
    expect(logRuleModulus(0.5, 1e5, 4e5)).toBeCloseTo(2e5, 4);
    expect(powerRuleModulus(0.5, 1e5, 8e5, 3)).toBeCloseTo(1e5 * 1.5 ** 3, 4);
  });

  test('the power rule is the modulus of the recipe in between: resin adds by volume', () => {
    const density = PLASTICISERS.DEHP.density.value;
    const [firm, soft, mid] = [200, 500, 320].map((phr) => resinVolumeFraction(phr, density));
    const share = (mid! - firm!) / (soft! - firm!);
    const blend = powerRuleModulus(share, plasticisedModulus(200), plasticisedModulus(500), 3);
    expect(Math.abs(blend / plasticisedModulus(320) - 1)).toBeLessThan(1e-12);
  });

  test('a power without end is the log rule', () => {
    expect(Math.abs(powerRuleModulus(0.3, 1e5, 4e5, 1e7) / logRuleModulus(0.3, 1e5, 4e5) - 1)).toBeLessThan(
      1e-6,
    );
  });
});

describe('ends and refusals of the rules', () => {
  test('nothing of the second is the first, all of it the second', () => {
    expect(powerRuleModulus(0, 1e5, 8e5, 3)).toBeCloseTo(1e5, 4);
    expect(powerRuleModulus(1, 1e5, 8e5, 3)).toBeCloseTo(8e5, 4);
    expect(logRuleModulus(0, 1e5, 8e5)).toBeCloseTo(1e5, 4);
    expect(logRuleModulus(1, 1e5, 8e5)).toBeCloseTo(8e5, 4);
    // A quarter of the second in the first: cube roots 1 and 2 make 1.25.
    expect(powerRuleModulus(0.25, 1, 8, 3)).toBeCloseTo(1.25 ** 3, 12);
    expect(logRuleModulus(0.25, 1, 16)).toBeCloseTo(2, 12);
  });
  refusesNumbers([
    [
      'powerRuleModulus',
      powerRuleModulus,
      [0.5, 1e5, 2e5, 3],
      { 0: [0, 1], 1: 'not negative', 2: 'not negative', 3: 'positive' },
    ],
    ['logRuleModulus', logRuleModulus, [0.5, 1e5, 2e5], { 0: [0, 1], 1: 'positive', 2: 'positive' }],
  ]);
  test('say what they want', () => {
    expect(() => powerRuleModulus(1.5, 1, 1, 3)).toThrow(
      'powerRuleModulus: wants a share of 0 to 1, got 1.5',
    );
    expect(() => powerRuleModulus(0.5, -1, 1, 3)).toThrow('powerRuleModulus: first:');
    expect(() => logRuleModulus(0.5, 1, 0)).toThrow('logRuleModulus: second:');
  });
});

describe('share for a hardness', () => {
  test('the band runs over the exponents 2.6, 3 and 3.4 and the logarithmic rule', () => {
    const [from, other, aim] = [60, 30, 45].map(shore00Modulus) as [number, number, number];
    const power = (n: number) => (aim ** (1 / n) - from ** (1 / n)) / (other ** (1 / n) - from ** (1 / n));
    const log = Math.log(aim / from) / Math.log(other / from);
    const shares = [power(2.6), power(3), power(3.4), log];
    const got = blendShare(60, 30, 45);
    expect(got.value).toBeCloseTo(power(3), 12);
    expect(got.low).toBeCloseTo(Math.min(...shares), 12);
    expect(got.high).toBeCloseTo(Math.max(...shares), 12);
    // Plain plasticiser has no logarithm: exponents alone.
    const left = (n: number) => (shore00Modulus(30) / shore00Modulus(60)) ** (1 / n);
    const softened = blendShare(60, 'softener', 30);
    expect(softened.low).toBeCloseTo(1 - left(3.4), 12);
    expect(softened.high).toBeCloseTo(1 - left(2.6), 12);
  });

  test('never leaves 0 to 1, whichever of the two is the firmer', () => {
    for (let first = 0; first <= 98; first += 7) {
      for (let second = 0; second <= 98; second += 7) {
        if (first === second) continue;
        for (const wanted of [first, second]) {
          const { low, value, high } = blendShare(first, second, wanted);
          for (const share of [low, value, high]) {
            expect(share).toBeGreaterThanOrEqual(0);
            expect(share).toBeLessThanOrEqual(1);
            expect(share).toBeCloseTo(wanted === first ? 0 : 1, 9);
          }
        }
      }
    }
  });

  test('nothing at the one end, everything at the other', () => {
    expect(blendShare(30, 60, 30).value).toBe(0);
    expect(blendShare(30, 60, 60).value).toBeCloseTo(1, 12);
  });

  test('what it says makes the hardness, by the power rule; the log rule lies in the band', () => {
    const share = blendShare(60, 30, 40);
    const [first, second] = [shore00Modulus(60), shore00Modulus(30)];
    expect(powerRuleModulus(share.value, first, second, 3) / shore00Modulus(40)).toBeCloseTo(1, 9);
    const log = Math.log(shore00Modulus(40) / first) / Math.log(second / first);
    expect(share.low).toBeLessThanOrEqual(log);
    expect(share.high).toBeGreaterThanOrEqual(log);
  });

  test('softener: what is left of the compound is the cube root of the ratio of moduli', () => {
    const share = blendShare(50, 'softener', 30);
    expect(1 - share.value).toBeCloseTo(Math.cbrt(shore00Modulus(30) / shore00Modulus(50)), 12);
    expect(share.low).toBeLessThan(share.value);
    expect(share.high).toBeGreaterThan(share.value);
  });

  test('softer wants more softener', () => {
    fc.assert(
      fc.property(fc.integer({ min: 5, max: 48 }), (wanted) => {
        expect(blendShare(50, 'softener', wanted).value).toBeGreaterThan(
          blendShare(50, 'softener', wanted + 1).value,
        );
      }),
      { seed: 64 },
    );
  });

  test('refuses a hardness that the two do not reach', () => {
    expect(() => blendShare(30, 50, 60)).toThrow('blendShare: wants a hardness between 30 and 50, got 60');
    expect(() => blendShare(30, 50, 29)).toThrow('blendShare: wants a hardness between 30 and 50, got 29');
    expect(() => blendShare(50, 30, 51)).toThrow('blendShare: wants a hardness between 50 and 30, got 51');
    expect(() => blendShare(30, 'softener', 40)).toThrow('between 30 and softener, got 40');
    expect(() => blendShare(30, 30, 30)).toThrow('blendShare: wants a hardness between 30 and 30, got 30');
  });
});
