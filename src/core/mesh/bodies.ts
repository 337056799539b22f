import type { Mesh } from './mesh.ts';

/** A connected piece of surface. */
export interface Body {
  /** Volume it encloses, negative where it faces inwards [cube of the mesh's unit]. */
  readonly volume: number;
  /** Its vertex of the lowest number. */
  readonly vertex: number;
  readonly triangles: number;
}

/** The connected pieces of a mesh. */
export interface Bodies {
  readonly bodies: readonly Body[];
  /** For each vertex the lowest vertex number of its piece. */
  readonly rootOf: Int32Array;
  /** Triangles without area. */
  readonly flat: number;
}

/**
 * Connected pieces of a closed surface and what each encloses; pieces that touch in a vertex count as one.
 *
 * @param mesh - closed and consistently wound, any unit
 * @param centre - point about which volumes are summed, best the centre of the box [unit of the mesh]
 * @returns pieces in the order of their first vertex, volumes [cube of the mesh's unit]
 *
 * Cost: one pass with path halving, one pass for the volumes.
 * Source: union by lowest index after Tarjan and van Leeuwen, J. ACM 31(2), 1984, 245-281 (from memory); volume as
 * {@link meshVolume}.
 */
export function meshBodies(mesh: Mesh, centre: readonly [number, number, number]): Bodies {
  const rootOf = vertexRoots(mesh);
  const numberOf = new Int32Array(rootOf.length);
  const roots: number[] = [];
  rootOf.forEach((root, vertex) => {
    if (root === vertex) numberOf[vertex] = roots.push(vertex) - 1;
  });
  const { volumes, counts, flat } = bodySums(
    mesh,
    centre,
    (vertex) => numberOf[rootOf[vertex]!]!,
    roots.length,
  );
  const bodies = roots.map((vertex, body) => ({ vertex, volume: volumes[body]!, triangles: counts[body]! }));
  return { bodies, rootOf, flat };
}

function vertexRoots({ positions, triangles }: Mesh): Int32Array {
  const parent = new Int32Array(positions.length / 3);
  for (let vertex = 0; vertex < parent.length; vertex++) parent[vertex] = vertex;
  const root = (vertex: number): number => {
    let at = vertex;
    for (let up = parent[at]!; up !== at; up = parent[at]!) {
      parent[at] = parent[up]!;
      at = parent[at]!;
    }
    return at;
  };
  const join = (a: number, b: number): void => {
    const one = root(a);
    const other = root(b);
    if (one < other) parent[other] = one;
    else parent[one] = other;
  };
  for (let corner = 0; corner < triangles.length; corner += 3) {
    const a = triangles[corner]!;
    const b = triangles[corner + 1]!;
    const c = triangles[corner + 2]!;
    if (parent[b] !== parent[a]) join(a, b);
    if (parent[c] !== parent[a]) join(a, c);
  }
  // A parent has the lower number, so it is settled before its children.
  for (let vertex = 0; vertex < parent.length; vertex++) parent[vertex] = parent[parent[vertex]!]!;
  return parent;
}

function bodySums(
  { positions: p, triangles }: Mesh,
  [ox, oy, oz]: readonly [number, number, number],
  bodyOf: (vertex: number) => number,
  bodies: number,
) {
  const volumes = new Float64Array(bodies);
  const counts = new Uint32Array(bodies);
  let flat = 0;
  for (let corner = 0; corner < triangles.length; corner += 3) {
    const i = 3 * triangles[corner]!;
    const j = 3 * triangles[corner + 1]!;
    const k = 3 * triangles[corner + 2]!;
    const ax = p[i]!;
    const ay = p[i + 1]!;
    const az = p[i + 2]!;
    const bx = p[j]! - ax;
    const by = p[j + 1]! - ay;
    const bz = p[j + 2]! - az;
    const cx = p[k]! - ax;
    const cy = p[k + 1]! - ay;
    const cz = p[k + 2]! - az;
    const nx = by * cz - bz * cy;
    const ny = bz * cx - bx * cz;
    const nz = bx * cy - by * cx;
    const body = bodyOf(triangles[corner]!);
    volumes[body] = volumes[body]! + ((ax - ox) * nx + (ay - oy) * ny + (az - oz) * nz) / 6;
    counts[body] = counts[body]! + 1;
    if (nx === 0 && ny === 0 && nz === 0) flat++;
  }
  return { volumes, counts, flat };
}

/**
 * How often a closed surface winds around a point: 1 inside, 0 outside, for a surface that faces outwards.
 *
 * @param mesh - any unit
 * @param point - off the surface [unit of the mesh]
 * @param counts - which triangles count, by the number of their first vertex
 * @returns winding number [-], whole within rounding
 *
 * Cost: one arctangent a triangle.
 * Source: A. van Oosterom and J. Strackee, "The solid angle of a plane triangle", IEEE Trans. Biomed. Eng. 30(2), 1983,
 * 125-126 (from memory).
 */
export function windingNumber(
  { positions, triangles }: Mesh,
  point: readonly [number, number, number],
  counts: (vertex: number) => boolean = () => true,
): number {
  const from = (vertex: number) => [0, 1, 2].map((axis) => positions[3 * vertex + axis]! - point[axis]!);
  let angle = 0;
  for (let corner = 0; corner < triangles.length; corner += 3) {
    if (!counts(triangles[corner]!)) continue;
    const [a, b, c] = [0, 1, 2].map((k) => from(triangles[corner + k]!)) as [number[], number[], number[]];
    const la = Math.hypot(...a);
    const lb = Math.hypot(...b);
    const lc = Math.hypot(...c);
    const whole = la * lb * lc + dot(a, b) * lc + dot(b, c) * la + dot(c, a) * lb;
    angle += 2 * Math.atan2(dot(a, cross(b, c)), whole);
  }
  return angle / (4 * Math.PI);
}

function dot(a: readonly number[], b: readonly number[]): number {
  return a[0]! * b[0]! + a[1]! * b[1]! + a[2]! * b[2]!;
}

function cross(a: readonly number[], b: readonly number[]): number[] {
  return [a[1]! * b[2]! - a[2]! * b[1]!, a[2]! * b[0]! - a[0]! * b[2]!, a[0]! * b[1]! - a[1]! * b[0]!];
}
