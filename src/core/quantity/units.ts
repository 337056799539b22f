/** What a number measures; each has one SI unit, in which all of `core` computes. */
export type Dimension =
  | 'length'
  | 'area'
  | 'volume'
  | 'mass'
  | 'time'
  | 'temperature'
  | 'temperature difference'
  | 'force'
  | 'pressure'
  | 'density'
  | 'speed'
  | 'frequency'
  | 'flow rate'
  | 'viscosity'
  | 'conductivity'
  | 'specific heat'
  | 'diffusivity'
  | 'heat transfer coefficient'
  | 'expansion'
  | 'energy'
  | 'molar energy'
  | 'angle'
  | 'hardness'
  | 'count'
  | 'ratio';

interface UnitRow {
  readonly dimension: Dimension;
  /** SI value of one unit. */
  readonly factor: number;
  /** SI value of zero, for temperature scales only [K]. */
  readonly offset?: number;
  /** As printed after the number. */
  readonly sign: string;
  /** As read aloud, plural. */
  readonly spoken: string;
  /** Other ways in which people write it. */
  readonly written: readonly string[];
}

const unit = (
  dimension: Dimension,
  factor: number,
  sign: string,
  spoken: string,
  written: readonly string[] = [],
  offset?: number,
): UnitRow => ({ dimension, factor, sign, spoken, written, ...(offset === undefined ? {} : { offset }) });

const INCH = 0.0254;
const POUND = 0.45359237;
const GALLON = 3.785411784e-3;
const GRAVITY = 9.80665;

/**
 * Units by UCUM code. Factors are exact but for the powers that a decimal cannot hold.
 * Source: NIST SP 811 (2008) Appendix B; codes after the Unified Code for Units of Measure.
 */
