import { tickStep } from './plot.ts';
import { joined, label, lines, textWidth, type Picture, type Point } from './picture.ts';

/** One scale along an edge of a plot, in a unit of its own. */
export interface EdgeScale {
  /** Value on this edge's scale of a value of the plot. */
  readonly shown: (value: number) => number;
  /** Value of the plot of one on this edge's scale. */
  readonly back: (shown: number) => number;
  /** Unit, written at the end of the edge. */
  readonly unit: string;
}

/** Room and scales of a plot; the lower left corner stands at the origin. */
export interface PlotFrame {
  readonly x: readonly [number, number];
  readonly y: readonly [number, number];
  /** [mm on paper]. */
  readonly width: number;
  readonly height: number;
  /** Height of lettering [mm]. */
  readonly size: number;
  readonly bottom: EdgeScale;
  readonly left: EdgeScale;
  readonly top?: EdgeScale;
  readonly right?: EdgeScale;
}

const TICK = 1.2;

/** A value as it is: one scale shows the plot's own unit. */
export const plainScale = (unit: string): EdgeScale => ({ unit, shown: (x) => x, back: (x) => x });

const KELVIN = 273.15;

/** Kelvin shown in degrees Celsius, and in degrees Fahrenheit. */
export const celsiusScale: EdgeScale = {
  unit: '°C',
  shown: (kelvin) => kelvin - KELVIN,
  back: (celsius) => celsius + KELVIN,
};
export const fahrenheitScale: EdgeScale = {
  unit: '°F',
  shown: (kelvin) => (kelvin - KELVIN) * 1.8 + 32,
  back: (fahrenheit) => (fahrenheit - 32) / 1.8 + KELVIN,
};

/** Where a value of the plot lies on the paper [mm]. */
export function plotPoint({ x, y, width, height }: PlotFrame, [u, v]: readonly [number, number]): Point {
  return [((u - x[0]) / (x[1] - x[0])) * width, (-(v - y[0]) / (y[1] - y[0])) * height];
}

/** The rectangle of a plot as a ring. */
export function plotRing({ width, height }: PlotFrame): Point[] {
  return [
    [0, 0],
    [width, 0],
    [width, -height],
    [0, -height],
  ];
}

/** Round numbers of a scale between two values of the plot, with their values. */
function ticks([from, to]: readonly [number, number], scale: EdgeScale, most: number) {
  const [low, high] = [scale.shown(from), scale.shown(to)];
  const step = tickStep(high - low, most);
  const first = Math.ceil(low / step - 1e-9);
  const count = Math.floor(high / step + 1e-9) - first + 1;
  return Array.from({ length: count }, (_, k) => {
    const shown = (first + k) * step;
    return { text: String(Number(shown.toPrecision(6))), value: scale.back(shown) };
  });
}

function acrossTicks(frame: PlotFrame, scale: EdgeScale, above: boolean): Picture {
  const { size, width, height } = frame;
  const edge = above ? -height : 0;
  const out = above ? -1 : 1;
  const marks = ticks(frame.x, scale, width / (1.9 * textWidth('000', size)));
  const at = (value: number) => plotPoint(frame, [value, 0])[0];
  const base = above ? edge - TICK - 0.8 : TICK + 0.4 + size;
  return joined([
    lines(
      'visibleEdge',
      ...marks.map(({ value }): Point[] => [
        [at(value), edge],
        [at(value), edge + out * TICK],
      ]),
    ),
    ...marks.map(({ text, value }) => label({ text, at: [at(value), base], size })),
    label({ text: scale.unit, at: [width, base + out * 1.2 * size], size, anchor: 'end', letter: 'caption' }),
  ]);
}

function upTicks(frame: PlotFrame, scale: EdgeScale, beyond: boolean): Picture {
  const { size, width, height } = frame;
  const [edge, out] = beyond ? [width, 1] : [0, -1];
  const at = (value: number) => plotPoint(frame, [0, value])[1];
  const marks = ticks(frame.y, scale, height / (2.2 * size)).filter(
    ({ value }) => at(value) > -height + size,
  );
  const anchor = beyond ? 'start' : 'end';
  return joined([
    lines(
      'visibleEdge',
      ...marks.map(({ value }): Point[] => [
        [edge, at(value)],
        [edge + out * TICK, at(value)],
      ]),
    ),
    ...marks.map(({ text, value }) =>
      label({ text, at: [edge + out * (TICK + 0.8), at(value) + 0.36 * size], size, anchor }),
    ),
    label({
      ...{ text: scale.unit, at: [edge + out * (TICK + 0.8), -height + 0.36 * size] as Point },
      ...{ size, anchor, letter: 'caption' },
    }),
  ]);
}

/** The frame of a plot with ticks at round numbers on every edge that has a scale. */
export function plotFrame(frame: PlotFrame): Picture {
  return joined([
    { ...lines('visibleEdge', [...plotRing(frame), plotRing(frame)[0]!]) },
    acrossTicks(frame, frame.bottom, false),
    upTicks(frame, frame.left, false),
    ...(frame.top ? [acrossTicks(frame, frame.top, true)] : []),
    ...(frame.right ? [upTicks(frame, frame.right, true)] : []),
  ]);
}
