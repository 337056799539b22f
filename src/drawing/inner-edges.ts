import type { SeenEdges } from '../core/section/seen-edges.ts';
import { simplified } from './path.ts';
import { joined, lines, type Picture, type Point } from './picture.ts';
import { onPaper, type View } from './view.ts';

/** Edges stay this close to the true ones [mm on paper]. */
const TOLERANCE = 0.03;
/** Narrow lines of rounded edges end this far from the outline [mm]. */
const CLEAR = 0.8;
/** Parallel lines keep this distance. Source: ISO 128-2:2020, from memory [mm]. */
const APART = 0.7;
/** Shorter lines are left out [mm]. */
const SHORT = { wide: 0.8, narrow: 1.6 };

/** Places along lines, found by where they are. */
class Places {
  readonly #cells = new Map<number, Point[]>();
  readonly #reach: number;

  constructor(reach: number) {
    this.#reach = reach;
  }

  add(point: Point): void {
    const key = this.#keyOf(this.#row(point[0]), this.#row(point[1]));
    const cell = this.#cells.get(key);
    if (cell) cell.push(point);
    else this.#cells.set(key, [point]);
  }

  /** Whether a place lies within reach of any. */
  near([x, y]: Point): boolean {
    const [column, row] = [this.#row(x), this.#row(y)];
    for (let i = column - 1; i <= column + 1; i++) {
      for (let j = row - 1; j <= row + 1; j++) {
        for (const [px, py] of this.#cells.get(this.#keyOf(i, j)) ?? []) {
          if (Math.hypot(px - x, py - y) < this.#reach) return true;
        }
      }
    }
    return false;
  }

  #row(value: number): number {
    return Math.floor(value / this.#reach);
  }

  /** One number for a cell: papers are far narrower than a million cells. */
  #keyOf(column: number, row: number): number {
    return column * 2 ** 20 + row;
  }
}

/** A line with a point at least every so often [mm]. */
function paced(line: readonly Point[], step: number): Point[] {
  return line.flatMap((to, index) => {
    const from = line[index - 1];
    if (!from) return [to];
    const steps = Math.max(1, Math.ceil(Math.hypot(to[0] - from[0], to[1] - from[1]) / step));
    return Array.from({ length: steps }, (_, i): Point => {
      const share = (i + 1) / steps;
      return [from[0] + share * (to[0] - from[0]), from[1] + share * (to[1] - from[1])];
    });
  });
}

const lengthOf = (line: readonly Point[]) =>
  line.reduce((sum, [x, y], i) => {
    const [a, b] = line[i - 1] ?? [x, y];
    return sum + Math.hypot(x - a, y - b);
  }, 0);

/** The stretches of lines that keep clear of some places, long enough to draw. */
function clearOf(all: readonly (readonly Point[])[], taken: Places, short: number): Point[][] {
  const kept: Point[][] = [];
  for (const line of all) {
    let run: Point[] = [];
    for (const point of paced(line, 0.2)) {
      if (!taken.near(point)) run.push(point);
      else if (run.length > 0) {
        kept.push(run);
        run = [];
      }
    }
    kept.push(run);
  }
  return kept.filter((line) => lengthOf(line) >= short);
}

/** Lines that keep their distance from those before them for at least half of their length. */
function spaced(all: readonly (readonly Point[])[], taken: Places): (readonly Point[])[] {
  return all.filter((line) => {
    const places = paced(line, APART / 2);
    const crowded = places.filter((place) => taken.near(place)).length;
    if (2 * crowded > places.length) return false;
    for (const place of places) taken.add(place);
    return true;
  });
}

/**
 * Inner edges of a view: where the surface turns away from the eye as wide lines, ribs, eyes and other rounded edges as
 * narrow lines that end clear of the outline. Where they would run closer than 0.7 mm, grooves go before ridges, long before short.
 *
 * @param seen - edges [m]
 * @param outline - of the same view, on paper [mm]
 * @param view - from the model to the paper
 * Source: ISO 128-3:2022 (imaginary lines of intersection), ISO 128-2:2020 (spacing), from memory.
 */
export function innerEdges(seen: SeenEdges, outline: readonly (readonly Point[])[], view: View): Picture {
  const placed = (edges: SeenEdges['contours']) =>
    edges.map((line) => line.map((point) => onPaper(point, view)));
  const rim = new Places(CLEAR);
  for (const ring of outline) for (const place of paced([...ring, ring[0] ?? [0, 0]], 0.3)) rim.add(place);
  const wide = clearOf(placed(seen.contours), rim, SHORT.wide);
  const taken = new Places(APART);
  for (const place of wide.flatMap((line) => paced(line, APART / 2))) taken.add(place);
  const narrow = spaced(clearOf(placed([...seen.grooves, ...seen.ridges]), rim, SHORT.narrow), taken);
  const drawn = (all: readonly (readonly Point[])[]) => all.map((line) => simplified(line, TOLERANCE));
  return joined([lines('visibleEdge', ...drawn(narrow)), lines('visible', ...drawn(wide))]);
}