export const UNITS = {
  m: unit('length', 1, 'm', 'metres'),
  cm: unit('length', 1e-2, 'cm', 'centimetres'),
  mm: unit('length', 1e-3, 'mm', 'millimetres'),
  um: unit('length', 1e-6, 'µm', 'micrometres', ['um', 'μm', 'micron', 'microns']),
  '[in_i]': unit('length', INCH, 'in', 'inches', ['"', '″', 'inch', 'inches']),
  '[mil_i]': unit('length', INCH / 1000, 'thou', 'thousandths of an inch', ['mil', 'mils', 'thousandths']),
  '[ft_i]': unit('length', 12 * INCH, 'ft', 'feet', ['foot', 'feet']),
  m2: unit('area', 1, 'm²', 'square metres', ['m2']),
  cm2: unit('area', 1e-4, 'cm²', 'square centimetres', ['cm2']),
  mm2: unit('area', 1e-6, 'mm²', 'square millimetres', ['mm2']),
  '[sin_i]': unit('area', INCH ** 2, 'in²', 'square inches', ['in2', 'sq in']),
  m3: unit('volume', 1, 'm³', 'cubic metres', ['m3']),
  cm3: unit('volume', 1e-6, 'cm³', 'cubic centimetres', ['cm3', 'cc']),
  mL: unit('volume', 1e-6, 'mL', 'millilitres', ['ml']),
  L: unit('volume', 1e-3, 'L', 'litres', ['l', 'litre', 'litres', 'liter', 'liters']),
  '[cin_i]': unit('volume', INCH ** 3, 'in³', 'cubic inches', ['in3', 'cu in']),
  '[foz_us]': unit('volume', GALLON / 128, 'fl oz', 'fluid ounces', ['floz']),
  '[pt_us]': unit('volume', GALLON / 8, 'pt', 'pints', ['pint', 'pints']),
  '[qt_us]': unit('volume', GALLON / 4, 'qt', 'quarts', ['quart', 'quarts']),
  '[gal_us]': unit('volume', GALLON, 'gal', 'gallons', ['gallon', 'gallons']),
  kg: unit('mass', 1, 'kg', 'kilograms'),
  g: unit('mass', 1e-3, 'g', 'grams', ['gram', 'grams']),
  mg: unit('mass', 1e-6, 'mg', 'milligrams'),
  '[oz_av]': unit('mass', POUND / 16, 'oz', 'ounces', ['ounce', 'ounces']),
  '[lb_av]': unit('mass', POUND, 'lb', 'pounds', ['lbs', 'pound', 'pounds']),
  s: unit('time', 1, 's', 'seconds', ['sec', 'second', 'seconds']),
  min: unit('time', 60, 'min', 'minutes', ['minute', 'minutes']),
  h: unit('time', 3600, 'h', 'hours', ['hour', 'hours']),
  d: unit('time', 86400, 'd', 'days', ['day', 'days']),
  wk: unit('time', 604800, 'wk', 'weeks', ['week', 'weeks']),
  Cel: unit('temperature', 1, '°C', 'degrees Celsius', ['C', 'degC'], 273.15),
  '[degF]': unit('temperature', 5 / 9, '°F', 'degrees Fahrenheit', ['F', 'degF'], 273.15 - (32 * 5) / 9),
  K: unit('temperature difference', 1, '°C', 'Celsius degrees', ['K', 'C', 'C°']),
  '[degF]{difference}': unit('temperature difference', 5 / 9, '°F', 'Fahrenheit degrees', ['F', 'F°']),
  N: unit('force', 1, 'N', 'newtons'),
  kN: unit('force', 1e3, 'kN', 'kilonewtons'),
  '[lbf_av]': unit('force', POUND * GRAVITY, 'lbf', 'pounds force'),
  Pa: unit('pressure', 1, 'Pa', 'pascals'),
  kPa: unit('pressure', 1e3, 'kPa', 'kilopascals'),
  MPa: unit('pressure', 1e6, 'MPa', 'megapascals'),
  bar: unit('pressure', 1e5, 'bar', 'bar'),
  '[psi]': unit('pressure', (POUND * GRAVITY) / INCH ** 2, 'psi', 'pounds per square inch'),
  'kg/m3': unit('density', 1, 'kg/m³', 'kilograms per cubic metre', ['kg/m3']),
  'g/cm3': unit('density', 1e3, 'g/cm³', 'grams per cubic centimetre', ['g/cm3', 'g/cc', 'g/mL', 'g/ml']),
  '[oz_av]/[cin_i]': unit('density', POUND / 16 / INCH ** 3, 'oz/in³', 'ounces per cubic inch', ['oz/in3']),
  'm/s': unit('speed', 1, 'm/s', 'metres a second'),
  'cm/s': unit('speed', 1e-2, 'cm/s', 'centimetres a second'),
  '[in_i]/s': unit('speed', INCH, 'in/s', 'inches a second'),
  '[ft_i]/s': unit('speed', 12 * INCH, 'ft/s', 'feet a second'),
  Hz: unit('frequency', 1, 'Hz', 'hertz'),
  'm3/s': unit('flow rate', 1, 'm³/s', 'cubic metres a second', ['m3/s']),
  'mL/s': unit('flow rate', 1e-6, 'mL/s', 'millilitres a second', ['ml/s']),
  '[foz_us]/s': unit('flow rate', GALLON / 128, 'fl oz/s', 'fluid ounces a second'),
  'Pa.s': unit('viscosity', 1, 'Pa·s', 'pascal seconds', ['Pa.s', 'Pa s']),
  'mPa.s': unit('viscosity', 1e-3, 'mPa·s', 'millipascal seconds', ['mPa.s', 'cP']),
  'W/(m.K)': unit('conductivity', 1, 'W/(m·K)', 'watts per metre kelvin', ['W/m·K', 'W/mK', 'W/(m K)']),
  'J/(kg.K)': unit('specific heat', 1, 'J/(kg·K)', 'joules per kilogram kelvin', ['J/kg·K', 'J/kgK']),
  'm2/s': unit('diffusivity', 1, 'm²/s', 'square metres a second', ['m2/s']),
  'mm2/s': unit('diffusivity', 1e-6, 'mm²/s', 'square millimetres a second', ['mm2/s']),
  'W/(m2.K)': unit('heat transfer coefficient', 1, 'W/(m²·K)', 'watts per square metre kelvin', [
    'W/m²K',
    'W/m2K',
  ]),
  '1/K': unit('expansion', 1, '1/K', 'per kelvin', ['/K']),
  J: unit('energy', 1, 'J', 'joules'),
  'kJ/mol': unit('molar energy', 1e3, 'kJ/mol', 'kilojoules a mole'),
  deg: unit('angle', Math.PI / 180, '°', 'degrees', ['deg', 'degrees']),
  '{ShoreA}': unit('hardness', 1, 'Shore A', 'Shore A', ['A']),
  '{Shore00}': unit('hardness', 1, 'Shore 00', 'Shore double zero', ['00', 'OO', 'Shore OO']),
  '{bait}': unit('count', 1, 'baits', 'baits'),
  '{shot}': unit('count', 1, 'shots', 'shots'),
  '1': unit('ratio', 1, '', ''),
  '%': unit('ratio', 0.01, '%', 'per cent', ['percent']),
} as const satisfies Readonly<Record<string, UnitRow>>;

