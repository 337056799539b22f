import type { Mesh, Vec2 } from '../mesh/mesh.ts';
import type { Outline } from '../section/geometry.ts';
import { outlineOf, sectionAt } from '../section/slice.ts';
import { loadKernel } from './kernel.ts';
import type { MoldTable, PlacedCavity } from './mold-table.ts';
import { meshInBlock, outlineBox } from './plan.ts';

/** The closed mold cut across; outlines are (y, z) in the block's frame [m]. */
export interface MoldSection {
  /** Station along the block. */
  readonly x: number;
  readonly lower: Outline;
  readonly upper: Outline;
  /** Sections of the baits where they lie. */
  readonly plastic: Outline;
}

/** Outlines of the metal are simplified by no more than this [m]. */
const SIMPLE = 2e-6;

/**
 * Section across a closed mold: the block less the sections of baits and channels.
 *
 * @param mold - baits and block [m]
 * @param lies - where the cavities lie [m, rad]
 * @param channels - everything that is cut besides the cavities, in the block's frame [m]
 * @param x - station along the block [m]
 * @returns outlines of the metal of both halves and of the plastic [m]
 * @throws {RangeError} when a mesh is open at the plane
 *
 * Cost: one pass over the mesh of each cavity that is cut; cavities that lie alike share it.
 * Source: `sectionAt`; difference of polygons by the kernel.
 */
export async function moldSection(
  { block, cavities }: Pick<MoldTable, 'block' | 'cavities'>,
  lies: readonly PlacedCavity[],
  channels: Mesh,
  x: number,
): Promise<MoldSection> {
  const kernel = await loadKernel();
  const plastic = plasticAt(
    cavities.map(({ mesh }) => mesh),
    lies,
    x,
  );
  const hollow = [...plastic, ...outlineOf(sectionAt(channels, 'x', x))];
  const half = block.thickness / 2;
  const metal = (low: number, high: number): Outline =>
    kernel.work((shop) => shop.outlineLess([rectangle([0, low], [block.width, high])], hollow, SIMPLE));
  return { x, lower: metal(-half, 0), upper: metal(0, half), plastic };
}

const rectangle = ([left, low]: Vec2, [right, high]: Vec2): Vec2[] => [
  [left, low],
  [right, low],
  [right, high],
  [left, high],
];

/** Sections of all baits that the plane cuts. */
function plasticAt(meshes: readonly Mesh[], lies: readonly PlacedCavity[], x: number): Outline {
  const known = new Map<string, Outline>();
  return lies.flatMap((cavity, i) => {
    const { min, max } = outlineBox(cavity.outline);
    if (!(min[0] < x && x < max[0])) return [];
    const alike = [meshes.indexOf(meshes[i]!), cavity.x, cavity.turn, cavity.mirrored].join();
    const outline =
      known.get(alike) ?? outlineOf(sectionAt(meshInBlock(meshes[i]!, { ...cavity, y: 0 }), 'x', x));
    known.set(alike, outline);
    return outline.map((ring) => ring.map(([y, z]): Vec2 => [y + cavity.y, z]));
  });
}
