import type { BaitGeometry } from '../core/section/geometry.ts';
import { foldedMesh } from '../core/section/folded-edges.ts';
import { seenEdges, type SeenEdges } from '../core/section/seen-edges.ts';
import type { Bait } from '../schema/collections.ts';
import type { Remember } from './tools.ts';

/** Inner edges that the two views of a bait show. */
export interface BaitEdges {
  readonly plan: SeenEdges;
  readonly across: SeenEdges;
}

/**
 * Inner edges of a bait on the plan and across. The view across of a bait that lies on its side is its top view, seen from
 * +y; of one that lies on its belly its side view, nose to the left, seen from −y.
 */
export function baitEdges(
  { mesh }: Pick<BaitGeometry, 'mesh'>,
  lies: Bait['lies'],
  remember: Remember,
): Promise<BaitEdges> {
  return remember('edge-study', { mesh, lies }, () => {
    const folded = foldedMesh(mesh);
    return {
      plan: seenEdges(mesh, 'plan', folded),
      across: seenEdges(mesh, lies === 'on its side' ? 'across from +y' : 'across from -y', folded),
    };
  });
}
