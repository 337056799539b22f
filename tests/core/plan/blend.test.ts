import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { blendShare, logRuleModulus, powerRuleModulus } from '../../../src/core/plan/blend.ts';
import { plasticisedModulus } from '../../../src/core/hardness/compound-hardness.ts';
import { shore00Modulus } from '../../../src/core/hardness/shore-modulus.ts';
import { resinVolumeFraction } from '../../../src/core/shot/compound-density.ts';
import { PLASTICISERS } from '../../../src/core/shot/constituents.ts';

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

describe('share for a hardness', () => {
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
    expect(() => blendShare(30, 'softener', 40)).toThrow(RangeError);
    expect(() => blendShare(30, 30, 30)).toThrow(RangeError);
  });
});
