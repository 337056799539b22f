import type { Cavity } from '../core/fill/grid/cavity.ts';
import { cutCavity, fillPitch } from '../core/fill/grid/cavity.ts';
import { featureCells, type FeatureCells } from '../core/fill/grid/feature-cells.ts';
import { fillCavity, type CavityFill } from '../core/fill/grid/fill-cavity.ts';
import { lastPlaces, weldStretches, type LastPlace } from '../core/fill/grid/fill-map.ts';
import { gateEntries, type GridGate } from '../core/fill/grid/gate.ts';
import type { CavityMap } from '../core/fill/grid/plan-width.ts';
import type { ShotConditions } from '../core/fill/grid/reserve-table.ts';
import type { Shaped } from '../core/fill/grid/tabulated-reserve.ts';
import { boxTree } from '../core/section/box-tree.ts';
import type { BaitGeometry, FeatureMeasure } from '../core/section/geometry.ts';
import { heightMap } from '../core/section/height-map.ts';
import type { CavityFeed } from './fill-feed.ts';

/** Name of the part that stands for the whole cavity where a bait has no thin part. */
export const WHOLE = 'body';

/** A filling run over the plan, as drawings need it [m, s]. Entry (i, j) is i + nx·j. */
export interface FillPicture {
  readonly nx: number;
  readonly ny: number;
  readonly x0: number;
  readonly y0: number;
  readonly cell: number;
  /** When each entry was full [s]; −1 where it is left short, 0 outside. */
  readonly time: Float32Array;
  /** Until it was full or stopped [s]. */
  readonly end: number;
  /** Share of the cavity's volume that is filled [1]. */
  readonly share: number;
  /** Places that fill after all around them, latest first. */
  readonly last: readonly LastPlace[];
  /** Where fronts met. */
  readonly welds: readonly (readonly [number, number, number, number])[];
}

/** The cavity's grid in numbers that a file can carry. */
export interface CavityGrid {
  readonly map: Omit<CavityMap, 'width'>;
  readonly gate: readonly number[];
}

/** Cavity heights and local thickness of a bait on the plan grid, and the entries under its gate. */
export function cavityGrid(
  { mesh, projectedArea }: Pick<BaitGeometry, 'mesh' | 'projectedArea'>,
  gate: GridGate,
): CavityGrid {
  const { nx, ny, x0, y0, cell, height, thickness } = heightMap(boxTree(mesh), fillPitch(projectedArea));
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
  return { map, gate, feed, partsOf: (cavity) => partsOf(features, cavity) };
}

/** Runs the filling of one cavity under given conditions. */
export function fillRun(cavity: Cavity, feed: CavityFeed, shot: ShotConditions): CavityFill {
  const { viscosity, melt: temperature, wall, noFlow, diffusivity, pressure, flow } = shot;
  return fillCavity(
    cavity,
    { temperature, wall, noFlow, diffusivity, viscosity, closing: 'own age', cools: true },
    { ...feed, pressure, flowLimit: flow },
  );
}

/** Last places closer together than this many cells are one. */
const APART = 6;

/** A filling run as drawings need it. */
export function fillPicture(fill: CavityFill): FillPicture {
  const { cavity, filledAt, stage } = fill.state;
  const { nx, ny, x0, y0, cell } = cavity.map;
  const time = new Float32Array(nx * ny);
  cavity.place.forEach((place, k) => {
    time[place] = stage[k] === 2 ? Math.max(1e-6, Math.min(filledAt[k]!, fill.time)) : -1;
  });
  const whole = cavity.volume.reduce((sum, volume) => sum + volume, 0);
  return {
    ...{ nx, ny, x0, y0, cell, time, end: fill.time },
    share: Math.min(1, fill.volume / whole),
    last: lastPlaces(fill, APART * cell),
    welds: weldStretches(fill).map(({ from, to }) => [...from, ...to] as const),
  };
}

/** The cavity of a grid. */
export const cavityOf = ({ map, gate }: CavityGrid): Cavity => cutCavity(map, gate);
