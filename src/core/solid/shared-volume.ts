import { meshBox } from '../mesh/mass-properties.ts';
import type { Mesh } from '../mesh/mesh.ts';

/** Faces that lean less than this out of the upright have no plan [1]. */
const UPRIGHT = 1e-6;

/** A level face of a prism: its corners in plan counter-clockwise [m], its height [m], +1 on top, −1 below. */
interface LevelFace {
  readonly plan: Float64Array;
  readonly height: number;
  readonly sense: number;
  readonly box: readonly [number, number, number, number];
}

/** Shared volumes of the mesh with solids, in their order [m³]. */
export type SharedVolumes = (prisms: readonly Mesh[]) => number[];

/**
 * Volumes that a closed mesh shares with solids of level and upright faces only, such as bars in the parting plane.
 *
 * Over each place of the plan the mesh has a length below a height, the sum of ±(z − height) over its faces below it, which
 * is integrated over the level faces of a solid, tops less bottoms. Nothing is rounded but by the arithmetic.
 *
 * @param mesh - closed and wound outwards [m]
 * @returns what gives the volume [m³] shared with each of some solids [m], closed, wound outwards, every face of which is
 * level or upright
 *
 * Valid: where the mesh overlaps itself the overlap counts as often as it is covered.
 * Cost: two passes over the mesh; then a clipping for each face of it and of a solid that meet in plan.
 * Source: own derivation; clipping by I. E. Sutherland and G. W. Hodgman, Reentrant polygon clipping, Comm. ACM 17 (1974).
 */
export function sharedVolumes(mesh: Mesh): SharedVolumes {
  const columns = columnsOf(mesh);
  const { min, max } = meshBox(mesh);
  const isNear = ({ height, box: [left, low, right, high] }: LevelFace): boolean =>
    height > min[2] && left < max[0] && right > min[0] && low < max[1] && high > min[1];
  return (prisms) =>
    prisms.map((prism) =>
      levelFaces(prism)
        .filter(isNear)
        .reduce((sum, face) => sum + face.sense * lengthBelow(mesh, columns, face), 0),
    );
}

/** Triangles of a mesh by the place along x where they begin. */
interface Columns {
  /** Column c holds triangles `order[starts[c]]` to `order[starts[c + 1]]`, exclusive. */
  readonly order: Uint32Array;
  readonly starts: Uint32Array;
  readonly at: (x: number) => number;
  /** Longest triangle along x [m]. */
  readonly longest: number;
}

const COLUMNS = 1024;

function columnsOf({ positions: p, triangles }: Mesh): Columns {
  const count = triangles.length / 3;
  const begins = new Float64Array(count);
  let [left, right, longest] = [Infinity, -Infinity, 0];
  for (let t = 0; t < count; t++) {
    const a = p[3 * triangles[3 * t]!]!;
    const b = p[3 * triangles[3 * t + 1]!]!;
    const c = p[3 * triangles[3 * t + 2]!]!;
    const low = Math.min(a, b, c);
    const length = Math.max(a, b, c) - low;
    begins[t] = low;
    if (low < left) left = low;
    if (low > right) right = low;
    if (length > longest) longest = length;
  }
  const pitch = COLUMNS / (right - left || 1);
  const at = (x: number): number => Math.max(0, Math.min(COLUMNS - 1, Math.floor((x - left) * pitch)));
  const starts = new Uint32Array(COLUMNS + 1);
  for (let t = 0; t < count; t++) starts[at(begins[t]!) + 1]!++;
  for (let c = 0; c < COLUMNS; c++) starts[c + 1]! += starts[c]!;
  const place = starts.slice();
  const order = new Uint32Array(count);
  for (let t = 0; t < count; t++) order[place[at(begins[t]!)]!++] = t;
  return { order, starts, at, longest };
}

function levelFaces({ positions: p, triangles }: Mesh): LevelFace[] {
  const found: LevelFace[] = [];
  for (let t = 0; t < triangles.length; t += 3) {
    const [a, b, c] = [3 * triangles[t]!, 3 * triangles[t + 1]!, 3 * triangles[t + 2]!];
    const [ux, uy, uz] = [p[b]! - p[a]!, p[b + 1]! - p[a + 1]!, p[b + 2]! - p[a + 2]!];
    const [vx, vy, vz] = [p[c]! - p[a]!, p[c + 1]! - p[a + 1]!, p[c + 2]! - p[a + 2]!];
    const turn = ux * vy - uy * vx;
    if (Math.abs(turn) <= UPRIGHT * Math.hypot(uy * vz - uz * vy, uz * vx - ux * vz, turn)) continue;
    const [second, third] = turn > 0 ? [b, c] : [c, b];
    const plan = Float64Array.of(p[a]!, p[a + 1]!, p[second]!, p[second + 1]!, p[third]!, p[third + 1]!);
    const [xs, ys] = [
      [p[a]!, p[b]!, p[c]!],
      [p[a + 1]!, p[b + 1]!, p[c + 1]!],
    ];
    found.push({
      plan,
      height: (p[a + 2]! + p[b + 2]! + p[c + 2]!) / 3,
      sense: Math.sign(turn),
      box: [Math.min(...xs), Math.min(...ys), Math.max(...xs), Math.max(...ys)],
    });
  }
  return found;
}

