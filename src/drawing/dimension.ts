import { area, joined, label, lines, textWidth, type Picture, type Point } from './picture.ts';

/** Sizes of dimensions on the paper [mm]. Source: ISO 129-1:2018, arrows 15° to 30°; lengths common practice. */
const ARROW = { length: 2.5, half: 0.4 };
const GAP = 0.8;
const OVERSHOOT = 1.5;
const ABOVE = 0.9;

/** A filled arrowhead (18°) whose tip touches `tip` and that points along `towards` (unit vector). */
export function arrowhead(
  tip: Point,
  towards: Point,
  line: 'dimension' | 'cuttingEnd' = 'dimension',
): Picture {
  const [x, y] = tip;
  const [dx, dy] = towards;
  const base: Point = [x - ARROW.length * dx, y - ARROW.length * dy];
  const wing = (side: number): Point => [base[0] - side * ARROW.half * dy, base[1] + side * ARROW.half * dx];
  return area('none', line === 'dimension' ? 'accent' : 'ink', [[tip, wing(1), wing(-1)]]);
}

/** Where a dimension is measured and where it is written. */
export interface Span {
  /** The two measured points [mm on paper]. */
  readonly from: Point;
  readonly to: Point;
  /** Position of the dimension line: its y for a horizontal one, its x for an upright one. */
  readonly line: number;
  readonly text: string;
  /** Height of the lettering [mm]. */
  readonly size: number;
}

/** Extension line from a measured point to the dimension line, gap at the start, overshoot at the end. */
function extension(at: number, line: number): [number, number] {
  const way = Math.sign(line - at) || 1;
  return [at + way * GAP, line + way * OVERSHOOT];
}

/** A horizontal dimension: text above its line, arrows inside when both fit, else outside, the text to the left. */
export function horizontal({ from, to, line, text, size }: Span): Picture {
  const [left, right] = from[0] <= to[0] ? [from, to] : [to, from];
  const room = right[0] - left[0];
  const width = textWidth(text, size);
  const inside = room >= width + 2 * ARROW.length;
  const between = room >= width + 0.5;
  const reach = inside ? 0 : 2 * ARROW.length;
  const way = inside ? -1 : 1;
  const start = left[0] - reach - (between ? 0 : width);
  const middle = between ? (left[0] + right[0]) / 2 : start + width / 2;
  return joined([
    ...[left, right].map(([x, y]) => {
      const [first, last] = extension(y, line);
      return lines('dimension', [
        [x, first],
        [x, last],
      ]);
    }),
    lines('dimension', [
      [start, line],
      [right[0] + reach, line],
    ]),
    arrowhead([left[0], line], [way, 0]),
    arrowhead([right[0], line], [-way, 0]),
    label({ text, at: [middle, line - ABOVE], size, letter: 'value' }),
  ]);
}

/** An upright dimension: text turned along its line when it fits, else level beside it. */
export function upright({ from, to, line, text, size }: Span): Picture {
  const [top, bottom] = from[1] <= to[1] ? [from, to] : [to, from];
  const room = bottom[1] - top[1];
  const inside = room >= 2 * ARROW.length + 1;
  const textFits = inside && room >= textWidth(text, size) + 2 * ARROW.length;
  const reach = inside ? 0 : 2 * ARROW.length;
  const way = inside ? -1 : 1;
  const middle = (top[1] + bottom[1]) / 2;
  return joined([
    ...[top, bottom].map(([x, y]) => {
      const [start, end] = extension(x, line);
      return lines('dimension', [
        [start, y],
        [end, y],
      ]);
    }),
    lines('dimension', [
      [line, top[1] - reach],
      [line, bottom[1] + reach],
    ]),
    arrowhead([line, top[1]], [0, way]),
    arrowhead([line, bottom[1]], [0, -way]),
    textFits
      ? label({ text, at: [line - ABOVE, middle], size, turned: true, letter: 'value' })
      : label({ text, at: [line + 2, middle + size * 0.36], size, anchor: 'start', letter: 'value' }),
  ]);
}
