import type { FillWindow } from '../sheet/fill-outlook.ts';
import { regions } from './contours.ts';
import { finished, type Drawing, type DrawingOptions } from './drawing.ts';
import { LAYOUTS, type LayoutSizes } from './layout.ts';
import { simplifiedRing } from './path.ts';
import {
  area,
  circle,
  EMPTY,
  joined,
  label,
  labelRect,
  lines,
  moved,
  overlap,
  textWidth,
  type Label,
  type Path,
  type Picture,
  type Point,
} from './picture.ts';
import {
  celsiusScale,
  fahrenheitScale,
  plotFrame,
  plotPoint,
  plotRing,
  type PlotFrame,
} from './plot-frame.ts';
import type { Projection, TitleBlock } from './title-block.ts';

/** What an operating window is drawn from; temperatures [K]. */
export interface WindowPlotInput {
  readonly name: string;
  readonly window: FillWindow;
  /** The compound's own coolest and hottest pour, and where it may break down. */
  readonly pour: { readonly low: number; readonly nominal: number; readonly high: number };
  readonly degradation: number;
  readonly molds: { readonly cold: number; readonly warm: number };
  readonly projection: Projection;
  readonly titleBlock?: TitleBlock | undefined;
}

/** Reserves that are drawn [1]. */
const LEVELS = [0.6, 0.8, 1, 1.25, 1.5, 2, 2.5, 3, 4, 5, 6, 8];

/** Lines stay this close to the computed ones [mm on paper]. */
const TOLERANCE = 0.05;

/** Rings where a reserve is reached, on the paper. */
function reached(frame: PlotFrame, window: FillWindow, values: readonly number[], level: number): Point[][] {
  const { pours, molds } = window;
  const grid = { nx: pours.length, ny: molds.length, x0: 0, y0: 0, cell: 1 };
  const [found] = regions({ ...grid, values: Float64Array.from(values) }, [level]);
  const across = (pours.at(-1)! - pours[0]!) / (pours.length - 1);
  const up = (molds.at(-1)! - molds[0]!) / (molds.length - 1);
  return (found?.rings ?? []).map((ring) =>
    simplifiedRing(
      ring.map(([i, j]) => plotPoint(frame, [pours[0]! + i * across, molds[0]! + j * up])),
      TOLERANCE,
    ),
  );
}

/** A level's line inside the plot, and its value at the point nearest the middle of it that keeps clear. */
function valued(frame: PlotFrame, rings: readonly (readonly Point[])[], text: string, taken: Label[]): void {
  const { width, height, size } = frame;
  const inside = rings
    .flat()
    .filter(([x, y]) => x > 5 && x < width - 5 && y < -2 * size && y > -height + 2 * size)
    .sort((a, b) => Math.abs(a[1] + 0.45 * height) - Math.abs(b[1] + 0.45 * height));
  for (const [x, y] of inside) {
    const one: Label = { text, at: [x, y + 0.36 * size], size, anchor: 'middle', letter: 'halo' };
    if (taken.some((other) => overlap(labelRect(other), labelRect(one)))) continue;
    taken.push(one);
    return;
  }
}

function limits(frame: PlotFrame, { pour, degradation }: WindowPlotInput): Picture {
  const all = [
    { at: pour.low, word: 'fused' },
    { at: pour.high, word: 'hottest' },
    ...(degradation > pour.high + 2 ? [{ at: degradation, word: 'breaks down' }] : []),
  ].filter(({ at }) => at > frame.x[0] && at < frame.x[1]);
  const { size, height } = frame;
  const x = (at: number) => plotPoint(frame, [at, 0])[0];
  return joined([
    lines(
      'cutting',
      ...all.map(({ at }): Point[] => [
        [x(at), 0],
        [x(at), -height],
      ]),
    ),
    ...all.map(({ at, word }) =>
      label({
        text: word,
        at: [x(at) - 0.8, -height + 1.5 + textWidth(word, size) / 2],
        size,
        turned: true,
        letter: 'halo',
      }),
    ),
  ]);
}

/** Pours that the compound does not stand, greyed. */
function outside(frame: PlotFrame, { pour }: WindowPlotInput): Picture {
  const { width, height } = frame;
  const [low, high] = [pour.low, pour.high].map((at) => plotPoint(frame, [at, 0])[0]) as [number, number];
  const strip = (from: number, to: number): Point[] => [[from, 0], [to, 0], [to, -height], [from, -height]]; // prettier-ignore
  return area('none', 'metal', [strip(0, low), strip(high, width)]);
}

