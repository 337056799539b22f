import type { Mesh } from '../mesh/mesh.ts';

/** A closed mesh that can be walked over: unit normals, shape (T, 3), and for each half edge the one opposite. */
export interface WalkedMesh extends Mesh {
  /** 0 where a triangle has no area. */
  readonly normals: Float64Array;
  /** Half edge `h` runs from corner `h` to the next of its triangle; −1 where it has no other side. */
  readonly opposite: Int32Array;
}

/** The next corner of the same triangle. */
export const nextCorner = (corner: number): number => (corner % 3 === 2 ? corner - 2 : corner + 1);

/**
 * A mesh with what a walk over it needs.
 *
 * @param mesh - closed and wound outwards [m]
 * @returns the same mesh with unit normals [1] and opposite half edges
 *
 * Cost: one pass over the triangles.
 * Source: definition.
 */
export function walkedMesh(mesh: Mesh): WalkedMesh {
  return { ...mesh, normals: faceNormals(mesh), opposite: oppositeEdges(mesh) };
}

function faceNormals({ positions: p, triangles }: Mesh): Float64Array {
  const normals = new Float64Array(triangles.length);
  for (let t = 0; t < triangles.length; t += 3) {
    const a = 3 * triangles[t]!;
    const b = 3 * triangles[t + 1]!;
    const c = 3 * triangles[t + 2]!;
    const bx = p[b]! - p[a]!;
    const by = p[b + 1]! - p[a + 1]!;
    const bz = p[b + 2]! - p[a + 2]!;
    const cx = p[c]! - p[a]!;
    const cy = p[c + 1]! - p[a + 1]!;
    const cz = p[c + 2]! - p[a + 2]!;
    const nx = by * cz - bz * cy;
    const ny = bz * cx - bx * cz;
    const nz = bx * cy - by * cx;
    const size = Math.sqrt(nx * nx + ny * ny + nz * nz) || 1;
    normals[t] = nx / size;
    normals[t + 1] = ny / size;
    normals[t + 2] = nz / size;
  }
  return normals;
}

function oppositeEdges({ positions, triangles }: Mesh): Int32Array {
  const opposite = new Int32Array(triangles.length).fill(-1);
  const head = new Int32Array(positions.length / 3).fill(-1);
  const next = new Int32Array(triangles.length);
  for (let edge = 0; edge < triangles.length; edge++) {
    const from = triangles[edge]!;
    const to = triangles[nextCorner(edge)]!;
    // The same edge the other way round waits at its own beginning.
    let before = -1;
    let waiting = head[to]!;
    while (waiting >= 0 && triangles[nextCorner(waiting)] !== from) {
      before = waiting;
      waiting = next[waiting]!;
    }
    if (waiting < 0) {
      next[edge] = head[from]!;
      head[from] = edge;
      continue;
    }
    if (before < 0) head[to] = next[waiting]!;
    else next[before] = next[waiting]!;
    opposite[edge] = waiting;
    opposite[waiting] = edge;
  }
  return opposite;
}

/** How a surface turns on along a straight walk over it. */
export interface Turn {
  /** Sum of the folds of one sense [rad], not negative. */
  readonly turn: number;
  /** Way to the last of them [m]. */
  readonly way: number;
}

/** Folds below this are ripples of the mesh [rad]. */
const RIPPLE = 0.035;

/**
 * How far a surface goes on turning in one sense, walking straight away from an edge: until it turns the other way, runs flat
 * for longer than `gap`, or `reach` is walked.
 *
 * @param mesh - to walk on [m]
 * @param edge - half edge to start from, into its own triangle
 * @param sense - 1 to follow convex folds, −1 concave ones
 * @param limits - longest flat stretch and longest walk [m]
 * @returns turn [rad] and way [m]
 *
 * Valid: the walk begins square to the edge at its middle.
 * Cost: constant for each triangle walked over.
 * Source: straightest geodesics, K. Polthier and M. Schmies (1998), from memory.
 */
