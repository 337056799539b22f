import { squaredDistances } from '../../numeric/distance-field.ts';
import { positive } from '../../quantity/guard.ts';

/** The part of a height map that filling needs: cell (i, j) is entry i + nx·j, its middle at x0 + i·cell, y0 + j·cell [m]. */
export interface CavityMap {
  readonly nx: number;
  readonly ny: number;
  readonly x0: number;
  readonly y0: number;
  readonly cell: number;
  /** Cavity height, 0 outside [m]. */
  readonly height: Float64Array;
  /** Local thickness of the solid [m]; plan widths stand in when left out. */
  readonly thickness?: Float64Array;
  /** Local width in the plan [m]; worked out by `planWidths` when left out. */
  readonly width?: Float64Array;
}

/** Squared distance in cells from every cell to the nearest one outside the cavity; the rim of the map counts as outside. */
function outsideDistances(map: CavityMap): Float64Array {
  const [wide, tall] = [map.nx + 2, map.ny + 2];
  const rimmed = (place: number) => (place % map.nx) + 1 + wide * (Math.floor(place / map.nx) + 1);
  const outside = new Uint8Array(wide * tall).fill(1);
  map.height.forEach((height, place) => {
    if (height > 0) outside[rimmed(place)] = 0;
  });
  const field = squaredDistances([wide, tall, 1], outside);
  return Float64Array.from(map.height, (_, place) => field[rimmed(place)]!);
}

/**
 * Local width of the cavity in the plan: diameter of the largest disc inside the outline that reaches over a cell.
 *
 * @param map - cavity heights [m]
 * @returns width of each cell [m], 0 outside; low by up to two cells
 * @throws {RangeError} when the pitch is not positive
 *
 * Valid: widths of two cells or more.
 * Cost: linear in the cells, plus each disc that is not inside a larger neighbour's.
 * Source: distances as `squaredDistances`; local thickness after Hildebrand & Rüegsegger,
 * J. Microscopy 185 (1997); from memory.
 */
export function planWidths(map: CavityMap): Float64Array {
  positive('planWidths: cell', map.cell);
  const squared = outsideDistances(map);
  const widths = new Float64Array(map.nx * map.ny);
  for (let place = 0; place < widths.length; place++) {
    if (!(map.height[place]! > 0)) continue;
    const [i, j] = [place % map.nx, Math.floor(place / map.nx)];
    const radius = Math.sqrt(squared[place]!);
    // The outline runs half-way between the last cell inside and the first outside.
    const width = (2 * radius - 1) * map.cell;
    const reach = Math.ceil(radius) - 1;
    for (let b = Math.max(0, j - reach); b <= Math.min(map.ny - 1, j + reach); b++) {
      for (let a = Math.max(0, i - reach); a <= Math.min(map.nx - 1, i + reach); a++) {
        const other = a + map.nx * b;
        const inside = (a - i) ** 2 + (b - j) ** 2 < squared[place]! && map.height[other]! > 0;
        if (inside && widths[other]! < width) widths[other] = width;
      }
    }
  }
  return widths;
}
