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
    ring.forEach(([bx, by], index) => {
      const [ax, ay] = ring.at(index - 1) ?? [bx, by];
      if (ay > y !== by > y && x < ax + ((bx - ax) * (y - ay)) / (by - ay)) inside = !inside;
    });
  }
  return inside;
}

function crossed(rect: Rect, rings: Rings): boolean {
  return rings.some((ring) =>
    ring.some((point, index) => shareInside(ring.at(index - 1) ?? point, point, rect) !== undefined),
  );
}

const wider = ({ left, top, right, bottom }: Rect, by: number): Rect => ({
  left: left - by,
  top: top - by,
  right: right + by,
  bottom: bottom + by,
});

/** The point that is farthest from the corners of an outline; nothing when all hug it. */
function innermost(points: readonly Point[], outline: Rings): Point | undefined {
  let best: { point?: Point; away: number } = { away: 0.4 };
  for (const point of points) {
    const away = Math.min(...outline.flat().map(([x, y]) => Math.hypot(x - point[0], y - point[1])));
    if (away > best.away) best = { point, away };
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

/**
 * Values written on contours: each at the first point of its line where the lettering stays inside the outline and
 * clear of the values before. A contour without such a point gets a note at the point that is farthest from the outline.
 */
export function contourMarks(contours: readonly Contour[], outline: Rings, size: number): ContourMarks {
  const labels: Label[] = [];
  const notes: Note[] = [];
  for (const { text, rings } of contours) {
    const points = rings.flat().filter((point) => insideRings(point, outline));
    const found = points
      .map(([x, y]): Label => ({ text, at: [x, y + 0.36 * size], size, anchor: 'middle', letter: 'halo' }))
      .find((one) => {
        const rect = wider(labelRect(one), 0.4);
        return (
          !crossed(rect, outline) && labels.every((other) => !overlap(wider(rect, 0.6), labelRect(other)))
        );
      });
    const inner = innermost(points, outline);
    if (found) labels.push(found);
    else if (inner) notes.push({ at: inner, text });
  }
  return { labels, notes };
}
