import type { Line } from './lines.ts';
import {
  area,
  EMPTY,
  joined,
  label,
  labelRect,
  lines,
  overlap,
  textWidth,
  type Label,
  type Picture,
  type Point,
} from './picture.ts';

/** One curve of a plot, in the units of its axes, rising along the first. */
export interface Series {
  readonly points: readonly (readonly [number, number])[];
  readonly line: Line;
  /** True tints the area under it. */
  readonly filled?: boolean;
  /** Written beside its last point; none when the plot has one curve only. */
  readonly name?: string;
}

/** What a plot shows and the room it takes. */
export interface PlotInput {
  readonly series: readonly Series[];
  /** Under the axis from left to right. */
  readonly along: string;
  /** Between the axes [mm on paper]. */
  readonly width: number;
  readonly height: number;
  /** Height of lettering [mm]. */
  readonly size: number;
}

const TICK = 1.2;

/** Step between ticks: 1, 2 or 5 times a power of ten, so that there are at most `most` steps up to `end`. */
export function tickStep(end: number, most: number): number {
  const rough = end / most;
  const power = 10 ** Math.floor(Math.log10(rough));
  return power * (([1, 2, 5].find((times) => times * power >= rough * (1 - 1e-9)) ?? 10) as number);
}

const shown = (value: number, step: number) =>
  value.toFixed(Math.max(0, -Math.floor(Math.log10(step) + 1e-9)));

const ticksTo = (end: number, step: number): number[] =>
  Array.from({ length: Math.floor(end / step + 1e-9) + 1 }, (_, index) => index * step);

/** Names beside the ends of their curves, moved down where one would cover another. */
function names(
  series: readonly Series[],
  at: (point: readonly [number, number]) => Point,
  size: number,
): Picture {
  const placed: Label[] = [];
  for (const { name, points } of series) {
    const last = points.at(-1);
    if (!name || !last) continue;
    const [x, y] = at(last);
    let text: Label = { text: name, at: [x + 1.2, y + 0.36 * size], size, anchor: 'start', letter: 'halo' };
    while (placed.some((other) => overlap(labelRect(other), labelRect(text)))) {
      text = { ...text, at: [text.at[0], text.at[1] + size / 4] };
    }
    placed.push(text);
  }
  return { ...EMPTY, labels: placed };
}

/**
 * Curves over two axes that both begin at zero, with ticks at round numbers; the corner of the axes at the origin.
 *
 * @param input - curves, words of the axes, room [mm]
 */
export function plot({ series, along, width, height, size }: PlotInput): Picture {
  const all = series.flatMap(({ points }) => points);
  const [endX, mostY] = [0, 1].map((axis) => Math.max(...all.map((point) => point[axis] ?? 0))) as [
    number,
    number,
  ];
  const [stepX, stepY] = [
    tickStep(endX, width / (2.2 * textWidth('100', size))),
    tickStep(mostY, height / (2 * size)),
  ];
  const endY = Math.ceil(mostY / stepY - 1e-9) * stepY;
  const at = ([x, y]: readonly [number, number]): Point => [(x / endX) * width, (-y / endY) * height];
  const levels = ticksTo(endY, stepY);
  return joined([
    ...series.map(({ line, points, filled }) =>
      filled ? area(line, 'plastic', [points.map(at)]) : lines(line, points.map(at)),
    ),
    lines('visibleEdge', [at([0, endY]), [0, 0], [width, 0]]),
    lines(
      'visibleEdge',
      ...ticksTo(endX, stepX).map((x): Point[] => [at([x, 0]), [at([x, 0])[0], TICK]]),
      ...levels.map((y): Point[] => [[-TICK, at([0, y])[1]], at([0, y])]),
    ),
    ...ticksTo(endX, stepX).map((x) =>
      label({ text: shown(x, stepX), at: [at([x, 0])[0], TICK + 0.4 + size], size }),
    ),
    ...levels.map((y) =>
      label({ text: shown(y, stepY), at: [-TICK - 0.8, at([0, y])[1] + 0.36 * size], size, anchor: 'end' }),
    ),
    label({ text: along, at: [width, TICK + 1.2 + 2.2 * size], size, anchor: 'end', letter: 'caption' }),
    names(series, at, size),
  ]);
}
