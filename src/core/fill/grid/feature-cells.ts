import type { FeatureMeasure } from '../../section/geometry.ts';
import type { Cavity } from './cavity.ts';
import { mirrorPlace } from './mirror.ts';

/** Cells of a named thin part. */
export interface FeatureCells {
  readonly name: string;
  /** Cells of the cavity, from root to tip; of a halved one also those whose mirror image belongs to it, so that some stand twice. */
  readonly cells: readonly number[];
  /** Those at its root. */
  readonly root: readonly number[];
}

type Stations = FeatureMeasure['stations'];

/** Arc length at which a point of the plan lies beside a middle line [m]; NaN when it lies further than half the width there. */
function besideAt(stations: Stations, x: number, y: number, margin: number): number {
  let [nearest, s, half] = [Infinity, NaN, 0];
  for (let k = 0; k + 1 < stations.length; k++) {
    const [a, b] = [stations[k]!, stations[k + 1]!];
    const [ax, ay] = a.at;
    const [dx, dy] = [b.at[0] - ax, b.at[1] - ay];
    const squared = dx * dx + dy * dy;
    const raw = squared > 0 ? ((x - ax) * dx + (y - ay) * dy) / squared : 0;
    const t = Math.min(1, Math.max(0, raw));
    const away = (x - ax - t * dx) ** 2 + (y - ay - t * dy) ** 2;
    const beyond = k === 0 && raw < 0;
    if (away < nearest && !beyond) {
      nearest = away;
      s = a.s + t * (b.s - a.s);
      half = (a.width + t * (b.width - a.width)) / 2;
    }
  }
  return Math.sqrt(nearest) <= half + margin ? s : NaN;
}

/** A box around all that may lie beside a middle line [m]. */
function boxAround(stations: Stations, margin: number): readonly [number, number, number, number] {
  const wide = margin + stations.reduce((most, { width }) => Math.max(most, width / 2), 0);
  const xs = stations.map(({ at }) => at[0]);
  const ys = stations.map(({ at }) => at[1]);
  return [Math.min(...xs) - wide, Math.max(...xs) + wide, Math.min(...ys) - wide, Math.max(...ys) + wide];
}

/**
 * Cells of a cavity that belong to a feature: those beside its middle line, no further than half its width, that are no
 * thicker than it is there.
 *
 * @param cavity - from `cutCavity`
 * @param feature - as measured on the solid [m]
 * @returns cells from root to tip, and those within two cells of the root; both empty when the plan shows none
 *
 * Valid: features that lie along the parting plane; one that stands up from it shares its cells with what lies below.
 * Cost: cells around it times stations.
 * Source: definition.
 */
export function featureCells(
  cavity: Cavity,
  feature: Pick<FeatureMeasure, 'name' | 'stations'>,
): FeatureCells {
  const { map, place } = cavity;
  const { stations } = feature;
  const found: { cell: number; s: number }[] = [];
  const [left, right, low, high] = boxAround(stations, map.cell / 2);
  const look = (cell: number, at: number) => {
    const x = map.x0 + (at % map.nx) * map.cell;
    const y = map.y0 + Math.floor(at / map.nx) * map.cell;
    if (x < left || x > right || y < low || y > high) return;
    const s = besideAt(stations, x, y, map.cell / 2);
    if (!Number.isNaN(s)) found.push({ cell, s });
  };
  for (let cell = 0; cell < cavity.count; cell++) {
    look(cell, place[cell]!);
    if (cavity.halved) look(cell, mirrorPlace(map, place[cell]!));
  }
  found.sort((a, b) => a.s - b.s || a.cell - b.cell);
  return {
    name: feature.name,
    cells: found.map(({ cell }) => cell),
    root: found.filter(({ s }) => s <= 2 * map.cell).map(({ cell }) => cell),
  };
}
