import type { Vec3 } from '../mesh/mesh.ts';
import type { BoxTree } from './box-tree.ts';
import { acrossAt } from './feature.ts';
import { squaredDistances } from '../numeric/distance-field.ts';
import { bandMiddles, centredLine } from './feature-box.ts';
import { isInside } from './inside.ts';
import { apart, middleLineOf, type MiddleLine } from './middle-line.ts';
import { nearest, nearestResult } from './nearest.ts';
import { treeBox } from './thickness.ts';
import { aboutCube, cubeNear, thicknessAbout, voxelsIn, waysThrough, type Voxels } from './voxels.ts';

/** A solid in cubes, each with its distance from the surface. */
export interface SolidDepths {
  readonly voxels: Voxels;
  /** Squared distance of each cell of the grid to the nearest empty one [cells²]. */
  readonly depths: Float64Array;
}

/** A point may lie this far off the surface and still name the part beside it [m]. */
const OFF = 1e-3;

/** Cubes of the whole solid: half a millimetre each in a bait of 14 cm³. */
const CUBES = 120_000;

/** Empty space about the solid [m]. */
const MARGIN = 2e-3;

/**
 * A solid in cubes with their depths below the surface, for features that are named by a point.
 *
 * @param tree - boxes over the closed mesh [m]
 * @returns cubes, and squared depths [cells²]
 *
 * Valid: parts at least half a millimetre thick in a bait of 14 cm³; along z thinner ones too.
 * Cost: a line search for each column and three passes over the grid; some 0.2 s.
 * Source: as `voxelsIn` and `squaredDistances`.
 */
export function depthsOf(tree: BoxTree): SolidDepths {
  const { min, max } = treeBox(tree);
  const wide = (corner: Vec3, sign: 1 | -1): Vec3 => [
    corner[0] + sign * MARGIN,
    corner[1] + sign * MARGIN,
    corner[2] + sign * MARGIN,
  ];
  const voxels = voxelsIn(tree, { min: wide(min, -1), max: wide(max, 1) }, CUBES);
  const empty = Uint8Array.from(voxels.numbers, (cube) => (cube < 0 ? 1 : 0));
  return { voxels, depths: squaredDistances(voxels.counts, empty) };
}

/**
 * Middle line of the thin part of a solid that a point lies on, from the body to its tip.
 *
 * The body is what a ball fills that stays inside the solid; its diameter is the geometric mean of the thickness at the
 * point and of the thickest place. The part is what is left and hangs together with the point; its way begins
 * where it touches the body.
 *
 * @param tree - boxes over the closed mesh [m]
 * @param solid - its cubes and depths
 * @param name - of the part, for the message
 * @param point - in the part, or at most 1 mm off its surface [m]
 * @returns points from root to tip [m]
 * @throws {RangeError} when the point lies farther off, or not on a thin part
 *
 * Valid: a part less than half as thick at the point as the thickest place of the solid; its root within a cube.
 * Cost: three passes over the grid, a sort of the part's cubes and some 80 sections; some 0.2 s.
 * Source: own derivation; opening by a ball, J. Serra, Image Analysis and Mathematical Morphology (1982), from memory.
 */
export function middleLineAtPoint(tree: BoxTree, solid: SolidDepths, name: string, point: Vec3): Vec3[] {
  const { voxels, depths } = solid;
  const start = cubeNear(voxels, placeInside(tree, name, point));
  const thickest = 2 * Math.sqrt(depths.reduce((most, depth) => Math.max(most, depth), 0));
  const local = thicknessAbout(voxels, start);
  const thin = { ...voxels, ...outside(solid, Math.sqrt(local * thickest) / 2) };
  const own = thin.numbers[voxels.cubes[start]!]!;
  const line = own < 0 || local > thickest / 2 ? [] : lineFrom(tree, voxels, thin, own, local * voxels.cell);
  if (line.length < 4) {
    throw new RangeError(
      `${name}: wants a point on a thin part, got ${shown(point)}, where the bait is about ${mm(local * voxels.cell)} mm thick; move the point, or give a box and the side it grows from`,
    );
  }
  return fromRoot(tree, line, point, FOOT * voxels.cell);
}

/** Places where a line is looked at for the one nearest to a point, stretches of the line that is given back, halvings. */
const PLACES = 400;
const BENDS = 40;
const HALVINGS = 12;

/** A section whose √area grows faster than this along the line, and by this factor of its area, is the body's [1]. */
const FLARE = 1.2;
const LEAP = 1.5;

/** A ball reaches a cube more than its radius, so that no film of cubes is left about the body [cells]. */
const FILM = 1;

/** The line begins up to so far from the body, for its first point is in the middle of a band [cells]. */
const FOOT = 5;

/** The line from where, seen from the point, the section across it leaps into the body; all of it when none does. */
function fromRoot(tree: BoxTree, points: readonly Vec3[], point: Vec3, foot: number): Vec3[] {
  const line = middleLineOf([before(points, foot), ...points]);
  const root = rootOf(tree, line, arcNearest(line, point)) ?? foot;
  const pace = (line.length - root) / BENDS;
  return Array.from({ length: BENDS + 1 }, (_, i) => line.pointAt(root + i * pace));
}

