import type { Mesh } from '../mesh/mesh.ts';

/** Triangles under one lowest box. */
export const LEAF = 4;

/**
 * Bounding boxes over the triangles of a mesh, as a complete binary tree: node 1 is all, node n has children
 * 2n and 2n + 1, the lowest boxes are nodes `leaves` to 2·leaves − 1. `boxes` has shape (2·leaves, 6): least x, y, z,
 * greatest x, y, z [m]. Box `leaves` + i holds triangles `order[LEAF·i]` to `order[LEAF·i + LEAF − 1]`.
 */
export interface BoxTree {
  readonly mesh: Mesh;
  readonly leaves: number;
  readonly boxes: Float64Array;
  readonly order: Uint32Array;
  /** Worked out when a search for distances first asks for them. */
  readonly faces: Faces;
}

/** What searches for the nearest point need of the triangles, in the order of the tree. */
export interface Faces {
  /** Planes, shape (T, 4): unit normal and distance from the origin [m]; all 0 where a triangle has no area. */
  readonly planes: Float64Array;
  /** Shape (T, 12): first corner, edges to the second and the third [m], products of the edges bb, bc, cc [m²]. */
  readonly edges: Float64Array;
  /**
   * Slabs that hold all triangles of a node, shape (2·leaves, 5): unit normal, offset of the middle from the origin, half
   * thickness [m]. A patch of a round surface bulges out of its box's corner, but hardly out of its slab. Nodes of more than
   * `SLAB_TRIANGLES` have a half thickness of Infinity.
   */
  readonly slabs: Float64Array;
}

/** Triangles that a slab is laid about, at most. */
export const SLAB_TRIANGLES = 256;

const trees = new WeakMap<Mesh, BoxTree>();

/**
 * A tree of boxes over a mesh, for searches that must not look at every triangle. It is kept as long as the mesh, which must
 * not be changed any more.
 *
 * @param mesh - any triangles [m]
 * @returns the tree, in metres
 * @throws {RangeError} when there is no triangle
 *
 * Valid: up to 8 million triangles.
 * Cost: a sort of the triangles along a Morton curve; 100 000 of them in some 30 ms.
 * Source: G. M. Morton, A computer oriented geodetic data base (1966); C. Lauterbach and others, Fast BVH
 * construction on GPUs, Computer Graphics Forum 28 (2009), from memory.
 */
export function boxTree(mesh: Mesh): BoxTree {
  const known = trees.get(mesh);
  if (known) return known;
  const tree = treeOf(mesh);
  trees.set(mesh, tree);
  return tree;
}

function treeOf(mesh: Mesh): BoxTree {
  const count = mesh.triangles.length / 3;
  if (count === 0) throw new RangeError('boxTree: wants at least one triangle, got none');
  const order = mortonOrder(mesh);
  let leaves = 1;
  while (leaves * LEAF < count) leaves *= 2;
  const boxes = new Float64Array(12 * leaves);
  for (let leaf = 0; leaf < leaves; leaf++) {
    fillLeaf(mesh, order.subarray(LEAF * leaf, LEAF * leaf + LEAF), boxes, 6 * (leaves + leaf));
  }
  for (let node = leaves - 1; node > 0; node--) {
    for (let axis = 0; axis < 3; axis++) {
      const [own, one, two] = [6 * node + axis, 12 * node + axis, 12 * node + 6 + axis];
      boxes[own] = Math.min(boxes[one]!, boxes[two]!);
      boxes[own + 3] = Math.max(boxes[one + 3]!, boxes[two + 3]!);
    }
  }
  let faces: Faces | undefined;
  return {
    ...{ mesh, leaves, boxes, order },
    get faces() {
      return (faces ??= facesOf(mesh, order, leaves));
    },
  };
}

function slabsOf(edges: Float64Array, count: number, leaves: number): Float64Array {
  const slabs = new Float64Array(10 * leaves);
  for (let leaf = 0; leaf < leaves; leaf++) addNormals(edges, LEAF * leaf, Math.min(count, LEAF * (leaf + 1)), slabs, 5 * (leaves + leaf)); // prettier-ignore
  let [first, span] = [leaves, LEAF];
  for (; first > 1 && 2 * span <= SLAB_TRIANGLES; first /= 2) {
    for (let node = first / 2; node < first; node++) {
      for (let axis = 0; axis < 3; axis++)
        slabs[5 * node + axis] = slabs[10 * node + axis]! + slabs[10 * node + 5 + axis]!;
    }
    span *= 2;
  }
  for (let node = 1; node < first; node++) slabs[5 * node + 4] = Infinity;
  for (let node = first; node < 2 * leaves; node++) {
    const depth = 31 - Math.clz32(node);
    const own = (LEAF * leaves) / 2 ** depth;
    const from = own * (node - 2 ** depth);
    laySlab(edges, Math.min(count, from), Math.min(count, from + own), slabs, 5 * node);
  }
  return slabs;
}

/** Adds the area vectors of some triangles, doubled. */
function addNormals(edges: Float64Array, from: number, to: number, sums: Float64Array, at: number): void {
  for (let e = 12 * from; e < 12 * to; e += 12) {
    const bx = edges[e + 3]!;
    const by = edges[e + 4]!;
    const bz = edges[e + 5]!;
    const cx = edges[e + 6]!;
    const cy = edges[e + 7]!;
    const cz = edges[e + 8]!;
    sums[at] = sums[at]! + by * cz - bz * cy;
    sums[at + 1] = sums[at + 1]! + bz * cx - bx * cz;
    sums[at + 2] = sums[at + 2]! + bx * cy - by * cx;
  }
}

