import type { Line } from './lines.ts';
import { labelRect, type Path, type Picture, type Point, type Rect } from './picture.ts';

/** Lines that give way to lettering; outlines never do. */
const GIVES_WAY: ReadonlySet<Line> = new Set([
  'dimension',
  'leader',
  'centre',
  'cutting',
  'hatch',
  'contour',
]);
const CLEARANCE = 0.4;

/** The share of a segment that lies in a rectangle, as start and end between 0 and 1; nothing when none does. */
export function shareInside(
  [ax, ay]: Point,
  [bx, by]: Point,
  rect: Rect,
): readonly [number, number] | undefined {
  const across = clipped(0, 1, ax, bx - ax, rect.left, rect.right);
  return across && clipped(across[0], across[1], ay, by - ay, rect.top, rect.bottom);
}

/** The part of a share of a segment that lies between two values along one axis. */
function clipped(
  from: number,
  to: number,
  start: number,
  delta: number,
  low: number,
  high: number,
): readonly [number, number] | undefined {
  if (Math.abs(delta) < 1e-9) return start <= low || start >= high ? undefined : [from, to];
  const [one, other] = [(low - start) / delta, (high - start) / delta];
  const first = Math.max(from, Math.min(one, other));
  const last = Math.min(to, Math.max(one, other));
  return first < last ? [first, last] : undefined;
}

/** The parts of a segment outside all rectangles. */
function visibleParts(a: Point, b: Point, rects: readonly Rect[]): (readonly [Point, Point])[] {
  const gaps = rects
    .map((rect) => shareInside(a, b, rect))
    .filter((gap) => gap !== undefined)
    .sort((one, other) => one[0] - other[0]);
  const at = (share: number): Point => [a[0] + (b[0] - a[0]) * share, a[1] + (b[1] - a[1]) * share];
  const parts: (readonly [Point, Point])[] = [];
  let free = 0;
  for (const [from, to] of [...gaps, [1, 1] as const]) {
    if (from - free > 1e-6) parts.push([at(free), at(from)]);
    free = Math.max(free, to);
  }
  return parts;
}

/** A run cut where lettering stands; pieces that still meet stay one run. */
function cutRun(run: readonly Point[], rects: readonly Rect[]): Point[][] {
  const pieces: Point[][] = [];
  run.slice(1).forEach((end, index) => {
    for (const [from, to] of visibleParts(run[index] ?? end, end, rects)) {
      const last = pieces.at(-1);
      const tail = last?.at(-1);
      if (last && tail && Math.hypot(tail[0] - from[0], tail[1] - from[1]) < 1e-6) last.push(to);
      else pieces.push([from, to]);
    }
  });
  return pieces;
}

/**
 * A picture whose narrow lines are interrupted where lettering stands.
 * Source: ISO 128-2:2020 and ISO 129-1:2018, lettering is not crossed by lines, from memory.
 */
export function interrupted(picture: Picture): Picture {
  const rects = picture.labels.map(labelRect).map(({ left, top, right, bottom }) => ({
    left: left - CLEARANCE,
    top: top - CLEARANCE / 4,
    right: right + CLEARANCE,
    bottom: bottom + CLEARANCE / 4,
  }));
  const cut = (path: Path): Path =>
    path.closed || !GIVES_WAY.has(path.line)
      ? path
      : { ...path, runs: path.runs.flatMap((run) => cutRun(run, rects)) };
  return { ...picture, paths: picture.paths.map(cut) };
}
