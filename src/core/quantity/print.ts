import type { Band } from './band.ts';
import { fromSI, toSI, UNITS, type UnitCode } from './units.ts';

/** The two families of units that readers choose between. */
export type UnitSystem = 'us' | 'metric';

/** A number ready to be read, with its unit; low and high only where they differ once rounded. */
export interface Printed {
  readonly value: string;
  readonly unit: string;
  /** Of that unit. */
  readonly code: UnitCode;
  readonly spoken: string;
  /** Null when the number is a single one. */
  readonly range: { readonly low: string; readonly high: string } | null;
  /** All of it in one line: `18 mL (16–20)`. */
  readonly text: string;
}

/** The unit a US reader expects in place of a metric one, and the other way round. */
const US_UNIT: Partial<Record<UnitCode, UnitCode>> = {
  mm: '[in_i]',
  cm: '[in_i]',
  m: '[ft_i]',
  um: '[mil_i]',
  mm2: '[sin_i]',
  cm2: '[sin_i]',
  cm3: '[cin_i]',
  mL: '[foz_us]',
  L: '[qt_us]',
  g: '[oz_av]',
  kg: '[lb_av]',
  Cel: '[degF]',
  K: '[degF]{difference}',
  N: '[lbf_av]',
  kPa: '[psi]',
  'g/cm3': '[oz_av]/[cin_i]',
  'cm/s': '[in_i]/s',
  'm/s': '[ft_i]/s',
  'mL/s': '[foz_us]/s',
};

const METRIC_UNIT = {
  ...Object.fromEntries(
    Object.entries(US_UNIT)
      .filter(([metric]) => metric !== 'cm')
      .map(([metric, us]) => [us, metric]),
  ),
  // Thousandths of an inch are read beside millimetres; micrometres are for what is finer.
  '[mil_i]': 'mm',
} as Partial<Record<UnitCode, UnitCode>>;

/** Most decimals that a unit is worth printing to. */
const DECIMALS: Partial<Record<UnitCode, number>> = {
  mm: 2,
  '[in_i]': 3,
  '[mil_i]': 1,
  um: 0,
  cm2: 1,
  '[sin_i]': 2,
  cm3: 2,
  '[cin_i]': 3,
  mL: 1,
  '[foz_us]': 2,
  g: 2,
  '[oz_av]': 3,
  kg: 2,
  '[lb_av]': 2,
  Cel: 0,
  '[degF]': 0,
  K: 1,
  '[degF]{difference}': 1,
  N: 0,
  '[lbf_av]': 0,
  kPa: 2,
  '[psi]': 2,
  s: 0,
  min: 1,
  h: 1,
  d: 0,
  wk: 0,
  'g/cm3': 3,
  '[oz_av]/[cin_i]': 3,
  'cm/s': 1,
  '[in_i]/s': 1,
  Hz: 1,
  '1': 2,
  '%': 0,
  '{bait}': 0,
  '{shot}': 0,
};

const FIGURES = 4;

/** Waits from here on are read in minutes, and in hours [s]. */
const IN_MINUTES = 120;
const IN_HOURS = 5400;

/** The unit that a wait is read in, by its length; null for what is no wait in seconds or minutes. */
function waitUnit({ value, unit }: Band & { readonly unit: UnitCode }): UnitCode | null {
  if (unit !== 's' && unit !== 'min') return null;
  const seconds = toSI(value, unit);
  if (seconds >= IN_HOURS) return 'h';
  return unit === 'min' || seconds >= IN_MINUTES ? 'min' : 's';
}

/**
 * Unit in which a system shows a quantity that is kept in `code`.
 *
 * @param code - UCUM code
 * @param system - `us` or `metric`
 * @returns a UCUM code of the same dimension; `code` itself where both systems share it
 *
 * Cost: constant.
 * Source: NIST SP 811 (2008); choice of unit by trade habit, common practice.
 */
export function unitFor(code: UnitCode, system: UnitSystem): UnitCode {
  return (system === 'us' ? US_UNIT[code] : METRIC_UNIT[code]) ?? code;
}

/**
 * Decimals worth printing: no more than the unit deserves, four significant figures or the band allow;
 * a step is at most a quarter of the band, yet at least two figures of the value stay.
 */
function decimalsFor(value: Band, code: UnitCode): number {
  const most = DECIMALS[code] ?? 3;
  const size = Math.max(Math.abs(value.value), 1e-12);
  const leading = Math.floor(Math.log10(size));
  const byFigures = FIGURES - 1 - leading;
  // Endless without a band.
  const byBand = -Math.floor(Math.log10((value.high - value.low) / 4));
  const byTwoFigures = 1 - leading;
  return Math.max(0, Math.min(most, byFigures, Math.max(byBand, byTwoFigures)));
}

/** A fixed-point decimal, rounded half away from zero or outwards, never "-0". */
function decimal(value: number, decimals: number, round: 'nearest' | 'down' | 'up'): string {
  const scale = 10 ** decimals;
  const scaled = value * scale;
  const slack = 1e-9 * Math.max(1, Math.abs(scaled));
  const whole =
    round === 'nearest'
      ? Math.sign(scaled) * Math.round(Math.abs(scaled) + slack)
      : round === 'down'
        ? Math.floor(scaled + slack)
        : Math.ceil(scaled - slack);
  const text = (whole === 0 ? 0 : whole / scale).toFixed(decimals);
  return text.replace('-', '\u2212');
}

/**
 * A quantity as people read it. The one place where numbers are rounded: the nominal to nearest, the low
 * downwards and the high upwards, so that a printed band never hides part of the computed one.
 *
 * @param quantity - value, low, high in `unit`
 * @param system - units to print it in
 * @returns the texts; `range` is null when low and high do not differ
 *
 * Cost: constant.
 * Source: rounding after ISO 80000-1:2022 Annex B, from memory; outward rounding of bounds as in interval arithmetic.
 */
export function printed(quantity: Band & { readonly unit: UnitCode }, system: UnitSystem): Printed {
  const code = waitUnit(quantity) ?? unitFor(quantity.unit, system);
  const convert = (value: number) =>
    code === quantity.unit ? value : fromSI(toSI(value, quantity.unit), code);
  const inUnit = { value: convert(quantity.value), low: convert(quantity.low), high: convert(quantity.high) };
  const decimals = decimalsFor(inUnit, code);
  const value = decimal(inUnit.value, decimals, 'nearest');
  const banded = quantity.high > quantity.low;
  const range = banded
    ? { low: decimal(inUnit.low, decimals, 'down'), high: decimal(inUnit.high, decimals, 'up') }
    : null;
  const { sign, spoken } = UNITS[code];
  const space = sign === '' || sign === '%' ? '' : '\u00a0';
  const bounds = range ? ` (${range.low} to ${range.high})` : '';
  return { value, unit: sign, code, spoken, range, text: `${value}${space}${sign}${bounds}` };
}

/**
 * A quantity in the reader's units first and the others in brackets, bands left to the long form.
 *
 * @param quantity - value, low, high in `unit`
 * @param first - system to lead with
 * @returns for example `0.62 fl oz (18.3 mL)`; one form when both systems share the unit
 *
 * Cost: constant.
 * Source: definition.
 */
export function printedBoth(quantity: Band & { readonly unit: UnitCode }, first: UnitSystem): string {
  const lead = printed(quantity, first);
  const other = printed(quantity, first === 'us' ? 'metric' : 'us');
  return lead.text === other.text ? lead.text : `${lead.text} / ${other.text}`;
}
