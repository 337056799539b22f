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

const dot = (a: Vec3, b: Vec3): number => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
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
      const [low, high] = [boxes[6 * node + axis]!, boxes[6 * node + 3 + axis]!];
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

/** Some triangles as a mesh of their own in the coordinates of a plane, height across it last. */
function turnedPart({ positions, triangles }: Mesh, chosen: readonly number[], frame: Frame): Mesh {
  const rows = new Map<number, number>();
  const turned: number[] = [];
  const corners = new Uint32Array(3 * chosen.length);
  for (let i = 0; i < corners.length; i++) {
    const vertex = triangles[3 * chosen[Math.floor(i / 3)]! + (i % 3)]!;
    let row = rows.get(vertex);
    if (row === undefined) {
      row = rows.size;
      rows.set(vertex, row);
      const offset: Vec3 = [
        positions[3 * vertex]! - frame.origin[0],
        positions[3 * vertex + 1]! - frame.origin[1],
        positions[3 * vertex + 2]! - frame.origin[2],
      ];
      turned.push(dot(offset, frame.u), dot(offset, frame.v), dot(offset, frame.normal));
    }
    corners[i] = row;
  }
  return { positions: Float64Array.from(turned), triangles: corners };
}
