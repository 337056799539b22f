import { coarseMesh } from '../mesh/coarse.ts';
import { meshBox, meshVolume } from '../mesh/mass-properties.ts';
import type { Mesh } from '../mesh/mesh.ts';
import type { Solid, Workshop } from './kernel.ts';
import type { MoldTable } from './mold-table.ts';
import { sharedVolumes, type SharedVolumes } from './shared-volume.ts';

/** How much a bait is, and how much of it lies in bars [m³]. */
interface Measured {
  readonly volume: number;
  readonly shared: SharedVolumes;
}

/** A bait with few triangles, in its own frame. */
export interface MergedBait extends Measured {
  /** As it was before merging. */
  readonly own: Measured;
  readonly whole: Solid;
  /** What of it lies below the parting plane, and a little above. */
  readonly lower: Solid;
  /** Volume of it below the parting plane [m³]. */
  readonly below: number;
}

/** Root mean square by which triangles of a bait are merged before it is cut from the block: a tenth of a pixel in a picture [m]. */
export const MERGED_WITHIN = 2e-5;
/** How far above the parting plane the lower part of a bait reaches [m]. */
const BEYOND = 5e-4;

/**
 * The baits of a mold's cavities, merged; cavities of one mesh share theirs. A mesh must not be changed any more.
 *
 * @param shop - the kernel at work
 * @param mold - the mold [m]
 * @returns a bait for each cavity
 * @throws {RangeError} when a mesh is open or inside out
 *
 * Valid: as `coarseMesh`; corners of single precision.
 * Cost: 0.6 µs a triangle of each mesh, the first time that it is seen, and some 30 ms.
 * Source: `coarseMesh`; cutting by the kernel.
 */
export function mergedBaits(shop: Workshop, { cavities }: MoldTable): MergedBait[] {
  const made = new Map<Mesh, MergedBait>();
  for (const { mesh } of cavities) if (!made.has(mesh)) made.set(mesh, merged(shop, mesh));
  return cavities.map(({ mesh }) => made.get(mesh)!);
}

/** Kept as long as the mesh, for the other molds of a bait. */
const known = new WeakMap<Mesh, Mesh>();

function merged(shop: Workshop, mesh: Mesh): MergedBait {
  const coarse = known.get(mesh) ?? coarseMesh(mesh, MERGED_WITHIN);
  known.set(mesh, coarse);
  const whole = shop.solid(coarse, 'single');
  const shared = sharedVolumes(coarse);
  const { min, max } = meshBox(coarse);
  const room = shop.box(
    [min[0] - BEYOND, min[1] - BEYOND, min[2] - BEYOND],
    [max[0] + BEYOND, max[1] + BEYOND, 0],
  );
  return {
    own: { volume: meshVolume(mesh), shared: sharedVolumes(mesh) },
    volume: meshVolume(coarse),
    shared,
    whole,
    lower: shop.trim(whole, [0, 0, -1], -BEYOND),
    below: shared([shop.mesh(room)])[0]!,
  };
}
