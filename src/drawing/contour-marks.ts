import { shareInside } from './interrupt.ts';
import type { Note } from './leader.ts';
import { labelRect, overlap, type Label, type Point, type Rect } from './picture.ts';

type Rings = readonly (readonly Point[])[];

/** Area that a ring encloses [mm²], signed. */
export const ringArea = (ring: readonly Point[]) =>
  ring.reduce((sum, [x, y], index) => {
    const [nx, ny] = ring[(index + 1) % ring.length] ?? [x, y];
    return sum + (x * ny - nx * y) / 2;
  }, 0);

/** True for a point inside rings, holes told by crossing twice. */
export function insideRings([x, y]: Point, rings: Rings): boolean {
  let inside = false;
  for (const ring of rings) {
    let [ax, ay] = ring.at(-1) ?? [x, y];
    for (const [bx, by] of ring) {
      if (ay > y !== by > y && x < ax + ((bx - ax) * (y - ay)) / (by - ay)) inside = !inside;
      [ax, ay] = [bx, by];
    }
  }
  return inside;
}

function crossed(rect: Rect, rings: Rings): boolean {
  return rings.some((ring) => {
    let before = ring.at(-1);
    return ring.some((point) => {
      const from = before ?? point;
      before = point;
      return meets(from, point, rect) && shareInside(from, point, rect) !== undefined;
    });
  });
}

/** Whether the box of a segment reaches a rectangle: if not, the segment does not either. */
const meets = ([ax, ay]: Point, [bx, by]: Point, { left, top, right, bottom }: Rect): boolean =>
  !((ax < left && bx < left) || (ax > right && bx > right) || (ay < top && by < top) || (ay > bottom && by > bottom)); // prettier-ignore

const wider = ({ left, top, right, bottom }: Rect, by: number): Rect => ({
  left: left - by,
  top: top - by,
  right: right + by,
  bottom: bottom + by,
});

/** The point inside an outline that is farthest from its corners; nothing when all hug it. */
function innermost(points: readonly Point[], outline: Rings): Point | undefined {
  const corners = outline.flat();
  let best: { point?: Point; away: number } = { away: 0.4 };
  for (const point of points) {
    let away = Infinity;
    for (const [x, y] of corners) {
      away = Math.min(away, Math.hypot(x - point[0], y - point[1]));
      if (away <= best.away) break;
    }
    if (away > best.away && insideRings(point, outline)) best = { point, away };
  }
  return best.point;
}

/** A contour line on the paper and its value as written. */
export interface Contour {
  readonly text: string;
  readonly rings: Rings;
}

/** Values that stand on their contours, and those that have to stand beside the view. */
export interface ContourMarks {
  readonly labels: readonly Label[];
  readonly notes: readonly Note[];
}

/** A value at the first point where it stays inside the outline and clear of the values before. */
function firstClear(
  points: readonly Point[],
  text: string,
  size: number,
  outline: Rings,
  before: readonly Label[],
): Label | undefined {
  for (const point of points) {
    if (!insideRings(point, outline)) continue;
    const [x, y] = point;
    const one: Label = { text, at: [x, y + 0.36 * size], size, anchor: 'middle', letter: 'halo' };
    const rect = wider(labelRect(one), 0.4);
    if (crossed(rect, outline)) continue;
    if (before.every((other) => !overlap(wider(rect, 0.6), labelRect(other)))) return one;
  }
  return undefined;
}

/**
 * Values written on contours: each at the first point of its line where the lettering stays inside the outline and
 * clear of the values before. A contour without such a point gets a note at the point that is farthest from the outline.
 */
export function contourMarks(contours: readonly Contour[], outline: Rings, size: number): ContourMarks {
  const labels: Label[] = [];
  const notes: Note[] = [];
  for (const { text, rings } of contours) {
    const points = rings.flat();
    const found = firstClear(points, text, size, outline, labels);
    const inner = found ? undefined : innermost(points, outline);
    if (found) labels.push(found);
    else if (inner) notes.push({ at: inner, text });
  }
  return { labels, notes };
}
