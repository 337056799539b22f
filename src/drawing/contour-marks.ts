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

type Edge = readonly [from: Point, to: Point];

/** Height of a band of an outline [mm]. */
const BAND = 1;

/** Edges of an outline, found by the bands across the paper that they reach into. */
class Outlined {
  readonly corners: readonly Point[];
  readonly #bands = new Map<number, Edge[]>();

  constructor(rings: Rings) {
    this.corners = rings.flat();
    for (const ring of rings) {
      let from = ring.at(-1);
      for (const to of ring) {
        const edge: Edge = [from ?? to, to];
        const [low, high] = [Math.min(edge[0][1], to[1]), Math.max(edge[0][1], to[1])];
        for (let band = Math.floor(low / BAND); band <= Math.floor(high / BAND); band++)
          this.#put(band, edge);
        from = to;
      }
    }
  }

  #put(band: number, edge: Edge): void {
    const edges = this.#bands.get(band);
    if (edges) edges.push(edge);
    else this.#bands.set(band, [edge]);
  }

  /** True for a point inside, holes told by crossing twice. */
  holds([x, y]: Point): boolean {
    let inside = false;
    for (const [[ax, ay], [bx, by]] of this.#bands.get(Math.floor(y / BAND)) ?? []) {
      if (ay > y !== by > y && x < ax + ((bx - ax) * (y - ay)) / (by - ay)) inside = !inside;
    }
    return inside;
  }

  /** True where an edge runs through a rectangle. */
  crosses(rect: Rect): boolean {
    for (let band = Math.floor(rect.top / BAND); band <= Math.floor(rect.bottom / BAND); band++) {
      for (const [from, to] of this.#bands.get(band) ?? []) {
        if (shareInside(from, to, rect) !== undefined) return true;
      }
    }
    return false;
  }
}

const wider = ({ left, top, right, bottom }: Rect, by: number): Rect => ({
  left: left - by,
  top: top - by,
  right: right + by,
  bottom: bottom + by,
});

/** The point inside an outline that is farthest from its corners; nothing when all hug it. */
function innermost(points: readonly Point[], outline: Outlined): Point | undefined {
  let best: { point?: Point; away: number } = { away: 0.4 };
  for (const point of points) {
    let away = Infinity;
    for (const [x, y] of outline.corners) {
      away = Math.min(away, Math.hypot(x - point[0], y - point[1]));
      if (away <= best.away) break;
    }
    if (away > best.away && outline.holds(point)) best = { point, away };
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
  outline: Outlined,
  before: readonly Label[],
): Label | undefined {
  for (const point of points) {
    if (!outline.holds(point)) continue;
    const [x, y] = point;
    const one: Label = { text, at: [x, y + 0.36 * size], size, anchor: 'middle', letter: 'halo' };
    const rect = wider(labelRect(one), 0.4);
    if (outline.crosses(rect)) continue;
    if (before.every((other) => !overlap(wider(rect, 0.6), labelRect(other)))) return one;
  }
  return undefined;
}

/**
 * Values written on contours: each at the first point of its line where the lettering stays inside the outline and
 * clear of the values before. A contour without such a point gets a note at the point that is farthest from the outline.
 */
export function contourMarks(contours: readonly Contour[], rings: Rings, size: number): ContourMarks {
  const outline = new Outlined(rings);
  const labels: Label[] = [];
  const notes: Note[] = [];
  for (const { text, rings: lines } of contours) {
    const points = lines.flat();
    const found = firstClear(points, text, size, outline, labels);
    const inner = found ? undefined : innermost(points, outline);
    if (found) labels.push(found);
    else if (inner) notes.push({ at: inner, text });
  }
  return { labels, notes };
}
