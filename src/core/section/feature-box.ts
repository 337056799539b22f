import type { Box, Vec3 } from '../mesh/mesh.ts';
import type { BoxTree } from './box-tree.ts';
import { acrossAt } from './feature.ts';
import { middleLineOf } from './middle-line.ts';
import { voxelsIn, waysThrough, type Voxels } from './voxels.ts';

/**
 * Side of a box where a part joins the body: front is towards the nose (least x), left and right are the bait's own
 * (least and greatest y), bottom and top are least and greatest z.
 */
export type RootSide = 'front' | 'back' | 'left' | 'right' | 'bottom' | 'top';

const SIDES: Readonly<Record<RootSide, { axis: 0 | 1 | 2; last: boolean }>> = {
  front: { axis: 0, last: false },
  back: { axis: 0, last: true },
  left: { axis: 1, last: false },
  right: { axis: 1, last: true },
  bottom: { axis: 2, last: false },
  top: { axis: 2, last: true },
};

/** Points of a middle line; bands are at least this many cubes deep. */
const BANDS = 40;
const BAND_CUBES = 3;

/** Rounds of moving the line to the middles of the sections across it. */
const ROUNDS = 2;

/**
 * Middle line of the part of a solid that lies in a box, from the side where it joins the body to its far end.
 *
 * Cubes of the part are sorted by the length of the shortest way through the solid from the root side, so that a
 * curl is followed round; the middles of bands of equal way make a first line, which is then moved to the middles of the
 * sections across it, twice.
 *
 * @param tree - boxes over the closed mesh [m]
 * @param name - of the part, for the message
 * @param box - about the part [m]
 * @param root - side of the box that cuts through the part's root
 * @returns points from root to tip [m]
 * @throws {RangeError} when the box is empty, or too short a part lies in it
 *
 * Valid: one unforked part in the box, at least 0.2 % of the box's size thick.
 * Cost: some 100 ms in a mesh of 100 000 triangles.
 * Source: own derivation; level sets of geodesic distance as in A. Verroust and F. Lazarus, Extracting skeletal curves
 * from 3D scattered data, The Visual Computer 16 (2000), from memory.
 */
export function middleLineInBox(tree: BoxTree, name: string, box: Box, root: RootSide): Vec3[] {
  const voxels = voxelsIn(tree, box);
  const starts = rootCubes(voxels, root);
  if (starts.length === 0) {
    throw new RangeError(
      `${name}: wants a box with a part of the bait in it, got an empty one; move or enlarge its box`,
    );
  }
  let line = bandMiddles(voxels, waysThrough(voxels, starts));
  if (line.length < 4) {
    throw new RangeError(
      `${name}: wants a box that holds a part longer than it is thick at its ${root} side; move the box or name another side as root`,
    );
  }
  line = centredLine(tree, line);
  return [onSide(box, root, line[0]!, line[1]!), ...line];
}

/** Where the line, run back straight from its first two points, meets the root side; its first point if it does not. */
function onSide(box: Box, root: RootSide, first: Vec3, second: Vec3): Vec3 {
  const { axis, last } = SIDES[root];
  const side = (last ? box.max : box.min)[axis];
  const back = (side - first[axis]) / (first[axis] - second[axis]);
  if (!(back > 0 && back < 2)) return first;
  return [0, 1, 2].map((i) => first[i]! + back * (first[i]! - second[i]!)) as [number, number, number];
}

/** The largest connected group of cubes in the layer of the root side, or the first layer that has any. */
function rootCubes(voxels: Voxels, root: RootSide): number[] {
  const { axis, last } = SIDES[root];
  const { counts, cubes } = voxels;
  const stride = [1, counts[0], counts[0] * counts[1]][axis]!;
  const layers: number[][] = Array.from({ length: counts[axis] }, () => []);
  cubes.forEach((place, cube) => layers[Math.floor(place / stride) % counts[axis]]!.push(cube));
  const layer = (last ? layers.toReversed() : layers).find((members) => members.length > 0) ?? [];
  let largest: number[] = [];
  let rest = layer;
  while (rest.length > largest.length) {
    const ways = waysThrough(voxels, [rest[0]!], layer);
    const group = rest.filter((cube) => ways[cube]! < Infinity);
    if (group.length > largest.length) largest = group;
    rest = rest.filter((cube) => ways[cube] === Infinity);
  }
  return largest;
}

/**
 * Middles of bands of cubes with nearly the same way, in order.
 *
 * @param voxels - the solid [m]
 * @param ways - way of each cube from the root [m]; Infinity leaves a cube out
 * @returns middles [m], at most 41, of bands at least three cubes deep
 *
 * Cost: one look at every cube.
 * Source: as `middleLineInBox`.
 */
export function bandMiddles({ counts, origin, cell, cubes }: Voxels, ways: Float64Array): Vec3[] {
  let farthest = 0;
  for (const way of ways) if (way < Infinity && way > farthest) farthest = way;
  const depth = Math.max(farthest / BANDS, BAND_CUBES * cell);
  const bands: [number, number, number, number][] = [];
  ways.forEach((way, cube) => {
    if (way === Infinity) return;
    const place = cubes[cube]!;
    const band = (bands[Math.floor(way / depth)] ??= [0, 0, 0, 0]);
    band[0] += place % counts[0];
    band[1] += Math.floor(place / counts[0]) % counts[1];
    band[2] += Math.floor(place / (counts[0] * counts[1]));
    band[3]++;
  });
  return bands.map(([i, j, k, count]) => [
    origin[0] + cell * (i / count + 0.5),
    origin[1] + cell * (j / count + 0.5),
    origin[2] + cell * (k / count + 0.5),
  ]);
}

/**
 * A line moved to the middles of the sections across it, twice.
 *
 * @param tree - boxes over the closed mesh [m]
 * @param points - of the line, from root to tip [m]
 * @returns as many points or fewer [m]
 *
 * Cost: two sections a point.
 * Source: as `middleLineInBox`.
 */
export function centredLine(tree: BoxTree, points: readonly Vec3[]): Vec3[] {
  let line = [...points];
  for (let round = 0; round < ROUNDS; round++) line = centred(tree, line);
  return line;
}

/** The line moved to the middles of the sections across it; places where it runs outside keep to the straight way. */
function centred(tree: BoxTree, points: readonly Vec3[]): Vec3[] {
  const line = middleLineOf(smoothed(points));
  const count = points.length;
  const middles = Array.from({ length: count }, (_, i) =>
    acrossAt(tree, line, (line.length * i) / (count - 1)),
  );
  const kept = middles.filter((section) => section !== null).map(({ at }) => at);
  return kept.length < 4 ? [...points] : kept;
}

/** Each inner point moved half-way to the middle of its neighbours. */
function smoothed(points: readonly Vec3[]): Vec3[] {
  return points.map((point, i) => {
    const [before, after] = [points[i - 1], points[i + 1]];
    if (!before || !after) return point;
    return [0, 1, 2].map((axis) => (before[axis]! + 2 * point[axis]! + after[axis]!) / 4) as [
      number,
      number,
      number,
    ];
  });
}
