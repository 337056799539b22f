import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  dimensionOf,
  fromSI,
  readQuantity,
  spellings,
  toSI,
  UNITS,
  type Dimension,
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
  ['cm2', 1e-4],
  ['kPa', 1e3],
  ['MPa', 1e6],
  ['%', 0.01],
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

// SP 811 prints 1.729994 E+03 for an ounce per cubic inch.
test('an ounce per cubic inch is 1729.994 kg/m³', () => {
  expect(toSI(1, '[oz_av]/[cin_i]')).toBeCloseTo(1729.994, 3);
});

describe('spellings that people use', () => {
  // The first of each row is the sign that is printed.
  const SPELLED: readonly (readonly [Dimension, UnitCode, readonly string[]])[] = [
    ['length', 'um', ['µm', 'um', 'μm', 'micron', 'microns']],
    ['length', '[in_i]', ['in', '"', '″', 'inch', 'inches']],
    ['length', '[mil_i]', ['thou', 'mil', 'mils', 'thousandths']],
    ['length', '[ft_i]', ['ft', 'foot', 'feet']],
    ['area', 'm2', ['m²', 'm2']],
    ['area', 'cm2', ['cm²', 'cm2']],
    ['area', 'mm2', ['mm²', 'mm2']],
    ['area', '[sin_i]', ['in²', 'in2', 'sq in']],
    ['volume', 'm3', ['m³', 'm3']],
    ['volume', 'cm3', ['cm³', 'cm3', 'cc']],
    ['volume', 'mL', ['mL', 'ml']],
    ['volume', 'L', ['L', 'l', 'litre', 'litres', 'liter', 'liters']],
    ['volume', '[cin_i]', ['in³', 'in3', 'cu in']],
    ['volume', '[foz_us]', ['fl oz', 'floz']],
    ['volume', '[pt_us]', ['pt', 'pint', 'pints']],
    ['volume', '[qt_us]', ['qt', 'quart', 'quarts']],
    ['volume', '[gal_us]', ['gal', 'gallon', 'gallons']],
    ['mass', 'g', ['g', 'gram', 'grams']],
    ['mass', '[oz_av]', ['oz', 'ounce', 'ounces']],
    ['mass', '[lb_av]', ['lb', 'lbs', 'pound', 'pounds']],
    ['time', 's', ['s', 'sec', 'second', 'seconds']],
    ['time', 'min', ['min', 'minute', 'minutes']],
    ['time', 'h', ['h', 'hour', 'hours']],
    ['time', 'd', ['d', 'day', 'days']],
    ['time', 'wk', ['wk', 'week', 'weeks']],
    ['temperature', 'Cel', ['°C', 'C', 'degC']],
    ['temperature', '[degF]', ['°F', 'F', 'degF']],
    ['temperature difference', 'K', ['°C', 'K', 'C', 'C°']],
    ['temperature difference', '[degF]{difference}', ['°F', 'F', 'F°']],
    ['density', 'kg/m3', ['kg/m³', 'kg/m3']],
    ['density', 'g/cm3', ['g/cm³', 'g/cm3', 'g/cc', 'g/mL', 'g/ml']],
    ['density', '[oz_av]/[cin_i]', ['oz/in³', 'oz/in3']],
    ['flow rate', 'm3/s', ['m³/s', 'm3/s']],
    ['flow rate', 'mL/s', ['mL/s', 'ml/s']],
    ['viscosity', 'Pa.s', ['Pa·s', 'Pa.s', 'Pa s']],
    ['viscosity', 'mPa.s', ['mPa·s', 'mPa.s', 'cP']],
    ['conductivity', 'W/(m.K)', ['W/(m·K)', 'W/m·K', 'W/mK', 'W/(m K)']],
    ['specific heat', 'J/(kg.K)', ['J/(kg·K)', 'J/kg·K', 'J/kgK']],
    ['diffusivity', 'm2/s', ['m²/s', 'm2/s']],
    ['diffusivity', 'mm2/s', ['mm²/s', 'mm2/s']],
    ['heat transfer coefficient', 'W/(m2.K)', ['W/(m²·K)', 'W/m²K', 'W/m2K']],
    ['expansion', '1/K', ['1/K', '/K']],
    ['angle', 'deg', ['°', 'deg', 'degrees']],
    ['hardness', '{ShoreA}', ['Shore A', 'A']],
    ['hardness', '{Shore00}', ['Shore 00', '00', 'OO', 'Shore OO']],
    ['ratio', '%', ['%', 'percent']],
  ];
  test.each(SPELLED)('%s %s: %o', (dimension, code, spelled) => {
    const own = spellings(dimension).filter((one) => one.code === code);
    expect(own.map(({ spelling }) => spelling)).toEqual(spelled);
    for (const spelling of spelled) {
      expect(readQuantity(`7 ${spelling}`, dimension)).toEqual({ si: toSI(7, code), code, value: 7 });
    }
  });
  test('a plain number has no spelling, and only its own dimension has any', () => {
    expect(spellings('ratio')).toEqual([
      { code: '%', spelling: '%' },
      { code: '%', spelling: 'percent' },
    ]);
    expect(new Set(spellings('mass').map(({ code }) => code))).toEqual(
      new Set(['kg', 'g', 'mg', '[oz_av]', '[lb_av]']),
    );
  });
});

describe('numbers as they are written', () => {
  test.each([
    ['  12 mm ', 12],
    ['12mm', 12],
    ['+12 mm', 12],
    ['-12.75 mm', -12.75],
    ['.375 mm', 0.375],
    ['12.625 mm', 12.625],
    ['1.5e-12 mm', 1.5e-12],
    ['2e+120 mm', 2e120],
    ['2e3 mm', 2000],
  ])('"%s"', (text, value) => {
    expect(readQuantity(text, 'length')).toMatchObject({ code: 'mm', value });
  });
  test('spaces inside a unit count as one', () => {
    expect(readQuantity('4 fl   oz', 'volume')).toMatchObject({ code: '[foz_us]', value: 4 });
    expect(readQuantity('4 f l oz', 'volume')).toContain('"f l oz" is not a unit of volume');
  });
  test.each([
    ['12. mm', '". mm" is not a unit of length; use one of: m, cm, mm, µm'],
    ['1e1234 mm', '"4 mm" is not a unit of length; use one of: m, cm, mm, µm'],
    ['e5 mm', '"e5 mm" is not a number with a unit; write for example "12 m"'],
    ['x 12 mm', '"x 12 mm" is not a number with a unit; write for example "12 m"'],
    ['9e999 mm', '"9e999" is not a usable number'],
    ['', '"" is not a number with a unit; write for example "12 m"'],
    ['5 kg', '"kg" is not a unit of length; use one of: m, cm, mm, µm'],
  ])('"%s" is answered with what to write', (text, answer) => {
    expect(readQuantity(text, 'length')).toBe(answer);
  });
  test('a share may stand without a unit, and the answer names no empty one', () => {
    expect(readQuantity('0.25', 'ratio')).toEqual({ si: 0.25, code: '1', value: 0.25 });
    expect(readQuantity('x', 'ratio')).toBe('"x" is not a number with a unit; write for example "12 %"');
    expect(readQuantity('3 parts', 'ratio')).toBe('"parts" is not a unit of ratio; use one of: %');
  });
});
