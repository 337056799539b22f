import { printed } from '../../core/quantity/print.ts';
import type { Sheet } from '../../sheet/sheet.ts';
import { figureOf } from '../figure/homes.ts';

/** A band on the temperature scale, in hundredths of its width. */
export interface ScaleBand {
  readonly name: string;
  readonly kind: 'pour' | 'limit' | 'bad' | 'fire';
  readonly from: number;
  readonly to: number;
  readonly at: number;
  readonly us: string;
  readonly metric: string;
}

/** A tick with its number, in hundredths of the width. */
export interface Tick {
  readonly at: number;
  readonly text: string;
}

/** The temperature scale of a sheet: what happens to the compound at which temperature. */
export interface PourScale {
  readonly bands: readonly ScaleBand[];
  readonly celsius: readonly Tick[];
  readonly fahrenheit: readonly Tick[];
}

const LOW = 140;
const HIGH = 240;
const place = (celsius: number) => Math.min(100, Math.max(0, ((celsius - LOW) / (HIGH - LOW)) * 100));

function ticks(from: number, step: number, to: number, celsiusOf: (value: number) => number): Tick[] {
  const count = Math.floor((to - from) / step) + 1;
  return Array.from({ length: count }, (_, index) => from + index * step).map((value) => ({
    at: place(celsiusOf(value)),
    text: String(value),
  }));
}

/** Places of the sheet's temperatures on one scale from 140 to 240 °C. */
export function pourScale(sheet: Sheet): PourScale {
  const { fusion, degradation, flashPoint } = sheet.plastisol;
  const [low, nominal, high] = ['pour.low', 'pour.nominal', 'pour.high'].map((key) => figureOf(sheet, key));
  if (!low || !nominal || !high)
    throw new RangeError('pourScale: wants pour.low, pour.nominal and pour.high');
  const celsius = (kelvin: number) => kelvin - 273.15;
  const stated = (
    name: string,
    kind: ScaleBand['kind'],
    of: { low: number; value: number; high: number },
  ) => {
    const shown = {
      value: celsius(of.value),
      low: celsius(of.low),
      high: celsius(of.high),
      unit: 'Cel' as const,
    };
    return {
      name,
      kind,
      from: place(shown.low),
      to: place(shown.high),
      at: place(shown.value),
      us: printed(shown, 'us').text,
      metric: printed(shown, 'metric').text,
    };
  };
  const pour = {
    name: 'Pour',
    kind: 'pour' as const,
    from: place(low.value),
    to: place(high.value),
    at: place(nominal.value),
    us: [low, high].map((end) => printed(end, 'us').value).join(' to ') + ' °F',
    metric: [low, high].map((end) => printed(end, 'metric').value).join(' to ') + ' °C',
  };
  return {
    bands: [
      stated('Fully fused', 'limit', fusion),
      pour,
      stated('Breaks down', 'bad', degradation),
      stated('Flash point', 'fire', flashPoint),
    ],
    celsius: ticks(140, 20, 240, (value) => value),
    fahrenheit: ticks(300, 50, 450, (value) => ((value - 32) * 5) / 9),
  };
}