export function turnBeyond(
  mesh: WalkedMesh,
  edge: number,
  sense: 1 | -1,
  limits: { readonly gap: number; readonly reach: number },
): Turn {
  const { positions: p, triangles, normals, opposite } = mesh;
  const a = 3 * triangles[edge]!;
  const b = 3 * triangles[nextCorner(edge)]!;
  at.x = (p[a]! + p[b]!) / 2;
  at.y = (p[a + 1]! + p[b + 1]!) / 2;
  at.z = (p[a + 2]! + p[b + 2]!) / 2;
  let here = edge;
  // The edge's own direction: folds are counted about it.
  const ax = p[b]! - p[a]!;
  const ay = p[b + 1]! - p[a + 1]!;
  const az = p[b + 2]! - p[a + 2]!;
  const size = Math.sqrt(ax * ax + ay * ay + az * az) || 1;
  let turn = 0;
  let way = 0;
  let walked = 0;
  for (;;) {
    const face = here - (here % 3);
    const nx = normals[face]!;
    const ny = normals[face + 1]!;
    const nz = normals[face + 2]!;
    // Walking square to the axis in each face keeps the walk straight.
    const ox = ny * (az / size) - nz * (ay / size);
    const oy = nz * (ax / size) - nx * (az / size);
    const oz = nx * (ay / size) - ny * (ax / size);
    const length = Math.sqrt(ox * ox + oy * oy + oz * oz) || 1;
    onward.x = ox / length;
    onward.y = oy / length;
    onward.z = oz / length;
    const out = exitOf(mesh, here);
    if (out < 0) return { turn, way };
    walked += stepped.way;
    if (walked - way > limits.gap) return { turn, way };
    if (walked > limits.reach) return { turn: Infinity, way };
    const across = opposite[out]!;
    if (across < 0) return { turn, way };
    const next = across - (across % 3);
    const bx = normals[next]!;
    const by = normals[next + 1]!;
    const bz = normals[next + 2]!;
    const fold =
      sense * Math.atan2(bx * onward.x + by * onward.y + bz * onward.z, bx * nx + by * ny + bz * nz);
    if (fold < -RIPPLE) return { turn, way };
    if (fold > RIPPLE) {
      turn += fold;
      way = walked;
    }
    here = across;
  }
}

/** Where the walk is, which way it goes, and how far its last step was [m]; one walk goes at a time. */
const at = { x: 0, y: 0, z: 0 };
const onward = { x: 0, y: 0, z: 0 };
const stepped = { way: 0 };

/** The half edge through which a walk leaves the triangle that it entered through another; `at` goes there. −1 for none. */
function exitOf({ positions: p, triangles }: WalkedMesh, entry: number): number {
  const second = nextCorner(entry);
  const third = nextCorner(second);
  const tip = 3 * triangles[third]!;
  // Which side of the far corner the walk passes.
  const tx = p[tip]! - at.x;
  const ty = p[tip + 1]! - at.y;
  const tz = p[tip + 2]! - at.z;
  const forward = tx * onward.x + ty * onward.y + tz * onward.z;
  if (!(forward > 0)) return -1;
  const a = 3 * triangles[entry]!;
  const b = 3 * triangles[second]!;
  const side =
    (tx - forward * onward.x) * (p[b]! - p[a]!) +
    (ty - forward * onward.y) * (p[b + 1]! - p[a + 1]!) +
    (tz - forward * onward.z) * (p[b + 2]! - p[a + 2]!);
  const edge = side > 0 ? third : second;
  return crossed(p, 3 * triangles[edge]!, 3 * triangles[nextCorner(edge)]!) ? edge : -1;
}

/** Takes a walk to where its ray, in the plane of a triangle, meets the line between two corners; false where it does not. */
function crossed(p: Float64Array, from: number, to: number): boolean {
  const lx = p[to]! - p[from]!;
  const ly = p[to + 1]! - p[from + 1]!;
  const lz = p[to + 2]! - p[from + 2]!;
  const sx = p[from]! - at.x;
  const sy = p[from + 1]! - at.y;
  const sz = p[from + 2]! - at.z;
  const qx = ly * onward.z - lz * onward.y;
  const qy = lz * onward.x - lx * onward.z;
  const qz = lx * onward.y - ly * onward.x;
  const size = qx * qx + qy * qy + qz * qz;
  if (!(size > 0)) return false;
  const way = ((ly * sz - lz * sy) * qx + (lz * sx - lx * sz) * qy + (lx * sy - ly * sx) * qz) / size;
  if (!(way >= 0)) return false;
  at.x += way * onward.x;
  at.y += way * onward.y;
  at.z += way * onward.z;
  stepped.way = way;
  return true;
}
