import type { Fill, Letter, Line } from './lines.ts';

/** A point on the paper: to the right and down from the upper left corner [mm]. */
export type Point = readonly [number, number];

/** Lines or an area on the paper. */
export interface Path {
  readonly line: Line;
  readonly fill: Fill;
  readonly closed: boolean;
  readonly runs: readonly (readonly Point[])[];
  /** A colour of a scale, `#rrggbb`, in place of the fill. */
  readonly tint?: string;
  /** Seen only inside these rings. */
  readonly clip?: readonly (readonly Point[])[];
}

/** A circle on the paper, radius [mm]. */
export interface Circle {
  readonly line: Line;
  readonly fill: Fill;
  readonly at: Point;
  readonly radius: number;
}

/** A line of lettering; `at` is on its baseline. */
export interface Label {
  readonly text: string;
  readonly at: Point;
  /** Height of the lettering [mm]. */
  readonly size: number;
  readonly anchor: 'start' | 'middle' | 'end';
  readonly letter: Letter;
  /** Upright, or turned to be read from the right. */
  readonly turned?: boolean;
}

/** Everything on a piece of paper. */
export interface Picture {
  readonly paths: readonly Path[];
  readonly circles: readonly Circle[];
  readonly labels: readonly Label[];
}

/** A rectangle on the paper [mm]. */
export interface Rect {
  readonly left: number;
  readonly top: number;
  readonly right: number;
  readonly bottom: number;
}

/** Nothing drawn. */
export const EMPTY: Picture = { paths: [], circles: [], labels: [] };

/** One picture of several, later ones on top. */
export function joined(pictures: readonly Picture[]): Picture {
  return {
    paths: pictures.flatMap(({ paths }) => paths),
    circles: pictures.flatMap(({ circles }) => circles),
    labels: pictures.flatMap(({ labels }) => labels),
  };
}

/** Open lines. */
export function lines(line: Line, ...runs: (readonly Point[])[]): Picture {
  return { ...EMPTY, paths: [{ line, fill: 'none', closed: false, runs }] };
}

/** A closed area. */
export function area(line: Line, fill: Fill, runs: readonly (readonly Point[])[]): Picture {
  return { ...EMPTY, paths: [{ line, fill, closed: true, runs }] };
}

/** A circle. */
export function circle(line: Line, fill: Fill, at: Point, radius: number): Picture {
  return { ...EMPTY, circles: [{ line, fill, at, radius }] };
}

/** One line of lettering. */
export function label(
  written: Omit<Label, 'anchor' | 'letter'> & Partial<Pick<Label, 'anchor' | 'letter'>>,
): Picture {
  return { ...EMPTY, labels: [{ anchor: 'middle', letter: 'text', ...written }] };
}

/** A picture moved to the right and down [mm]. */
export function moved(picture: Picture, right: number, down: number): Picture {
  const move = ([x, y]: Point): Point => [x + right, y + down];
  return {
    paths: picture.paths.map((path) => ({
      ...path,
      runs: path.runs.map((run) => run.map(move)),
      ...(path.clip && { clip: path.clip.map((ring) => ring.map(move)) }),
    })),
    circles: picture.circles.map((round) => ({ ...round, at: move(round.at) })),
    labels: picture.labels.map((text) => ({ ...text, at: move(text.at) })),
  };
}

const NARROW = new Set("iljtfrI.,:;'|!()[]/ ·-");
const BROAD = new Set('mwMW@%→↔—');

/**
 * Width of a line of lettering, never less than Arial or Barlow set it.
 *
 * @param text - what is written
 * @param size - its height [mm]
 * @returns its width [mm]
 */
export function textWidth(text: string, size: number): number {
  let ems = 0;
  for (const letter of text) {
    if (NARROW.has(letter)) ems += 0.34;
    else if (BROAD.has(letter)) ems += 0.95;
    else if (letter >= 'A' && letter <= 'Z') ems += 0.7;
    else ems += 0.57;
  }
  return ems * size;
}

/** The rectangle that a line of lettering covers [mm]. */
export function labelRect({ text, at: [x, y], size, anchor, turned = false }: Label): Rect {
  const width = textWidth(text, size);
  const before = { start: 0, middle: width / 2, end: width }[anchor];
  const up = 0.74 * size;
  const down = 0.2 * size;
  return turned
    ? { left: x - up, right: x + down, top: y - (width - before), bottom: y + before }
    : { left: x - before, right: x - before + width, top: y - up, bottom: y + down };
}

/** True when two rectangles share more than an edge. */
export function overlap(one: Rect, other: Rect): boolean {
  return one.left < other.right && other.left < one.right && one.top < other.bottom && other.top < one.bottom;
}

/** The rectangle around everything that is drawn [mm]; line widths left out. */
export function bounds(picture: Picture): Rect {
  const rects: Rect[] = picture.labels.map(labelRect);
  for (const { at, radius } of picture.circles) {
    rects.push({ left: at[0] - radius, right: at[0] + radius, top: at[1] - radius, bottom: at[1] + radius });
  }
  for (const [x, y] of picture.paths.flatMap(({ runs, clip }) => (clip ?? runs).flat())) {
    rects.push({ left: x, right: x, top: y, bottom: y });
  }
  const most = (pick: (rect: Rect) => number, better: (a: number, b: number) => number, start: number) =>
    rects.reduce((best, rect) => better(best, pick(rect)), start);
  return {
    left: most((rect) => rect.left, Math.min, Infinity),
    top: most((rect) => rect.top, Math.min, Infinity),
    right: most((rect) => rect.right, Math.max, -Infinity),
    bottom: most((rect) => rect.bottom, Math.max, -Infinity),
  };
}
