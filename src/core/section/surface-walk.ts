import type { Mesh, Vec3 } from '../mesh/mesh.ts';

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
    const [a, b, c] = [3 * triangles[t]!, 3 * triangles[t + 1]!, 3 * triangles[t + 2]!];
    const [bx, by, bz] = [p[b]! - p[a]!, p[b + 1]! - p[a + 1]!, p[b + 2]! - p[a + 2]!];
    const [cx, cy, cz] = [p[c]! - p[a]!, p[c + 1]! - p[a + 1]!, p[c + 2]! - p[a + 2]!];
    const [nx, ny, nz] = [by * cz - bz * cy, bz * cx - bx * cz, bx * cy - by * cx];
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
  const [a, b] = [3 * triangles[edge]!, 3 * triangles[nextCorner(edge)]!];
  let at: Vec3 = [(p[a]! + p[b]!) / 2, (p[a + 1]! + p[b + 1]!) / 2, (p[a + 2]! + p[b + 2]!) / 2];
  let here = edge;
  // The edge's own direction: folds are counted about it.
  const axis = unit([p[b]! - p[a]!, p[b + 1]! - p[a + 1]!, p[b + 2]! - p[a + 2]!]);
  let [turn, way, walked] = [0, 0, 0];
  for (;;) {
    const face = here - (here % 3);
    const normal: Vec3 = [normals[face]!, normals[face + 1]!, normals[face + 2]!];
    // Walking square to the axis in each face keeps the walk straight.
    const onward = unit(cross(normal, axis));
    const out = exitOf(mesh, here, at, onward);
    if (!out) return { turn, way };
    walked += out.way;
    if (walked - way > limits.gap) return { turn, way };
    if (walked > limits.reach) return { turn: Infinity, way };
    const across = opposite[out.edge]!;
    if (across < 0) return { turn, way };
    const next = across - (across % 3);
    const beyond: Vec3 = [normals[next]!, normals[next + 1]!, normals[next + 2]!];
    const fold = sense * Math.atan2(dot(beyond, onward), dot(beyond, normal));
    if (fold < -RIPPLE) return { turn, way };
    if (fold > RIPPLE) [turn, way] = [turn + fold, walked];
    [here, at] = [across, out.at];
  }
}

/** Where a walk leaves the triangle that it entered through the half edge `entry`. */
function exitOf(
  { positions: p, triangles }: WalkedMesh,
  entry: number,
  at: Vec3,
  onward: Vec3,
): { readonly edge: number; readonly at: Vec3; readonly way: number } | null {
  const second = nextCorner(entry);
  const third = nextCorner(second);
  const tip = 3 * triangles[third]!;
  // Which side of the far corner the walk passes.
  const toTip: Vec3 = [p[tip]! - at[0], p[tip + 1]! - at[1], p[tip + 2]! - at[2]];
  const [a, b] = [3 * triangles[entry]!, 3 * triangles[second]!];
  const along: Vec3 = [p[b]! - p[a]!, p[b + 1]! - p[a + 1]!, p[b + 2]! - p[a + 2]!];
  const forward = dot(toTip, onward);
  if (!(forward > 0)) return null;
  const side: Vec3 = [
    toTip[0] - forward * onward[0],
    toTip[1] - forward * onward[1],
    toTip[2] - forward * onward[2],
  ];
  const edge = dot(side, along) > 0 ? third : second;
  const from = 3 * triangles[edge === third ? third : second]!;
  const to = 3 * triangles[nextCorner(edge)]!;
  return crossing(p, from, to, at, onward, edge);
}

/** Where a ray in the plane of a triangle meets one of its edges. */
function crossing(p: Float64Array, from: number, to: number, at: Vec3, onward: Vec3, edge: number) {
  const line: Vec3 = [p[to]! - p[from]!, p[to + 1]! - p[from + 1]!, p[to + 2]! - p[from + 2]!];
  const start: Vec3 = [p[from]! - at[0], p[from + 1]! - at[1], p[from + 2]! - at[2]];
  const square = cross(line, onward);
  const size = dot(square, square);
  if (!(size > 0)) return null;
  const way = dot(cross(line, start), square) / size;
  if (!(way >= 0)) return null;
  const met: Vec3 = [at[0] + way * onward[0], at[1] + way * onward[1], at[2] + way * onward[2]];
  return { edge, at: met, way };
}

const dot = (a: Vec3, b: Vec3): number => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];

const cross = (a: Vec3, b: Vec3): Vec3 => [
  a[1] * b[2] - a[2] * b[1],
  a[2] * b[0] - a[0] * b[2],
  a[0] * b[1] - a[1] * b[0],
];

function unit([x, y, z]: Vec3): Vec3 {
  const size = Math.sqrt(x * x + y * y + z * z) || 1;
  return [x / size, y / size, z / size];
}
