import type { Mesh } from '../core/mesh/mesh.ts';
import type { PlanPlacement } from '../core/solid/plan.ts';
import { bounds, framed, type Size, type View } from './camera.ts';
import { ALUMINIUM } from './material.ts';
import { partInBlock, partOf, type Part, type Scene } from './scene.ts';

/** Free on every side of a bait and of a mold half, as a share of the smaller side of the picture. */
const MARGIN = { bait: 0.1, mold: 0.08 };
const BAIT_ELEVATION = 0.74;
/** The nose points away to the left, the tail comes near. */
const BAIT_AZIMUTHS = [-0.7, -0.8, -0.9, -1, -1.1];
const MOLD_VIEW: View = { azimuth: -1.05, elevation: 0.8 };

const lowest = ({ mesh }: Part): number => bounds(mesh.positions).min[2];

/** Share of the largest picture that is given up for a view more along the bait, which shows its tail better. */
const GIVEN_UP = 0.14;

/** So many points at most tell one view from another. */
const TELLING = 4000;

/** The first of some views whose picture is nearly as large as the best. */
function nearlyLargest(points: Float64Array, views: readonly View[], size: Size): View {
  const step = Math.ceil(points.length / 3 / TELLING);
  const some = points.filter((_, i) => Math.floor(i / 3) % step === 0);
  const scales = views.map((view) => framed(some, view, size, MARGIN.bait).focal);
  const enough = (1 - GIVEN_UP) * Math.max(...scales);
  return views.find((_, i) => scales[i]! >= enough)!;
}

/** A bait on paper, seen from where it fills the picture well. */
export function baitScene(part: Part, size: Size): Scene {
  const { positions } = part.mesh;
  const views = BAIT_AZIMUTHS.map((azimuth) => ({ azimuth, elevation: BAIT_ELEVATION }));
  const camera = framed(positions, nearlyLargest(positions, views, size), size, MARGIN.bait);
  return { parts: [part], ground: lowest(part), camera, size };
}

/** Of the cavities of a mold the one that lies nearest to the eye. */
export function nearestLie(lies: readonly PlanPlacement[]): PlanPlacement | undefined {
  return lies.toSorted((a, b) => a.y - b.y || b.x - a.x)[0];
}

/**
 * The open lower half of a mold.
 *
 * @param half - its metal [m]
 * @param filled - a bait that still lies in one of its cavities; left out, all of them are empty
 */
export function moldScene(
  half: Mesh,
  size: Size,
  filled?: { readonly bait: Part; readonly lie: PlanPlacement },
): Scene {
  const metal = partOf(half, ALUMINIUM);
  const bait = filled && partInBlock(filled.bait, filled.lie);
  return {
    parts: bait ? [metal, bait] : [metal],
    ground: lowest(metal),
    camera: framed(metal.mesh.positions, MOLD_VIEW, size, MARGIN.mold),
    size,
  };
}