/** Makes the area vector at a place a unit normal and lays the slab across it about some triangles. */
function laySlab(edges: Float64Array, from: number, to: number, slabs: Float64Array, at: number): void {
  const sx = slabs[at]!;
  const sy = slabs[at + 1]!;
  const sz = slabs[at + 2]!;
  const size = Math.sqrt(sx * sx + sy * sy + sz * sz);
  if (!(size > 0)) {
    slabs[at + 4] = Infinity;
    return;
  }
  const nx = sx / size;
  const ny = sy / size;
  const nz = sz / size;
  let low = Infinity;
  let high = -Infinity;
  for (let e = 12 * from; e < 12 * to; e += 12) {
    const a = nx * edges[e]! + ny * edges[e + 1]! + nz * edges[e + 2]!;
    const b = a + nx * edges[e + 3]! + ny * edges[e + 4]! + nz * edges[e + 5]!;
    const c = a + nx * edges[e + 6]! + ny * edges[e + 7]! + nz * edges[e + 8]!;
    low = Math.min(low, a, b, c);
    high = Math.max(high, a, b, c);
  }
  slabs[at] = nx;
  slabs[at + 1] = ny;
  slabs[at + 2] = nz;
  slabs[at + 3] = (low + high) / 2;
  slabs[at + 4] = (high - low) / 2;
}

function facesOf({ positions: p, triangles }: Mesh, order: Uint32Array, leaves: number): Faces {
  const planes = new Float64Array(4 * order.length);
  const edges = new Float64Array(12 * order.length);
  for (let i = 0; i < order.length; i++) {
    const a = 3 * triangles[3 * order[i]!]!;
    const b = 3 * triangles[3 * order[i]! + 1]!;
    const c = 3 * triangles[3 * order[i]! + 2]!;
    const at = 12 * i;
    for (let axis = 0; axis < 3; axis++) {
      edges[at + axis] = p[a + axis]!;
      edges[at + 3 + axis] = p[b + axis]! - p[a + axis]!;
      edges[at + 6 + axis] = p[c + axis]! - p[a + axis]!;
    }
    const bx = edges[at + 3]!;
    const by = edges[at + 4]!;
    const bz = edges[at + 5]!;
    const cx = edges[at + 6]!;
    const cy = edges[at + 7]!;
    const cz = edges[at + 8]!;
    edges[at + 9] = bx * bx + by * by + bz * bz;
    edges[at + 10] = bx * cx + by * cy + bz * cz;
    edges[at + 11] = cx * cx + cy * cy + cz * cz;
    const nx = by * cz - bz * cy;
    const ny = bz * cx - bx * cz;
    const nz = bx * cy - by * cx;
    const size = Math.sqrt(nx * nx + ny * ny + nz * nz);
    if (!(size > 0)) continue;
    planes[4 * i] = nx / size;
    planes[4 * i + 1] = ny / size;
    planes[4 * i + 2] = nz / size;
    planes[4 * i + 3] = (nx * p[a]! + ny * p[a + 1]! + nz * p[a + 2]!) / size;
  }
  return { planes, edges, slabs: slabsOf(edges, order.length, leaves) };
}

/** An empty leaf keeps a box turned inside out, which no search enters. */
function fillLeaf(
  { positions, triangles }: Mesh,
  members: Uint32Array,
  boxes: Float64Array,
  at: number,
): void {
  boxes.fill(Infinity, at, at + 3).fill(-Infinity, at + 3, at + 6);
  for (let i = 0; i < members.length; i++) {
    for (let corner = 0; corner < 3; corner++) {
      const row = 3 * triangles[3 * members[i]! + corner]!;
      for (let axis = 0; axis < 3; axis++) {
        const value = positions[row + axis]!;
        if (value < boxes[at + axis]!) boxes[at + axis] = value;
        if (value > boxes[at + 3 + axis]!) boxes[at + 3 + axis] = value;
      }
    }
  }
}

function mortonOrder({ positions, triangles }: Mesh): Uint32Array {
  const count = triangles.length / 3;
  const min = [Infinity, Infinity, Infinity];
  const max = [-Infinity, -Infinity, -Infinity];
  for (let i = 0; i < positions.length; i++) {
    const axis = i % 3;
    min[axis] = Math.min(min[axis]!, positions[i]!);
    max[axis] = Math.max(max[axis]!, positions[i]!);
  }
  const reach = Math.max(max[0]! - min[0]!, max[1]! - min[1]!, max[2]! - min[2]!) || 1;
  const scale = 1023 / reach / 3;
  const keys = new Float64Array(count);
  for (let t = 0; t < count; t++) {
    const [a, b, c] = [3 * triangles[3 * t]!, 3 * triangles[3 * t + 1]!, 3 * triangles[3 * t + 2]!];
    let key = 0;
    for (let axis = 0; axis < 3; axis++) {
      const sum = positions[a + axis]! + positions[b + axis]! + positions[c + axis]! - 3 * min[axis]!;
      key |= spread(sum * scale) << axis;
    }
    keys[t] = key * count + t;
  }
  keys.sort();
  return Uint32Array.from(keys, (key) => key % count);
}

/** Ten bits of a number, two places of room between each and the next. */
function spread(value: number): number {
  let bits = value & 1023;
  bits = (bits | (bits << 16)) & 0x030000ff;
  bits = (bits | (bits << 8)) & 0x0300f00f;
  bits = (bits | (bits << 4)) & 0x030c30c3;
  return (bits | (bits << 2)) & 0x09249249;
}
