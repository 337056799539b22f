import { boxTree } from '../core/section/box-tree.ts';
import type { BaitGeometry } from '../core/section/geometry.ts';
import { ballMap } from '../core/section/height-map.ts';
import type { Remember } from './tools.ts';

/** Wall thickness over the plan: cell (i, j) is entry i + nx·j, its middle at x0 + i·cell, y0 + j·cell [m]. */
export interface WallMap {
  readonly nx: number;
  readonly ny: number;
  readonly x0: number;
  readonly y0: number;
  readonly cell: number;
  /** Diameter of the largest ball inside the bait that reaches over the place; 0 beside the bait [m]. */
  readonly values: Float64Array;
}

/** The walls of a bait. */
export interface WallStudy {
  readonly map: WallMap;
  /** The largest balls inside that the map was made of, as `ballMap` gives them [m]. */
  readonly balls: Float64Array;
}

/** Cells of the box about the plan: a five-inch bait is mapped at about two thirds of a millimetre. */
const CELLS = 7_000;
type Solid = Pick<BaitGeometry, 'mesh' | 'box'>;

function studyOf({ mesh, box: { min, max } }: Solid): WallStudy {
  const pitch = Math.sqrt(((max[0] - min[0]) * (max[1] - min[1])) / CELLS);
  const { map, balls } = ballMap(boxTree(mesh), pitch);
  const { nx, ny, x0, y0, cell, thickness } = map;
  return { map: { nx, ny, x0, y0, cell, values: thickness }, balls };
}

/** Wall thickness of a bait over its plan. */
export function wallStudy({ mesh, box }: Solid, remember: Remember): Promise<WallStudy> {
  return remember('wall-study', mesh, () => studyOf({ mesh, box }));
}
