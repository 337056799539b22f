import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { band } from '../../../src/core/quantity/band.ts';
import { printed, printedBoth, unitFor, type UnitSystem } from '../../../src/core/quantity/print.ts';
import { dimensionOf, fromSI, toSI, UNITS, type UnitCode } from '../../../src/core/quantity/units.ts';

const NO_BREAK = '\u00a0';
const quantity = (unit: UnitCode, value: number, low = value, high = value) => ({
  ...band(value, low, high),
  unit,
});

/** A printed number, read again: the minus sign is U+2212. */
const readBack = (text: string): number => Number(text.replace('\u2212', '-'));

describe('rounding', () => {
  test.each([
    // A band of 4 mL is worth whole millilitres: ends go outwards, the value to nearest.
    [quantity('mL', 18.34, 16.4, 20.4), 'metric', '18 mL (16 to 21)'],
    [quantity('mL', 18.34, 18.21, 18.41), 'metric', '18.3 mL (18.2 to 18.5)'],
    [quantity('s', 104.6, 74.7, 156.9), 'metric', '105 s (74 to 157)'],
    [quantity('s', 119.4), 'metric', '119 s'],
    [quantity('s', 583, 300, 1470), 'metric', '9.7 min (5.0 to 24.5)'],
    [quantity('mm', 127), 'us', '5.000 in'],
    [quantity('mm', 1), 'us', '0.039 in'],
    [quantity('Cel', 165.55), 'us', '330 °F'],
    [quantity('K', 10), 'us', '18.0 °F'],
    [quantity('N', 1344.54), 'metric', '1345 N'],
    [quantity('%', 3.4), 'metric', '3%'],
    [quantity('1', 0.3333), 'metric', '0.33'],
  ] as const)('%o in %s reads %s', (q, system, text) => {
    expect(printed(q, system).text.replaceAll(NO_BREAK, ' ')).toBe(text);
  });

  test('half goes away from zero, and there is no negative zero', () => {
    expect(printed(quantity('N', 2.5), 'metric').value).toBe('3');
    expect(printed(quantity('Cel', -2.5), 'metric').value).toBe('\u22123');
    expect(printed(quantity('Cel', -0.4), 'metric').value).toBe('0');
  });

  test('four figures at most, unless they stand before the point', () => {
    expect(printed(quantity('mm', 123.456), 'metric').value).toBe('123.5');
    expect(printed(quantity('N', 123456), 'metric').value).toBe('123456');
  });

  test('a wide band takes decimals away, but two figures of the value stay', () => {
    expect(printed(quantity('g', 6.1234, 4, 9), 'metric').value).toBe('6.1');
    expect(printed(quantity('g', 6.1234, 6.12, 6.13), 'metric').value).toBe('6.12');
  });

  test('a number without a band has no range', () => {
    expect(printed(quantity('mm', 6), 'metric').range).toBeNull();
  });
});

/** The code whose sign was printed, among those that measure the same. */
function codeOf(sign: string, like: UnitCode): UnitCode {
  const codes = Object.keys(UNITS) as UnitCode[];
  const found = codes.find((code) => UNITS[code].sign === sign && dimensionOf(code) === dimensionOf(like));
  if (found === undefined) throw new Error(`no unit of ${dimensionOf(like)} is written "${sign}"`);
  return found;
}

const FIGURE_UNITS: readonly UnitCode[] = [
  'mm',
  'um',
  'cm2',
  'cm3',
  'mL',
  'g',
  'kg',
  's',
  'min',
  'Cel',
  'K',
  'N',
  'kPa',
  'g/cm3',
  'cm/s',
  '1',
  '%',
];

describe('the printed band never hides part of the computed one', () => {
  const magnitude = fc.double({ min: -4, max: 4, noNaN: true }).map((power) => 10 ** power);
  const part = fc.double({ min: 1e-6, max: 0.9, noNaN: true });

  test.each(FIGURE_UNITS)('%s, in both systems', (unit) => {
    fc.assert(
      fc.property(
        magnitude,
        part,
        part,
        fc.constantFrom<UnitSystem>('us', 'metric'),
        (value, down, up, system) => {
          const q = quantity(unit, value, value * (1 - down), value * (1 + up));
          const shown = printed(q, system);
          const code = codeOf(shown.unit, unit);
          const exact = (x: number) => (code === unit ? x : fromSI(toSI(x, unit), code));
          const slack = 2e-9 * Math.max(1, Math.abs(exact(q.high)));
          expect(readBack(shown.range?.low ?? 'NaN')).toBeLessThanOrEqual(exact(q.low) + slack);
          expect(readBack(shown.range?.high ?? 'NaN')).toBeGreaterThanOrEqual(exact(q.high) - slack);
          expect(readBack(shown.range?.low ?? 'NaN')).toBeLessThanOrEqual(readBack(shown.value));
          expect(readBack(shown.range?.high ?? 'NaN')).toBeGreaterThanOrEqual(readBack(shown.value));
        },
      ),
      { seed: 71, numRuns: 60 },
    );
  });
});

test('each unit that is shown in another system measures the same', () => {
  for (const code of Object.keys(UNITS) as UnitCode[]) {
    for (const system of ['us', 'metric'] as const) {
      expect(dimensionOf(unitFor(code, system)), `${code} in ${system}`).toBe(dimensionOf(code));
    }
  }
});

