import type { FeatureMeasure } from '../../section/geometry.ts';
import type { Cavity } from './cavity.ts';

/** Cells of a named thin part. */
export interface FeatureCells {
  readonly name: string;
  /** Cells of the cavity, from root to tip. */
  readonly cells: readonly number[];
  /** Those at its root. */
  readonly root: readonly number[];
}

interface Near {
  /** Distance in the plan from the middle line [m]. */
  readonly away: number;
  /** Arc length of the nearest point [m]. */
  readonly s: number;
  /** Half of the plan width there [m]. */
  readonly half: number;
}

/** Nearest point of a feature's middle line, in the plan. */
function nearestOn(stations: FeatureMeasure['stations'], x: number, y: number): Near {
  let best: Near = { away: Infinity, s: 0, half: 0 };
  for (let k = 0; k + 1 < stations.length; k++) {
    const [a, b] = [stations[k]!, stations[k + 1]!];
    const [dx, dy] = [b.at[0] - a.at[0], b.at[1] - a.at[1]];
    const squared = dx * dx + dy * dy;
    const raw = squared > 0 ? ((x - a.at[0]) * dx + (y - a.at[1]) * dy) / squared : 0;
    const t = Math.min(1, Math.max(0, raw));
    const away = Math.hypot(x - a.at[0] - t * dx, y - a.at[1] - t * dy);
    const beyond = k === 0 && raw < 0;
    if (away < best.away && !beyond) {
      best = { away, s: a.s + t * (b.s - a.s), half: (a.width + t * (b.width - a.width)) / 2 };
    }
  }
  return best;
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
 * Cost: cells times stations.
 * Source: definition.
 */
export function featureCells(
  cavity: Cavity,
  feature: Pick<FeatureMeasure, 'name' | 'stations'>,
): FeatureCells {
  const { map, place } = cavity;
  const found: { cell: number; s: number }[] = [];
  for (let cell = 0; cell < cavity.count; cell++) {
    const x = map.x0 + (place[cell]! % map.nx) * map.cell;
    const y = map.y0 + Math.floor(place[cell]! / map.nx) * map.cell;
    const near = nearestOn(feature.stations, x, y);
    if (near.away <= near.half + map.cell / 2) found.push({ cell, s: near.s });
  }
  found.sort((a, b) => a.s - b.s || a.cell - b.cell);
  return {
    name: feature.name,
    cells: found.map(({ cell }) => cell),
    root: found.filter(({ s }) => s <= 2 * map.cell).map(({ cell }) => cell),
  };
}
