import { contours } from 'd3-contour';

/** A quantity on a grid over a plan view: cell (i, j) is entry i + nx·j, its middle at x0 + i·cell, y0 + j·cell [m]. */
export interface Grid {
  readonly nx: number;
  readonly ny: number;
  readonly x0: number;
  readonly y0: number;
  readonly cell: number;
  /** 0 where there is nothing. */
  readonly values: Float64Array;
}

/** Rings of the area where a grid's quantity is at least `level`, in the grid's frame [m]. */
export interface Region {
  readonly level: number;
  readonly rings: readonly (readonly (readonly [number, number])[])[];
}

/**
 * Cells beside the bait take the mean of their neighbours that have a value, round by round outwards, so that contours run
 * straight over its edge. The margin is as wide as there are rounds: no value reaches the rim of the grid before the last.
 */
function spread({ nx, ny, values }: Grid, margin: number): Float64Array {
  const width = nx + 2 * margin;
  const filled = new Float64Array(width * (ny + 2 * margin));
  for (let j = 0; j < ny; j++) {
    filled.set(values.subarray(nx * j, nx * j + nx), margin + width * (j + margin));
  }
  const beside = [-1, 1, -width, width];
  let rim: number[] = [];
  for (let place = 0; place < filled.length; place++) if (filled[place]! > 0) rim.push(place);
  for (let round = 0; round < margin; round++) {
    const next = new Map<number, number>();
    for (const place of rim) {
      for (const step of beside) {
        const other = place + step;
        if (!(filled[other]! > 0) && !next.has(other)) next.set(other, meanBeside(filled, other, beside));
      }
    }
    for (const [place, value] of next) filled[place] = value;
    rim = [...next.keys()];
  }
  return filled;
}

function meanBeside(filled: Float64Array, place: number, beside: readonly number[]): number {
  let [sum, count] = [0, 0];
  for (const step of beside) {
    const value = filled[place + step] ?? 0;
    if (value > 0) [sum, count] = [sum + value, count + 1];
  }
  return sum / count;
}

/** How far values are spread beyond the bait [cells]; outlines cut the rest off. */
const MARGIN = 4;

/**
 * Where a quantity reaches each of some levels.
 *
 * @param grid - the quantity; cells of 0 are beside the bait
 * @param levels - rising, in the unit of the quantity
 * @returns regions that also reach a little beyond the bait: they are to be seen through its outline
 *
 * Source: marching squares with linear interpolation, by d3-contour.
 */
export function regions(grid: Grid, levels: readonly number[]): Region[] {
  const { x0, y0, cell } = grid;
  const size: [number, number] = [grid.nx + 2 * MARGIN, grid.ny + 2 * MARGIN];
  const values = Array.from(spread(grid, MARGIN));
  const real = ([i = 0, j = 0]: readonly number[]) =>
    [x0 + (i - MARGIN - 0.5) * cell, y0 + (j - MARGIN - 0.5) * cell] as const;
  return contours()
    .size(size)
    .thresholds([...levels])(values)
    .map(({ value, coordinates }) => ({
      level: value,
      // The last point of a GeoJSON ring repeats the first.
      rings: coordinates.flat().map((ring) => ring.slice(0, -1).map(real)),
    }));
}

/** Preferred numbers of the series R10, one decade. Source: ISO 3:1973. */
const R10 = [1, 1.25, 1.6, 2, 2.5, 3.15, 4, 5, 6.3, 8];

/**
 * Preferred numbers inside a span: every one of the series R10, or every second (R5) where that gives more than `most`.
 * Even steps in the ratio part thin places as finely as thick ones.
 *
 * @param low - above 0
 * @param high - same unit
 * @returns rising levels
 * Source: ISO 3:1973.
 */
export function preferredLevels(low: number, high: number, most: number): number[] {
  const decades = Array.from({ length: 12 }, (_, index) => index - 6);
  const all = decades.flatMap((decade) =>
    R10.map((step, index) => ({
      level: Number((step * 10 ** decade).toPrecision(6)),
      main: index % 2 === 0,
    })),
  );
  const inside = all.filter(({ level }) => level > low && level < high);
  return (inside.length > most ? inside.filter(({ main }) => main) : inside).map(({ level }) => level);
}
