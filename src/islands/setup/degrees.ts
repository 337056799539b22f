import type { UnitSystem } from '../../core/quantity/print.ts';
import { fromSI, readQuantity } from '../../core/quantity/units.ts';

/** A temperature as typed with its unit [K]; null when it is unclear: a bare number could be either scale. */
export function typedTemperature(text: string): number | null {
  const bare = /^\s*\d{1,3}(?:[.,]\d+)?\s*$/u.test(text);
  if (bare) return null;
  const read = readQuantity(text.replace(',', '.'), 'temperature');
  return typeof read === 'string' ? null : read.si;
}

/** A temperature in the reader's units: `331 °F`. */
export function printedTemperature(kelvin: number, first: UnitSystem): string {
  return first === 'us'
    ? `${fromSI(kelvin, '[degF]').toFixed(0)} °F`
    : `${fromSI(kelvin, 'Cel').toFixed(0)} °C`;
}

/** A temperature in both units, the reader's first. */
export function bothTemperatures(kelvin: number, first: UnitSystem): string {
  const [one, other] = first === 'us' ? (['us', 'metric'] as const) : (['metric', 'us'] as const);
  return `${printedTemperature(kelvin, one)} / ${printedTemperature(kelvin, other)}`;
}