test('both systems in one line, the first one leading', () => {
  const q = quantity('mL', 29.5735295625);
  expect(printedBoth(q, 'us').replaceAll(NO_BREAK, ' ')).toBe('1.00 fl oz / 29.6 mL');
  expect(printedBoth(q, 'metric').replaceAll(NO_BREAK, ' ')).toBe('29.6 mL / 1.00 fl oz');
  expect(printedBoth(quantity('s', 90), 'us').replaceAll(NO_BREAK, ' ')).toBe('90 s');
});

test.each([
  ['s', 119, '119\u00a0s'],
  ['s', 120, '2.0\u00a0min'],
  ['min', 1, '1.0\u00a0min'],
  ['min', 89, '89.0\u00a0min'],
  ['min', 150, '2.5\u00a0h'],
  ['s', 9000, '2.5\u00a0h'],
] as const)('a wait in %s of %d is read as "%s"', (unit, value, text) => {
  for (const system of ['us', 'metric'] as const)
    expect(printed(quantity(unit, value), system).text).toBe(text);
});

// The pair of units that a reader of either system expects; US customary units after NIST SP 811, the choice is common practice.
test.each<[UnitCode, UnitCode, UnitCode]>([
  ['mm', '[in_i]', 'mm'],
  ['m', '[ft_i]', 'm'],
  ['um', '[mil_i]', 'mm'],
  ['mm2', '[sin_i]', 'cm2'],
  ['cm3', '[cin_i]', 'cm3'],
  ['mL', '[foz_us]', 'mL'],
  ['L', '[qt_us]', 'L'],
  ['g', '[oz_av]', 'g'],
  ['kg', '[lb_av]', 'kg'],
  ['Cel', '[degF]', 'Cel'],
  ['K', '[degF]{difference}', 'K'],
  ['N', '[lbf_av]', 'N'],
  ['kPa', '[psi]', 'kPa'],
  ['g/cm3', '[oz_av]/[cin_i]', 'g/cm3'],
  ['cm/s', '[in_i]/s', 'cm/s'],
  ['m/s', '[ft_i]/s', 'm/s'],
  ['mL/s', '[foz_us]/s', 'mL/s'],
])('%s is read as %s, which is read as %s', (metric, us, back) => {
  expect(unitFor(metric, 'us')).toBe(us);
  expect(unitFor(metric, 'metric')).toBe(metric);
  expect(unitFor(us, 'metric')).toBe(back);
  expect(unitFor(us, 'us')).toBe(us);
});

test('centimetres are read as inches, but inches never as centimetres', () => {
  expect(unitFor('cm', 'us')).toBe('[in_i]');
  expect(unitFor('[in_i]', 'metric')).toBe('mm');
});

test('units that both share stay', () => {
  for (const code of ['Hz', '%', 'min', 'mPa.s'] as const) {
    expect([unitFor(code, 'us'), unitFor(code, 'metric')]).toEqual([code, code]);
  }
});

describe('all of a printed quantity', () => {
  test('number, sign, words and range', () => {
    expect(printed(quantity('mL', 18.34, 16.4, 20.4), 'metric')).toEqual({
      value: '18',
      unit: 'mL',
      code: 'mL',
      spoken: 'millilitres',
      range: { low: '16', high: '21' },
      text: '18\u00a0mL (16 to 21)',
    });
  });
  test('a share and a plain number stand without a space', () => {
    expect(printed(quantity('%', 40), 'us').text).toBe('40%');
    expect(printed(quantity('1', 0.5), 'us').text).toBe('0.50');
  });
  test.each([
    // Viscosities have no limit of their own: three decimals.
    [quantity('Pa.s', 0.123456), '0.123'],
    [quantity('um', 38.4), '38'],
    [quantity('d', 2.4), '2'],
    // Hours stay hours, however few.
    [quantity('h', 0.5), '0.5'],
    // Exactly on a step, a band is neither widened nor narrowed.
    [quantity('mm', 2, 1.5, 2.5), '2.0'],
    [quantity('N', -7, -9, -5), '\u22127'],
    [quantity('mm', 0), '0.00'],
  ] as const)('%o: %s', (q, text) => {
    expect(printed(q, 'metric').value).toBe(text);
  });
  test('ends that lie on a step stay there', () => {
    expect(printed(quantity('mm', 2, 1.5, 2.5), 'metric').range).toEqual({ low: '1.5', high: '2.5' });
    expect(printed(quantity('N', -7, -9.5, -5.5), 'metric').range).toEqual({
      low: '\u221210',
      high: '\u22125',
    });
    expect(printed(quantity('kPa', 0.3, 0.1, 0.7), 'metric').range).toEqual({ low: '0.10', high: '0.70' });
  });
  test('a wait of two minutes and one of an hour and a half turn over', () => {
    const shown = (unit: 's' | 'min', value: number) => printed(quantity(unit, value), 'us').code;
    expect([119.9, 120, 5399, 5400].map((value) => shown('s', value))).toEqual(['s', 'min', 'min', 'h']);
    expect([0.5, 89.9, 90].map((value) => shown('min', value))).toEqual(['min', 'min', 'h']);
  });
});
