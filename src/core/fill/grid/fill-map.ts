import type { CavityFill } from './fill-cavity.ts';
import { laidOut, type LaidOut } from './laid-out.ts';

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
  const { map, place: places, filledAt, stage } = laidOut(fill);
  const { nx, ny, x0, y0, cell } = map;
  const time = new Float64Array(nx * ny).fill(NaN);
  const short = new Uint8Array(nx * ny);
  places.forEach((place, k) => {
    if (stage[k] === 2) time[place] = Math.min(filledAt[k]!, fill.time);
    else short[place] = 1;
  });
  return { nx, ny, x0, y0, cell, time, short, end: fill.time };
}

const centre = ({ map, place }: LaidOut, cell: number): [number, number] => {
  const own = place[cell]!;
  return [map.x0 + (own % map.nx) * map.cell, map.y0 + Math.floor(own / map.nx) * map.cell];
};

/** Steps on the grid no longer than a radius in cells. */
function offsets(radius: number): [across: number, up: number][] {
  const reach = Math.floor(radius);
  const along = Array.from({ length: 2 * reach + 1 }, (_, k) => k - reach);
  const all = along.flatMap((up) => along.map((across): [number, number] => [across, up]));
  // Centres as far apart as the radius count, whatever the rounding of their places.
  return all.filter(([across, up]) => Math.hypot(across, up) <= radius * (1 + 1e-9));
}

/**
 * Places that filled after everything around them: where air is caught and vents belong.
 *
 * @param fill - a run
 * @param radius - how far around nothing filled later [m]
 * @returns places and times [m, s], latest first; cells left short count as filled last of all, at the end of the run
 *
 * Cost: local peaks times the cells within the radius.
 * Source: definition.
 */
export function lastPlaces(fill: CavityFill, radius: number): LastPlace[] {
  const laid = laidOut(fill);
  const { neighbours, map, place, cellAt, stage, filledAt, share } = laid;
  const when = Float64Array.from(place, (_, cell) =>
    stage[cell] === 2 ? filledAt[cell]! : fill.time + 1 - share[cell]!,
  );
  const disc = offsets(radius / map.cell);
  const lastOf = (cell: number) => {
    const [i, j] = [place[cell]! % map.nx, Math.floor(place[cell]! / map.nx)];
    return disc.every(([a, b]) => {
      if (i + a < 0 || i + a >= map.nx || j + b < 0 || j + b >= map.ny) return true;
      const other = cellAt[i + a + map.nx * (j + b)]!;
      return other < 0 || when[other]! <= when[cell]!;
    });
  };
  const peaks: number[] = [];
  for (let cell = 0; cell < place.length; cell++) {
    const around = neighbours.subarray(4 * cell, 4 * cell + 4);
    if (around.every((other) => other < 0 || when[other]! <= when[cell]!)) peaks.push(cell);
  }
  peaks.sort((a, b) => when[b]! - when[a]!);
  const kept: LastPlace[] = [];
  for (const cell of peaks.filter(lastOf)) {
    const [x, y] = centre(laid, cell);
    const apart = kept.every((other) => Math.hypot(other.x - x, other.y - y) > radius);
    if (apart) kept.push({ x, y, time: Math.min(when[cell]!, fill.time) });
  }
  return kept;
}

/** Mean direction from which melt came into a cell, and its share of all that came [1]. */
function cameAlong({ cameFrom }: LaidOut, cell: number): readonly [number, number] {
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
  const laid = laidOut(fill);
  const { stage, filledAt, neighbours } = laid;
  const half = laid.map.cell / 2;
  const found: WeldStretch[] = [];
  for (let cell = 0; cell < laid.place.length; cell++) {
    if (stage[cell] !== 2) continue;
    // East and north only, so that each edge is seen once.
    for (const side of [0, 2]) {
      const other = neighbours[4 * cell + side]!;
      if (other < 0 || stage[other] !== 2) continue;
      const axis = side === 0 ? 0 : 1;
      const meeting = cameAlong(laid, cell)[axis] - cameAlong(laid, other)[axis];
      if (meeting < HEAD_ON) continue;
      const [x, y] = centre(laid, cell);
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
