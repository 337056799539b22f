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

const FAR = 1e20;

/** Squared distance transform of one line, in cells: lower envelope of parabolas. */
function lineDistances(line: Float64Array, count: number, out: Float64Array): void {
  const roots = new Int32Array(count);
  const starts = new Float64Array(count + 1);
  let last = 0;
  starts[0] = -FAR;
  starts[1] = FAR;
  for (let q = 1; q < count; q++) {
    const crossing = () => {
      const r = roots[last]!;
      return (line[q]! + q * q - line[r]! - r * r) / (2 * q - 2 * r);
    };
    let s = crossing();
    while (s <= starts[last]!) {
      last--;
      s = crossing();
    }
    last++;
    roots[last] = q;
    starts[last] = s;
    starts[last + 1] = FAR;
  }
  for (let q = 0, k = 0; q < count; q++) {
    while (starts[k + 1]! < q) k++;
    out[q] = (q - roots[k]!) ** 2 + line[roots[k]!]!;
  }
}

/** Squared distance in cells from every cell to the nearest one outside the cavity; the rim of the map counts as outside. */
function squaredDistances(map: CavityMap): Float64Array {
  const [wide, tall] = [map.nx + 2, map.ny + 2];
  const field = new Float64Array(wide * tall);
  for (let place = 0; place < map.nx * map.ny; place++) {
    const [i, j] = [place % map.nx, Math.floor(place / map.nx)];
    if (map.height[place]! > 0) field[i + 1 + wide * (j + 1)] = FAR;
  }
  const longest = Math.max(wide, tall);
  const [line, out] = [new Float64Array(longest), new Float64Array(longest)];
  for (let i = 0; i < wide; i++) {
    for (let j = 0; j < tall; j++) line[j] = field[i + wide * j]!;
    lineDistances(line, tall, out);
    for (let j = 0; j < tall; j++) field[i + wide * j] = out[j]!;
  }
  for (let j = 0; j < tall; j++) {
    for (let i = 0; i < wide; i++) line[i] = field[i + wide * j]!;
    lineDistances(line, wide, out);
    for (let i = 0; i < wide; i++) field[i + wide * j] = out[i]!;
  }
  const inner = new Float64Array(map.nx * map.ny);
  for (let place = 0; place < inner.length; place++) {
    inner[place] = field[(place % map.nx) + 1 + wide * (Math.floor(place / map.nx) + 1)]!;
  }
  return inner;
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
 * Source: distance transform after Felzenszwalb & Huttenlocher (2012); local thickness after Hildebrand & Rüegsegger,
 * J. Microscopy 185 (1997); from memory.
 */
export function planWidths(map: CavityMap): Float64Array {
  positive('planWidths: cell', map.cell);
  const squared = squaredDistances(map);
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