/** Over a level face: the length of the mesh below it, integrated over the face [m³]. */
function lengthBelow({ positions: p, triangles }: Mesh, columns: Columns, face: LevelFace): number {
  const [left, low, right, high] = face.box;
  const { order, starts, at, longest } = columns;
  const end = starts[at(right) + 1]!;
  let sum = 0;
  for (let i = starts[at(left - longest)]!; i < end; i++) {
    const t = 3 * order[i]!;
    const a = 3 * triangles[t]!;
    const b = 3 * triangles[t + 1]!;
    const c = 3 * triangles[t + 2]!;
    const ax = p[a]!;
    const bx = p[b]!;
    const cx = p[c]!;
    if ((ax < left && bx < left && cx < left) || (ax > right && bx > right && cx > right)) continue;
    const ay = p[a + 1]!;
    const by = p[b + 1]!;
    const cy = p[c + 1]!;
    if ((ay < low && by < low && cy < low) || (ay > high && by > high && cy > high)) continue;
    const az = p[a + 2]! - face.height;
    const bz = p[b + 2]! - face.height;
    const cz = p[c + 2]! - face.height;
    if (az >= 0 && bz >= 0 && cz >= 0) continue;
    let least = Infinity;
    for (let side = 0; side < 6 && least > -Infinity; side += 2) {
      const one = leftOf(face.plan, side, ax, ay);
      const two = leftOf(face.plan, side, bx, by);
      const three = leftOf(face.plan, side, cx, cy);
      // All of it beyond one side: nothing is shared.
      least = one < 0 && two < 0 && three < 0 ? -Infinity : Math.min(least, one, two, three);
    }
    if (least === -Infinity) continue;
    if (least >= 0 && az <= 0 && bz <= 0 && cz <= 0) {
      sum += (((bx - ax) * (cy - ay) - (by - ay) * (cx - ax)) * (az + bz + cz)) / 6;
    } else sum += prismVolume(cutOut([ax, ay, az, bx, by, bz, cx, cy, cz], face.plan));
  }
  return sum;
}

/** Negative to the right of the side of a triangle that begins at a place in its plan. */
function leftOf(plan: Float64Array, side: number, x: number, y: number): number {
  const u = plan[side]!;
  const v = plan[side + 1]!;
  const after = side === 4 ? 0 : side + 2;
  return (plan[after]! - u) * (y - v) - (plan[after + 1]! - v) * (x - u);
}

/** The part of a triangle that lies over or under another and below height 0, three numbers a corner. */
function cutOut(triangle: readonly number[], plan: Float64Array): readonly number[] {
  let polygon = clipped(triangle, (_x, _y, z) => -z);
  for (let side = 0; side < 6 && polygon.length > 0; side += 2) {
    polygon = clipped(polygon, (x, y) => leftOf(plan, side, x, y));
  }
  return polygon;
}

/** The part of a polygon, three numbers a corner, where something that is linear over it is not negative. */
function clipped(polygon: readonly number[], side: (x: number, y: number, z: number) => number): number[] {
  const kept: number[] = [];
  for (let i = 0; i < polygon.length; i += 3) {
    const j = i + 3 < polygon.length ? i + 3 : 0;
    const here = side(polygon[i]!, polygon[i + 1]!, polygon[i + 2]!);
    const there = side(polygon[j]!, polygon[j + 1]!, polygon[j + 2]!);
    if (here >= 0) kept.push(polygon[i]!, polygon[i + 1]!, polygon[i + 2]!);
    if (here >= 0 === there >= 0) continue;
    const share = here / (here - there);
    for (let k = 0; k < 3; k++) kept.push(polygon[i + k]! + share * (polygon[j + k]! - polygon[i + k]!));
  }
  return kept;
}

/** Volume between a polygon, three numbers a corner, and height 0; negative below it or where it runs clockwise in plan. */
function prismVolume(p: readonly number[]): number {
  let volume = 0;
  for (let i = 3; i + 5 < p.length; i += 3) {
    const turn = (p[i]! - p[0]!) * (p[i + 4]! - p[1]!) - (p[i + 1]! - p[1]!) * (p[i + 3]! - p[0]!);
    volume += (turn * (p[2]! + p[i + 2]! + p[i + 5]!)) / 6;
  }
  return volume;
}
