import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  dimensionOf,
  fromSI,
  readQuantity,
  toSI,
  UNITS,
  type UnitCode,
} from '../../../src/core/quantity/units.ts';

// NIST Special Publication 811 (2008), Appendix B; factors exact unless a digit is rounded. Relative tolerance 1e-12.
const NIST: readonly (readonly [UnitCode, number])[] = [
  ['[in_i]', 0.0254],
  ['[mil_i]', 25.4e-6],
  ['[ft_i]', 0.3048],
  ['[sin_i]', 6.4516e-4],
  ['[cin_i]', 16.387064e-6],
  ['[lb_av]', 0.45359237],
  ['[oz_av]', 0.028349523125],
  ['[gal_us]', 3.785411784e-3],
  ['[qt_us]', 0.946352946e-3],
  ['[pt_us]', 0.473176473e-3],
  ['[foz_us]', 29.5735295625e-6],
  ['[lbf_av]', 4.4482216152605],
  ['bar', 1e5],
  ['min', 60],
  ['h', 3600],
  ['d', 86400],
  ['mPa.s', 1e-3],
  ['mm2/s', 1e-6],
  ['[in_i]/s', 0.0254],
  ['[ft_i]/s', 0.3048],
  ['Hz', 1],
  ['[foz_us]/s', 29.5735295625e-6],
  ['g/cm3', 1000],
  ['deg', Math.PI / 180],
];

test.each(NIST)('one %s is %f in SI', (code, si) => {
  expect(Math.abs(toSI(1, code) / si - 1)).toBeLessThan(1e-12);
});

// SP 811 prints 6.894757 E+03; the full value is lbf over a square inch.
test('one psi is 6894.757 Pa, and a bar 14.50377 psi', () => {
  expect(Math.abs(toSI(1, '[psi]') / 6894.757293168361 - 1)).toBeLessThan(1e-12);
  expect(fromSI(1e5, '[psi]')).toBeCloseTo(14.503773773020923, 9);
});

// SP 811, B.8: t/°C = (t/°F − 32)/1.8.
test.each([
  [350, 176.66666666666666],
  [320, 160],
  [140, 60],
  [32, 0],
  [-40, -40],
])('%i °F is %f °C', (fahrenheit, celsius) => {
  expect(fromSI(toSI(fahrenheit, '[degF]'), 'Cel')).toBeCloseTo(celsius, 9);
});

test('a difference of 10 °C is 18 °F, without the offset', () => {
  expect(fromSI(toSI(10, 'K'), '[degF]{difference}')).toBeCloseTo(18, 12);
  expect(dimensionOf('K')).not.toBe(dimensionOf('Cel'));
});

describe('fluid and avoirdupois ounces', () => {
  test('are different dimensions', () => {
    expect(dimensionOf('[foz_us]')).toBe('volume');
    expect(dimensionOf('[oz_av]')).toBe('mass');
  });
  test('are not read for each other', () => {
    expect(readQuantity('4 fl oz', 'volume')).toMatchObject({ code: '[foz_us]' });
    expect(readQuantity('4 oz', 'mass')).toMatchObject({ code: '[oz_av]' });
    expect(readQuantity('4 oz', 'volume')).toContain('is not a unit of volume');
    expect(readQuantity('4 fl oz', 'mass')).toContain('is not a unit of mass');
  });
});

describe('round trips', () => {
  const codes = Object.keys(UNITS) as UnitCode[];
  test.each(codes)('SI → %s → SI', (code) => {
    fc.assert(
      fc.property(fc.double({ min: 1e-6, max: 1e6, noNaN: true }), (si) => {
        expect(Math.abs(toSI(fromSI(si, code), code) - si)).toBeLessThanOrEqual(1e-12 * (si + 300));
      }),
      { seed: 51, numRuns: 30 },
    );
  });

  test('mm → in → mm', () => {
    fc.assert(
      fc.property(fc.double({ min: 1e-3, max: 1e3, noNaN: true }), (mm) => {
        const inches = fromSI(toSI(mm, 'mm'), '[in_i]');
        expect(Math.abs(fromSI(toSI(inches, '[in_i]'), 'mm') / mm - 1)).toBeLessThan(1e-14);
      }),
      { seed: 52 },
    );
  });
});

describe('written quantities', () => {
  test.each([
    ['5.25 in', 'length', 0.13335],
    ['0.0015 in', 'length', 38.1e-6],
    ['1.5 thou', 'length', 38.1e-6],
    ['38 mm', 'length', 0.038],
    ['5 1e-1 in', 'length', null],
    ['330 °F', 'temperature', 438.7055555555556],
    ['4 fl oz', 'volume', 118.29411825e-6],
    ['1 qt', 'volume', 0.946352946e-3],
    ['7e-4 1/K', 'expansion', 7e-4],
    ['12 W/m2K', 'heat transfer coefficient', 12],
    ['32 00', 'hardness', 32],
    ['0.4', 'ratio', 0.4],
    ['40 %', 'ratio', 0.4],
    ['5.25', 'length', null],
    ['five in', 'length', null],
    ['1e999 mm', 'length', null],
    ['', 'length', null],
  ] as const)('"%s" as a %s', (text, dimension, si) => {
    const read = readQuantity(text, dimension);
    if (si === null) expect(typeof read).toBe('string');
    else expect(typeof read === 'string' ? read : Math.abs(read.si / si - 1)).toBeLessThan(1e-12);
  });

  test('a missing unit is named, with what to write', () => {
    expect(readQuantity('5.25', 'length')).toBe(
      '"5.25" has no unit; write the number with one of: m, cm, mm, µm',
    );
  });
});