function points(frame: PlotFrame, { pour, molds }: WindowPlotInput, taken: Label[]): Picture {
  const marks = (['cold', 'warm'] as const).map((word) => {
    const at = plotPoint(frame, [pour.nominal, molds[word]]);
    const text = `${word} mold`;
    taken.push({
      ...{ text, at: [at[0] + 2, at[1] + 0.36 * frame.size] as Point, size: frame.size },
      ...{ anchor: 'start', letter: 'halo' },
    });
    return circle('visible', 'ink', at, 0.9);
  });
  return joined(marks);
}

function windowPicture(frame: PlotFrame, input: WindowPlotInput): Picture {
  const { window } = input;
  const clip = [plotRing(frame)];
  const taken: Label[] = [];
  const marks = points(frame, input, taken);
  const path = (line: Path['line'], fill: Path['fill'], runs: readonly (readonly Point[])[]): Path => ({
    ...{ line, fill, runs, closed: true, clip },
  });
  const sure = reached(frame, window, window.adverse, 1);
  const levels = LEVELS.map((level) => ({ level, rings: reached(frame, window, window.nominal, level) }));
  valued(frame, sure, 'sure', taken);
  for (const { level, rings } of levels) valued(frame, rings, `${level}`, taken);
  const fills = levels.find(({ level }) => level === 1)?.rings ?? [];
  return joined([
    { ...EMPTY, paths: [path('none', 'plastic', fills)] },
    outside(frame, input),
    {
      ...EMPTY,
      paths: [
        ...levels.map(({ level, rings }) => path(level === 1 ? 'visible' : 'contour', 'none', rings)),
        path('hidden', 'none', sure),
      ].filter(({ runs }) => runs.length > 0),
    },
    limits(frame, input),
    marks,
    { ...EMPTY, labels: taken },
    plotFrame(frame),
  ]);
}

/** Signs of the plot with their words, one below the other. */
function legend(sizes: LayoutSizes): Picture {
  const size = sizes.small;
  const box: Point[] = [[0, -2.4], [6, -2.4], [6, 0], [0, 0]]; // prettier-ignore
  const stroke: Point[] = [[0, -1.1], [6, -1.1]]; // prettier-ignore
  const rows: readonly (readonly [Picture, string])[] = [
    [area('visibleEdge', 'plastic', [box]), 'fills with the usual plastic and push'],
    [lines('hidden', stroke), 'sure: fills even at the adverse end'],
    [lines('contour', stroke), 'lines of equal reserve'],
    [area('visibleEdge', 'metal', [box]), 'outside the compound’s own limits'],
  ];
  return joined(
    rows.map(([sign, text], k) =>
      moved(
        joined([sign, label({ text, at: [8, 0], size, anchor: 'start' })]),
        sizes.margin + 8,
        k * (size + 1.6),
      ),
    ),
  );
}

const both = (kelvin: number) =>
  `${celsiusScale.shown(kelvin).toFixed(0)} °C / ${fahrenheitScale.shown(kelvin).toFixed(0)} °F`;

/**
 * The operating window: pour temperature against mold temperature with lines of equal fill reserve, the compound's own
 * limits, and the cold and the warm mold at the usual pour.
 *
 * @param input - reserves over both temperatures [K, 1] and limits [K]
 * @param options - layout, id prefix, colours of a file of its own
 */
export function windowPlot(input: WindowPlotInput, options: DrawingOptions): Drawing {
  const sizes = LAYOUTS[options.layout];
  const size = sizes.small;
  const { pours, molds } = input.window;
  const left = sizes.margin + textWidth('°C00', size) + 2;
  const frame: PlotFrame = {
    x: [pours[0]!, pours.at(-1)!],
    y: [molds[0]!, molds.at(-1)!],
    width: sizes.width - left - sizes.margin - textWidth('°F00', size) - 2,
    height: sizes.views * (options.layout === 'wide' ? 0.75 : 0.9),
    ...{ size, bottom: celsiusScale, left: celsiusScale, top: fahrenheitScale, right: fahrenheitScale },
  };
  const { name, pour, projection, titleBlock } = input;
  return finished(
    {
      title: `${name}: operating window`,
      desc: `Pour temperature from left to right against mold temperature upwards, with lines of equal fill reserve. Tinted where every part fills with the usual plastic and push; a dashed line bounds where it fills even at the adverse end. Pours under ${both(pour.low)} are not fused, pours over ${both(pour.high)} are too hot.`,
      blocks: [
        {
          caption: 'Mold temperature (up) against pour (across)',
          picture: moved(windowPicture(frame, input), left, 0),
        },
        { picture: legend(sizes) },
      ],
      scale: 'none',
      dimensions: [],
      projection,
      titleBlock,
    },
    options,
  );
}
