import type { Mesh, Vec3 } from '../mesh/mesh.ts';
import { LEAF, type BoxTree } from './box-tree.ts';
import { sectionAt, type Section } from './slice.ts';

/** A plane with coordinates in it: point = origin + u·U + v·V; U, V and the normal are right-handed unit vectors. */
export interface Frame {
  readonly origin: Vec3;
  readonly u: Vec3;
  readonly v: Vec3;
  readonly normal: Vec3;
}

const cross = (a: Vec3, b: Vec3): Vec3 => [
  a[1] * b[2] - a[2] * b[1],
  a[2] * b[0] - a[0] * b[2],
  a[0] * b[1] - a[1] * b[0],
];

/**
 * A plane through a point, with V as near to +z as it can be.
 *
 * @param origin - point of the plane [m]
 * @param direction - along its normal, any length above 0
 * @returns the frame, unit vectors
 * @throws {RangeError} when the direction has no length
 *
 * Cost: constant.
 * Source: Gram-Schmidt.
 */
export function frameAcross(origin: Vec3, direction: Vec3): Frame {
  const size = Math.hypot(...direction);
  if (!(size > 0))
    throw new RangeError(`frameAcross: wants a direction with a length, got ${direction.join(', ')}`);
  const normal: Vec3 = [direction[0] / size, direction[1] / size, direction[2] / size];
  const up: Vec3 = Math.abs(normal[2]) < 0.9 ? [0, 0, 1] : [1, 0, 0];
  const across = cross(up, normal);
  const width = Math.hypot(...across);
  const u: Vec3 = [across[0] / width, across[1] / width, across[2] / width];
  return { origin, u, v: cross(normal, u), normal };
}

/**
 * A point of a plane in space.
 *
 * @param frame - the plane [m]
 * @param u - coordinate along U [m]
 * @param v - coordinate along V [m]
 * @returns the point [m]
 *
 * Cost: constant.
 * Source: definition.
 */
export function pointOf(frame: Frame, u: number, v: number): Vec3 {
  const { origin: o, u: a, v: b } = frame;
  return [o[0] + u * a[0] + v * b[0], o[1] + u * a[1] + v * b[1], o[2] + u * a[2] + v * b[2]];
}

/**
 * Section of a closed mesh by any plane.
 *
 * @param tree - boxes over the mesh [m]
 * @param frame - the plane; the section comes in its coordinates
 * @returns the section, at 0 [m]
 * @throws {RangeError} when the surface is open at the plane
 *
 * Cost: linear in the triangles that the plane meets.
 * Source: as `sectionsAlong`, on the triangles that a box tree finds near the plane.
 */
export function obliqueSection(tree: BoxTree, frame: Frame): Section {
  return sectionAt(turnedPart(tree.mesh, trianglesNear(tree, frame), frame), 'z', 0);
}

/** Triangles in the lowest boxes that the plane passes through. */
function trianglesNear({ boxes, leaves, order }: BoxTree, { origin, normal }: Frame): number[] {
  const near: number[] = [];
  const pending = [1];
  while (pending.length > 0) {
    const node = pending.pop()!;
    let middle = 0;
    let reach = 0;
    for (let axis = 0; axis < 3; axis++) {
      const low = boxes[6 * node + axis]!;
      const high = boxes[6 * node + 3 + axis]!;
      middle += ((low + high) / 2 - origin[axis]!) * normal[axis]!;
      reach += ((high - low) / 2) * Math.abs(normal[axis]!);
    }
    // A little more than touching, since heights are rounded; an empty box has no reach and is left.
    if (!(Math.abs(middle) <= reach * (1 + 1e-9) + 1e-12)) continue;
    if (node < leaves) {
      pending.push(2 * node, 2 * node + 1);
      continue;
    }
    const end = Math.min(order.length, LEAF * (node - leaves) + LEAF);
    for (let i = LEAF * (node - leaves); i < end; i++) near.push(order[i]!);
  }
  return near;
}

/** Rows of the vertices taken so far; −1 for all others, and for all of them between calls. */
let rows = new Int32Array(0);

/** Some triangles as a mesh of their own in the coordinates of a plane, height across it last. */
function turnedPart({ positions, triangles }: Mesh, chosen: readonly number[], frame: Frame): Mesh {
  if (rows.length < positions.length / 3) rows = new Int32Array(positions.length / 3).fill(-1);
  const corners = new Uint32Array(3 * chosen.length);
  const vertices: number[] = [];
  for (let i = 0; i < corners.length; i++) {
    const vertex = triangles[3 * chosen[Math.floor(i / 3)]! + (i % 3)]!;
    if (rows[vertex]! < 0) rows[vertex] = vertices.push(vertex) - 1;
    corners[i] = rows[vertex]!;
  }
  const turned = new Float64Array(3 * vertices.length);
  const { origin, u, v, normal } = frame;
  vertices.forEach((vertex, row) => {
    rows[vertex] = -1;
    const x = positions[3 * vertex]! - origin[0];
    const y = positions[3 * vertex + 1]! - origin[1];
    const z = positions[3 * vertex + 2]! - origin[2];
    turned[3 * row] = x * u[0] + y * u[1] + z * u[2];
    turned[3 * row + 1] = x * v[0] + y * v[1] + z * v[2];
    turned[3 * row + 2] = x * normal[0] + y * normal[1] + z * normal[2];
  });
  return { positions: turned, triangles: corners };
}
