import { expect, test } from 'vitest';
import type { MeshUnit } from '../../../src/core/mesh/result.ts';
import { statedLengthFault } from '../../../src/core/mesh/stated-length.ts';

const INCH = 0.0254;

test('within two per cent nothing is said; beyond, both lengths are', () => {
  for (const share of [0.9801, 1, 1.0199]) {
    expect(statedLengthFault({ measured: 0.127 * share, stated: 0.127, unit: 'mm' })).toBeUndefined();
  }
  expect(statedLengthFault({ measured: 0.12, stated: 0.127, unit: 'mm' })).toEqual({
    kind: 'unit',
    message: 'measures 120 mm, 5.5 % less than the stated 127 mm; correct the stated length or the file',
  });
  expect(statedLengthFault({ measured: 0.127 * 1.0201, stated: 0.127, unit: 'mm' })?.message).toContain(
    '2 % more than',
  );
});

// [assumed unit, measured m, stated m, message]; unit ratios from NIST SP 811 (2008) Appendix B.
const WRONG_UNITS: readonly (readonly [MeshUnit, number, number, string])[] = [
  [
    'in',
    127 * INCH,
    5 * INCH,
    'measures 127 in, 25.4 times the stated 5 in: the file is in mm; set unit: mm',
  ],
  ['mm', 0.005, 0.127, 'measures 5 mm, 1/25.4 of the stated 127 mm: the file is in in; set unit: in'],
  ['cm', 1.27, 0.127, 'measures 127 cm, 10 times the stated 12.7 cm: the file is in mm; set unit: mm'],
  ['mm', 0.0127, 0.127, 'measures 12.7 mm, 1/10 of the stated 127 mm: the file is in cm; set unit: cm'],
  ['m', 127, 0.127, 'measures 127 m, 1000 times the stated 0.127 m: the file is in mm; set unit: mm'],
  ['mm', 0.000127, 0.127, 'measures 0.127 mm, 1/1000 of the stated 127 mm: the file is in m; set unit: m'],
  [
    'in',
    5.1 * 25.4 * INCH,
    5.1 * INCH * 1.015,
    'measures 129.5 in, 25 times the stated 5.176 in: the file is in mm; set unit: mm',
  ],
  [
    'in',
    50 * INCH,
    5 * INCH,
    'measures 50 in, 10 times the stated 5 in; correct the stated length or the file',
  ],
  [
    'mm',
    127,
    0.127,
    'measures 127000 mm, 1000 times the stated 127 mm; correct the stated length or the file',
  ],
];

test.each(WRONG_UNITS)(
  'a file taken for %s: measured %d m, stated %d m',
  (unit, measured, stated, message) => {
    expect(statedLengthFault({ measured, stated, unit })).toEqual({ kind: 'unit', message });
  },
);

test('a file that names its own unit has to be exported again', () => {
  expect(
    statedLengthFault({ measured: 127 * INCH, stated: 5 * INCH, unit: 'in', unitInFile: true })?.message,
  ).toBe('measures 127 in, 25.4 times the stated 5 in: the file is in mm; export it again with the unit mm');
});

test('lengths that are none are a mistake of the programmer', () => {
  expect(() => statedLengthFault({ measured: 0, stated: 1, unit: 'mm' })).toThrow(
    'statedLengthFault: wants measured positive and finite, got 0',
  );
});
