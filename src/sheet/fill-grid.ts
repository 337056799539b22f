import { cutHalf, fillPitch, type Cavity } from '../core/fill/grid/cavity.ts';
import { featureCells, type FeatureCells } from '../core/fill/grid/feature-cells.ts';
import type { CavityFill } from '../core/fill/grid/fill-cavity.ts';
import {
  fillMap,
  lastPlaces,
  weldStretches,
  type FillMap,
  type LastPlace,
  type WeldStretch,
} from '../core/fill/grid/fill-map.ts';
import { gateEntries, type GridGate } from '../core/fill/grid/gate.ts';
import { isMirrored } from '../core/fill/grid/mirror.ts';
import type { CavityMap } from '../core/fill/grid/plan-width.ts';
import type { Shaped } from '../core/fill/grid/tabulated-reserve.ts';
import { boxTree } from '../core/section/box-tree.ts';
import type { BaitGeometry, FeatureMeasure } from '../core/section/geometry.ts';
import { heightMap } from '../core/section/height-map.ts';
import type { CavityFeed } from './fill-feed.ts';

/** Name of the part that stands for the whole cavity where a bait has no thin part. */
export const WHOLE = 'body';

/** A filling run over the plan, as drawings need it [m, s]. */
export interface FillPicture extends FillMap {
  /** Share of the cavity's volume that is filled [1]. */
  readonly share: number;
  /** Places that fill after all around them, latest first. */
  readonly last: readonly LastPlace[];
  /** Where fronts met. */
  readonly welds: readonly WeldStretch[];
}

/** The cavity's grid in numbers that a file can carry. */
export interface CavityGrid {
  readonly map: Omit<CavityMap, 'width'>;
  readonly gate: readonly number[];
}

/** Rows of a symmetric cavity's grid are a multiple of this, so that it can be halved, and that half on a grid of twice the pitch. */
const ROWS = 4;

/** Cavity heights and local thickness of a bait on the plan grid, and the entries under its gate; `balls` tell the thickness. */
export function cavityGrid(
  { mesh, projectedArea }: Pick<BaitGeometry, 'mesh' | 'projectedArea'>,
  gate: GridGate,
  balls: Float64Array,
): CavityGrid {
  const pitch = fillPitch(projectedArea);
  const tree = boxTree(mesh);
  const plain = heightMap(tree, pitch, balls);
  const even = plain.ny % ROWS === 0 || !isMirrored(plain);
  const { nx, ny, x0, y0, cell, height, thickness } = even ? plain : heightMap(tree, pitch, balls, ROWS);
  const map = { nx, ny, x0, y0, cell, height, thickness };
  return { map, gate: gateEntries(map, gate) };
}

/** Parts of a cavity whose filling is told: its thin features that the plan shows, else the whole. */
export function partsOf(features: readonly FeatureMeasure[], cavity: Cavity): FeatureCells[] {
  const shown = features
    .map((feature) => featureCells(cavity, feature))
    .filter(({ cells }) => cells.length > 0);
  if (shown.length > 0) return shown;
  const all = Array.from({ length: cavity.count }, (_, cell) => cell);
  return [{ name: WHOLE, cells: all, root: [...cavity.gate] }];
}

/** A bait's cavity ready for `tabulatedReserve`. */
export function shapedCavity(
  { map, gate }: CavityGrid,
  features: readonly FeatureMeasure[],
  feed: CavityFeed,
): Shaped {
  return { cavity: cutHalf(map, gate), feed, partsOf: (cavity) => partsOf(features, cavity) };
}

/** Last places closer together than this many cells are one. */
const APART = 6;

/** Stretches in a row from which they are a line and not the grain of the grid [1]. */
const LINE = 3;

/** Those stretches that join up into lines. */
function lines(stretches: readonly WeldStretch[]): WeldStretch[] {
  const key = ([x, y]: readonly [number, number]) => `${Math.round(x * 1e6)} ${Math.round(y * 1e6)}`;
  const group = new Map<string, string>();
  const root = (end: string): string => {
    const next = group.get(end) ?? end;
    return next === end ? end : root(next);
  };
  for (const { from, to } of stretches) group.set(root(key(from)), root(key(to)));
  const sizes = new Map<string, number>();
  for (const { from } of stretches) sizes.set(root(key(from)), (sizes.get(root(key(from))) ?? 0) + 1);
  return stretches.filter(({ from }) => (sizes.get(root(key(from))) ?? 0) >= LINE);
}

/** A filling run as drawings need it. */
export function fillPicture(fill: CavityFill): FillPicture {
  const { cavity } = fill.state;
  const whole = (cavity.halved ? 2 : 1) * cavity.volume.reduce((sum, volume) => sum + volume, 0);
  return {
    ...fillMap(fill),
    share: Math.min(1, fill.volume / whole),
    last: lastPlaces(fill, APART * cavity.map.cell),
    welds: lines(weldStretches(fill)),
  };
}