/** A place before the first of some points, on the line through the first two. */
function before([a, b]: readonly Vec3[], way: number): Vec3 {
  const share = way / apart(a!, b!);
  return [0, 1, 2].map((axis) => a![axis]! + share * (a![axis]! - b![axis]!)) as [number, number, number];
}

/** Arc length of the line's place nearest to a point. */
function arcNearest(line: MiddleLine, point: Vec3): number {
  const places = Array.from({ length: PLACES }, (_, i) => (line.length * i) / PLACES);
  return places.reduce((best, s) =>
    apart(line.pointAt(s), point) < apart(line.pointAt(best), point) ? s : best,
  );
}

/**
 * Arc length of the first section that is the part's own, going from `from` towards the body in steps of a third of its
 * thickness; null when none is met that is not.
 */
function rootOf(tree: BoxTree, line: MiddleLine, from: number): number | null {
  const area = (s: number): number => acrossAt(tree, line, s)?.part.area ?? 0;
  let outer = acrossAt(tree, line, from);
  for (let s = from; s > 0 && outer;) {
    const next = Math.max(0, s - outer.part.thickness / 3);
    const inner = acrossAt(tree, line, next);
    const growth = inner ? Math.sqrt(inner.part.area) - Math.sqrt(outer.part.area) : 0;
    // The rounding of the tip leaps too.
    const inTip = line.length - s < outer.part.thickness;
    if (inner && !inTip && growth > FLARE * (s - next) && inner.part.area > LEAP * outer.part.area) {
      const level = Math.sqrt(inner.part.area * outer.part.area);
      return leapBetween(next, s, (place) => area(place) > level);
    }
    [outer, s] = [inner, next];
  }
  return null;
}

/** Where a condition that holds at the lower place ceases to. */
function leapBetween(low: number, high: number, holds: (s: number) => boolean): number {
  let [inner, outer] = [low, high];
  for (let halving = 0; halving < HALVINGS; halving++) {
    const middle = (inner + outer) / 2;
    if (holds(middle)) inner = middle;
    else outer = middle;
  }
  return outer;
}

/** The solid's cubes that no ball of a radius [cells] inside it reaches. */
function outside({ voxels, depths }: SolidDepths, radius: number): Pick<Voxels, 'cubes' | 'numbers'> {
  const centres = Uint8Array.from(depths, (depth) => (depth >= radius ** 2 ? 1 : 0));
  const away = squaredDistances(voxels.counts, centres);
  const cubes = voxels.cubes.filter((place) => away[place]! >= (radius + FILM) ** 2);
  const numbers = new Int32Array(voxels.numbers.length).fill(-1);
  cubes.forEach((place, cube) => (numbers[place] = cube));
  return { cubes, numbers };
}

/**
 * Middle line of the branch of thin cubes that one is on: from where they touch the other cubes of the solid to the end
 * that lies outwards of it. Cubes farther off the shortest way than `slack` are of other branches.
 */
function lineFrom(tree: BoxTree, solid: Voxels, thin: Voxels, start: number, slack: number): Vec3[] {
  const linked = waysThrough(thin, [start]);
  const members = Array.from(thin.cubes.keys()).filter((cube) => linked[cube]! < Infinity);
  const [nx, ny] = thin.counts;
  const sides = [1, -1, nx, -nx, nx * ny, -nx * ny];
  const isBody = (place: number): boolean => solid.numbers[place]! >= 0 && thin.numbers[place]! < 0;
  const roots = members.filter((cube) => sides.some((side) => isBody(thin.cubes[cube]! + side)));
  if (roots.length === 0) return [];
  const ways = waysThrough(thin, roots, members);
  const tip = farthestOutwards(thin, ways, start);
  const back = waysThrough(thin, [tip], members);
  const most = ways[tip]! + slack;
  const own = ways.map((way, cube) => (way + back[cube]! <= most ? way : Infinity));
  const points = bandMiddles(thin, own);
  return points.length < 4 ? [] : centredLine(tree, points);
}

/** The cube with the longest way that is reached from one without ever coming nearer to the root. */
function farthestOutwards(voxels: Voxels, ways: Float64Array, start: number): number {
  const seen = new Set([start]);
  let farthest = start;
  for (const cube of seen) {
    if (ways[cube]! > ways[farthest]!) farthest = cube;
    for (const other of aboutCube(voxels, cube)) {
      if (ways[other]! >= ways[cube]! && ways[other]! < Infinity) seen.add(other);
    }
  }
  return farthest;
}

/** A place inside the solid at the point, or beside it when it lies at most a little off. */
function placeInside(tree: BoxTree, name: string, point: Vec3): Vec3 {
  if (isInside(tree, ...point)) return point;
  const found = nearestResult();
  nearest(tree, ...point, found);
  if (found.distance > OFF) {
    throw new RangeError(
      `${name}: wants a point in the bait or within 1 mm of it, got ${shown(point)}, ${mm(found.distance)} mm away; the nearest place is ${shown([found.x, found.y, found.z])}`,
    );
  }
  return [found.x, found.y, found.z];
}

const mm = (metres: number): string => `${Number((metres * 1e3).toFixed(1)) || 0}`;
const shown = (point: Vec3): string => `[${point.map((value) => `${mm(value)} mm`).join(', ')}]`;