/** A UCUM code that Partline knows. */
export type UnitCode = keyof typeof UNITS;

/**
 * SI value of a number in a unit.
 *
 * @param value - in `code`
 * @param code - UCUM code
 * @returns the same quantity in the SI unit of its dimension
 *
 * Cost: constant.
 * Source: NIST SP 811 (2008) Appendix B.
 */
export function toSI(value: number, code: UnitCode): number {
  const row: UnitRow = UNITS[code];
  return value * row.factor + (row.offset ?? 0);
}

/**
 * A number in a unit from its SI value.
 *
 * @param si - in the SI unit of the dimension
 * @param code - UCUM code
 * @returns the same quantity in `code`
 *
 * Cost: constant.
 * Source: NIST SP 811 (2008) Appendix B.
 */
export function fromSI(si: number, code: UnitCode): number {
  const row: UnitRow = UNITS[code];
  return (si - (row.offset ?? 0)) / row.factor;
}

/**
 * What a unit measures.
 *
 * @param code - UCUM code
 * @returns its dimension
 *
 * Cost: constant.
 * Source: definition.
 */
export function dimensionOf(code: UnitCode): Dimension {
  return UNITS[code].dimension;
}

/** The units in which people may write a dimension, code and every spelling of it. */
export function spellings(dimension: Dimension): { code: UnitCode; spelling: string }[] {
  return (Object.keys(UNITS) as UnitCode[])
    .filter((code) => UNITS[code].dimension === dimension)
    .flatMap((code) => {
      const row: UnitRow = UNITS[code];
      return [...new Set([row.sign, ...row.written])].filter(Boolean).map((spelling) => ({ code, spelling }));
    });
}

/** A written quantity, read. */
export interface Written {
  /** SI value. */
  readonly si: number;
  readonly code: UnitCode;
  /** The number as written, in `code`. */
  readonly value: number;
}

const NUMBER = /^([+-]?(?:\d+(?:\.\d+)?|\.\d+)(?:e[+-]?\d{1,3})?)\s*(.*)$/u;

/**
 * Reads a quantity as people write it: `5.25 in`, `1.5 thou`, `330 °F`, `4 fl oz`, `38 mm`.
 *
 * @param text - number, then unit
 * @param dimension - what it has to measure
 * @returns the quantity in SI, or a sentence that says what is wrong and what to write
 *
 * Cost: linear in the text.
 * Source: definition.
 */
export function readQuantity(text: string, dimension: Dimension): Written | string {
  const match = NUMBER.exec(text.trim());
  const known = spellings(dimension);
  const examples = [...new Set(known.map(({ code }) => UNITS[code].sign).filter(Boolean))]
    .slice(0, 4)
    .join(', ');
  if (!match)
    return `"${text}" is not a number with a unit; write for example "12 ${examples.split(', ')[0] ?? ''}"`;
  const [, digits = '', rest = ''] = match;
  if (dimension !== 'ratio' && rest === '') {
    return `"${text}" has no unit; write the number with one of: ${examples}`;
  }
  const found =
    rest === ''
      ? { code: '1' as UnitCode }
      : known.find(({ spelling }) => spelling === rest.replace(/\s+/gu, ' '));
  if (!found) return `"${rest}" is not a unit of ${dimension}; use one of: ${examples}`;
  const value = Number(digits);
  if (!Number.isFinite(value)) return `"${digits}" is not a usable number`;
  return { si: toSI(value, found.code), code: found.code, value };
}
