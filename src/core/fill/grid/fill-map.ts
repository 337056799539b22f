import type { Cavity } from './cavity.ts';
import type { CavityFill } from './fill-cavity.ts';

/** A filling run laid out on the plan grid, for drawing. */
export interface FillMap {
  readonly nx: number;
  readonly ny: number;
  readonly x0: number;
  readonly y0: number;
  readonly cell: number;
  /** When each entry was full [s]; NaN outside the cavity and where it is left short. */
  readonly time: Float64Array;
  /** 1 where the cavity is left short. */
  readonly short: Uint8Array;
  /** Until it was full or stopped [s]. */
  readonly end: number;
}

/** A place on the plan and when it filled [m, s]. */
export interface LastPlace {
  readonly x: number;
  readonly y: number;
  readonly time: number;
}

/** A stretch between two cells in which fronts met, with the time of their meeting [m, s]. */
export interface WeldStretch {
  readonly from: readonly [number, number];
  readonly to: readonly [number, number];
  readonly time: number;
}

/**
 * Lays a filling run out on the plan grid.
 *
 * @param fill - a run
 * @returns filling time of each entry [s], and what is left short
 *
 * Cost: linear in the map.
 * Source: definition.
 */
export function fillMap(fill: CavityFill): FillMap {
  const { cavity, filledAt, stage } = fill.state;
  const { nx, ny, x0, y0, cell } = cavity.map;
  const time = new Float64Array(nx * ny).fill(NaN);
  const short = new Uint8Array(nx * ny);
  cavity.place.forEach((place, k) => {
    if (stage[k] === 2) time[place] = Math.min(filledAt[k]!, fill.time);
    else short[place] = 1;
  });
  return { nx, ny, x0, y0, cell, time, short, end: fill.time };
}

const centre = (cavity: Cavity, cell: number): [number, number] => {
  const { map, place } = cavity;
  const own = place[cell]!;
  return [map.x0 + (own % map.nx) * map.cell, map.y0 + Math.floor(own / map.nx) * map.cell];
};

/**
 * Places that filled after everything around them: where air is caught and vents belong.
 *
 * @param fill - a run
 * @param radius - how far around nothing filled later [m]
 * @returns places and times [m, s], latest first; cells left short count as filled last of all, at the end of the run
 *
 * Cost: cells times local peaks.
 * Source: definition.
 */
export function lastPlaces(fill: CavityFill, radius: number): LastPlace[] {
  const { cavity, stage, filledAt } = fill.state;
  const when = (cell: number) =>
    stage[cell] === 2 ? filledAt[cell]! : fill.time + 1 - fill.state.share[cell]!;
  const peaks: (LastPlace & { readonly order: number })[] = [];
  for (let cell = 0; cell < cavity.count; cell++) {
    const own = when(cell);
    const around = [...cavity.neighbours.subarray(4 * cell, 4 * cell + 4)].filter((other) => other >= 0);
    if (around.some((other) => when(other) > own)) continue;
    const [x, y] = centre(cavity, cell);
    peaks.push({ x, y, time: Math.min(own, fill.time), order: own });
  }
  peaks.sort((a, b) => b.order - a.order);
  const middles = Array.from({ length: cavity.count }, (_, cell) => centre(cavity, cell));
  const lastOf = ({ x, y, order }: (typeof peaks)[number]) =>
    middles.every(([u, v], cell) => Math.hypot(u - x, v - y) > radius || when(cell) <= order);
  const kept: LastPlace[] = [];
  for (const { x, y, time } of peaks.filter(lastOf)) {
    if (kept.every((other) => Math.hypot(other.x - x, other.y - y) > radius)) kept.push({ x, y, time });
  }
  return kept;
}

/** Mean direction from which melt came into a cell, and its share of all that came [1]. */
function cameAlong(fill: CavityFill, cell: number): readonly [number, number] {
  const { cameFrom } = fill.state;
  const [east, west, north, south] = cameFrom.subarray(4 * cell, 4 * cell + 4) as unknown as [
    number,
    number,
    number,
    number,
  ];
  const [x, y] = [west - east, south - north];
  const length = Math.hypot(x, y);
  return length > 0 ? [x / length, y / length] : [0, 0];
}

/** Fronts that ran against each other across an edge by at least this much: two unit directions differ by it [1]. */
const HEAD_ON = 1.2;

/**
 * Weld lines: edges between cells that were filled from opposite sides.
 *
 * @param fill - a run
 * @returns edges with the time of meeting [m, s]; neighbours join up into lines
 *
 * Valid: fronts that meet at more than about 75°; finer than a cell nothing is told.
 * Cost: linear in the cells.
 * Source: fronts meeting head-on; the term after any text on mold filling; angle: own choice.
 */
export function weldStretches(fill: CavityFill): WeldStretch[] {
  const { cavity, stage, filledAt } = fill.state;
  const half = cavity.map.cell / 2;
  const found: WeldStretch[] = [];
  for (let cell = 0; cell < cavity.count; cell++) {
    if (stage[cell] !== 2) continue;
    // East and north only, so that each edge is seen once.
    for (const side of [0, 2]) {
      const other = cavity.neighbours[4 * cell + side]!;
      if (other < 0 || stage[other] !== 2) continue;
      const axis = side === 0 ? 0 : 1;
      const meeting = cameAlong(fill, cell)[axis] - cameAlong(fill, other)[axis];
      if (meeting < HEAD_ON) continue;
      const [x, y] = centre(cavity, cell);
      const [from, to]: [[number, number], [number, number]] =
        axis === 0
          ? [
              [x + half, y - half],
              [x + half, y + half],
            ]
          : [
              [x - half, y + half],
              [x + half, y + half],
            ];
      found.push({ from, to, time: Math.max(filledAt[cell]!, filledAt[other]!) });
    }
  }
  return found;
}
