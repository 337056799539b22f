import { blockPlot } from '../../drawing/block-plot.ts';
import type { Drawing, DrawingOptions } from '../../drawing/drawing.ts';
import { fillMapDrawing } from '../../drawing/fill-map.ts';
import type { Projection } from '../../drawing/title-block.ts';
import { windowPlot } from '../../drawing/window-plot.ts';
import type { Sheet } from '../../sheet/sheet.ts';

/** What the drawings of a sheet share. */
interface Shared {
  readonly name: string;
  readonly projection: Projection;
}

/** Drawings of how a mold fills and warms. */
export type FillDrawingName = 'fill-cold' | 'fill-warm' | 'fill-adverse' | 'window' | 'warming';

const KELVIN = 273.15;

/** A temperature in both systems, the shop's own first. */
export function bothDegrees(kelvin: number, units: Sheet['shop']['units']): string {
  const celsius = `${(kelvin - KELVIN).toFixed(0)} °C`;
  const fahrenheit = `${((kelvin - KELVIN) * 1.8 + 32).toFixed(0)} °F`;
  return units === 'us' ? `${fahrenheit} / ${celsius}` : `${celsius} / ${fahrenheit}`;
}

function conditionOf({ shop, filling }: Sheet, drawing: FillDrawingName): string {
  const mold = drawing === 'fill-warm' ? 'warm' : 'cold';
  const end = drawing === 'fill-adverse' ? ', stiff plastic and a light push' : '';
  return `${mold} mold, ${bothDegrees(filling.molds[mold], shop.units)}${end}`;
}

function pictureOf({ filling: { model } }: Sheet, drawing: FillDrawingName) {
  const picture = { 'fill-cold': model.cold, 'fill-warm': model.warm, 'fill-adverse': model.adverse }[
    drawing as 'fill-cold'
  ];
  if (!picture) throw new RangeError(`fillDrawing: this sheet has no "${drawing}"`);
  return picture;
}

const kelvin = (sheet: Sheet, key: string) => (sheet.figures[key]?.value ?? NaN) + KELVIN;
const lowest = (sheet: Sheet, key: string) => (sheet.figures[key]?.low ?? NaN) + KELVIN;

/** One drawing of how a mold fills and warms. */
export function fillDrawing(
  sheet: Sheet,
  drawing: FillDrawingName,
  facts: Shared,
  options: DrawingOptions,
): Drawing {
  const { filling, geometry, figures } = sheet;
  if (drawing === 'window') {
    const pour = {
      low: kelvin(sheet, 'pour.low'),
      nominal: kelvin(sheet, 'pour.nominal'),
      high: kelvin(sheet, 'pour.high'),
    };
    const { window, molds } = filling;
    return windowPlot(
      { ...facts, window, molds, pour, degradation: lowest(sheet, 'pour.degradation') },
      options,
    );
  }
  if (drawing === 'warming') {
    const needed = figures['fill.mold.needed'];
    const marks = [
      { at: kelvin(sheet, 'burn.minuteLimit'), word: 'bare skin, a minute' },
      { at: kelvin(sheet, 'burn.touchLimit'), word: 'bare skin, a second' },
      ...(needed && needed.value > filling.molds.cold - KELVIN + 1
        ? [{ at: needed.value + KELVIN, word: 'thin parts fill' }]
        : []),
    ];
    return blockPlot({ ...facts, warmUp: filling.warmUp, marks }, options);
  }
  return fillMapDrawing(
    {
      ...{ ...facts, plan: geometry.plan },
      picture: pictureOf(sheet, drawing),
      condition: conditionOf(sheet, drawing),
    },
    options,
  );
}
