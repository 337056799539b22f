import { massProperties } from '../mesh/mass-properties.ts';
import type { Box, Mesh, Vec3 } from '../mesh/mesh.ts';
import { boxTree, type BoxTree } from './box-tree.ts';
import { measureFeature } from './feature.ts';
import type { BaitGeometry, FeatureMeasure } from './geometry.ts';
import { middleLineInBox, type RootSide } from './feature-box.ts';
import { depthsOf, middleLineAtPoint, type SolidDepths } from './feature-point.ts';
import { sectionArea } from './moments.ts';
import { outlineArea, silhouette, SILHOUETTE_TOLERANCE, silhouettes } from './silhouette.ts';
import { sectionsAlong } from './slice.ts';
import { thickestBall, treeBox } from './thickness.ts';

/**
 * A feature to measure: by its middle line from root to tip, by a box about it and the side it grows from, or by a point
 * on it [m].
 */
export interface FeatureRequest {
  readonly name: string;
  readonly kind: FeatureMeasure['kind'];
  readonly middleLine?: readonly Vec3[] | undefined;
  readonly box?: Box | undefined;
  readonly root?: RootSide | undefined;
  readonly point?: Vec3 | undefined;
}

/** Stations of the area curve: middles of as many even slices of the bait. */
const SLICES = 128;

/** Silhouettes whose area is taken are not simplified by more than this [m]. */
const EXACT = 1e-9;

/**
 * Everything that is measured on one revision of a bait.
 *
 * @param mesh - closed, wound outwards, in the mold's frame: nose at x = 0, parting plane z = 0 [m]
 * @param requests - features to measure
 * @param repairs - what was repaired on the way in, in words
 * @returns the geometry [m, m², m³]; `areaCurve` holds the middles of 128 even slices, so that the mean of its areas
 * times the length is the volume
 * @throws {RangeError} when the mesh is open, or a feature is not where its request says
 *
 * Valid: meshes that passed the solid check.
 * Cost: 100 000 triangles with four features in some 0.4 s.
 * Source: `massProperties`, `sectionsAlong`, `silhouette`, `thickestBall`, `measureFeature`.
 */
export async function measureBait(
  mesh: Mesh,
  requests: readonly FeatureRequest[],
  repairs: readonly string[] = [],
): Promise<BaitGeometry> {
  const { volume, surface, centroid, box } = massProperties(mesh);
  const tree = boxTree(mesh);
  const [exact = [], plan = []] = await silhouettes(mesh, 'plan', [EXACT, SILHOUETTE_TOLERANCE]);
  let depths: SolidDepths | undefined;
  const solid = (): SolidDepths => (depths ??= depthsOf(tree));
  return {
    mesh,
    box,
    volume,
    surface,
    centroid,
    projectedArea: outlineArea(exact),
    plan,
    across: await silhouette(mesh, 'across'),
    areaCurve: areaCurve(mesh, box),
    thickest: thickestBall(tree),
    features: requests.map((request) => measureRequest(tree, request, solid)),
    repairs,
  };
}

/**
 * Section areas along a mesh.
 *
 * @param mesh - closed and wound outwards [m]
 * @param box - its bounding box [m]
 * @param slices - how many even slices [1]
 * @returns middle of each slice [m] and the section's area there [m²]
 * @throws {RangeError} when the mesh is open
 *
 * Cost: one sweep.
 * Source: midpoint rule.
 */
export function areaCurve(mesh: Mesh, { min, max }: Box, slices = SLICES): { x: number; area: number }[] {
  const pitch = (max[0] - min[0]) / slices;
  const stations = Array.from({ length: slices }, (_, i) => min[0] + (i + 0.5) * pitch);
  return sectionsAlong(mesh, 'x', stations).map((section) => ({ x: section.at, area: sectionArea(section) }));
}

function measureRequest(tree: BoxTree, request: FeatureRequest, solid: () => SolidDepths): FeatureMeasure {
  const { name, kind, middleLine, box, root, point } = request;
  if (middleLine) return measureFeature(tree, { name, kind, middleLine });
  if (point) {
    const line = middleLineAtPoint(tree, solid(), name, point);
    return measureFeature(tree, { name, kind, middleLine: line, within: treeBox(tree) });
  }
  if (!box) throw new RangeError(`${name}: wants a middle line, a box or a point, got none`);
  return measureFeature(tree, {
    name,
    kind,
    middleLine: middleLineInBox(tree, name, box, root ?? 'front'),
    within: box,
  });
}
