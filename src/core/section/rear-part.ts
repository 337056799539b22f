import type { Mesh, Vec3 } from '../mesh/mesh.ts';
import { placedMesh } from '../mesh/placement.ts';
import { need } from '../quantity/guard.ts';
import { loadKernel } from '../solid/kernel.ts';
import type { BaitGeometry, FeatureMeasure } from './geometry.ts';
import { measureBait } from './measure.ts';

const UPRIGHT = [
  [1, 0, 0],
  [0, 1, 0],
  [0, 0, 1],
] as const;

function shifted(feature: FeatureMeasure, by: number): FeatureMeasure {
  const move = ([x, y, z]: Vec3): Vec3 => [x - by, y, z];
  return {
    ...feature,
    stations: feature.stations.map((station) => ({ ...station, at: move(station.at) })),
    thinnest: { ...feature.thinnest, at: move(feature.thinnest.at) },
  };
}

async function cutMesh(mesh: Mesh, from: number): Promise<Mesh> {
  const kernel = await loadKernel();
  return kernel.work((shop) => shop.mesh(shop.trim(shop.solid(mesh), [1, 0, 0], from)));
}

/**
 * The rear part of a bait, cut off square to its length, measured like a bait of its own: the cut lies at x = 0.
 *
 * @param whole - geometry of the whole bait [m]
 * @param from - where it is cut off, from the nose [m]
 * @returns the geometry of what is behind the cut [m, m², m³]; thin parts keep their sizes as measured on the whole
 * @throws {RangeError} when the cut misses the bait or goes through a thin part
 *
 * Valid: a cut through the body alone.
 * Cost: one cut of the solid and a measuring.
 * Source: `measureBait` of the solid behind the plane.
 */
export async function rearPart(whole: BaitGeometry, from: number): Promise<BaitGeometry> {
  const { min, max } = whole.box;
  need(from > min[0] && from < max[0], 'rearPart', `a cut between ${min[0]} and ${max[0]} m`, from);
  const ahead = whole.features.find(({ stations }) => stations.some(({ at }) => at[0] < from));
  need(ahead === undefined, 'rearPart', `a cut ahead of the thin part "${ahead?.name ?? ''}"`, from);
  const mesh = placedMesh(await cutMesh(whole.mesh, from), UPRIGHT, [-from, 0, 0]);
  const part = await measureBait(mesh, [], whole.repairs);
  return { ...part, features: whole.features.map((feature) => shifted(feature, from)) };
}
