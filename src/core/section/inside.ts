import { LEAF, type BoxTree } from './box-tree.ts';

/** What of a tree lines along z are held against. */
export type LineTree = Pick<BoxTree, 'mesh' | 'leaves' | 'boxes' | 'order'>;

/** Stands for an area that is not zero but weighs nothing [m²]. */
const VANISHING = 1e-300;

/**
 * Twice the signed area of a, b, p in plan, its sign never zero: a point on the line is moved by a vanishing
 * step along x, then y. Taken with the lower index first, so both triangles of an edge agree to the last bit.
 *
 * @param positions - rows of points [m]
 * @param a - row of one end
 * @param b - row of the other
 * @param x - of p [m]
 * @param y - of p [m]
 * @returns positive when p lies to the left of a → b [m²]; 0 only when a and b coincide in plan
 *
 * Cost: constant.
 * Source: H. Edelsbrunner and E. P. Mücke, Simulation of simplicity, ACM Trans. Graphics 9 (1990).
 */
export function sideInPlan(positions: Float64Array, a: number, b: number, x: number, y: number): number {
  if (a > b) return -sideInPlan(positions, b, a, x, y);
  const ax = positions[3 * a]!;
  const ay = positions[3 * a + 1]!;
  const dx = positions[3 * b]! - ax;
  const dy = positions[3 * b + 1]! - ay;
  const side = dx * (y - ay) - dy * (x - ax);
  if (side !== 0) return side;
  return (dy === 0 ? Math.sign(dx) : -Math.sign(dy)) * VANISHING;
}

/**
 * Stretches of a line along z that lie inside a closed mesh.
 *
 * @param tree - boxes over the mesh [m]
 * @param x - of the line [m]
 * @param y - of the line [m]
 * @returns bottom and top of each stretch, from the lowest up [m]
 *
 * Valid: closed mesh wound outwards; where it overlaps itself the stretches are joined.
 * Cost: logarithmic and the crossings met.
 * Source: winding number along a ray, ties as in `sideInPlan`.
 */
export function stretchesInside(tree: BoxTree, x: number, y: number): [number, number][] {
  const crossings = crossingsAlong(tree, x, y, -Infinity).sort((a, b) => a.z - b.z || b.turns - a.turns);
  const stretches: [number, number][] = [];
  let winding = 0;
  for (const { z, turns } of crossings) {
    if (winding === 0 && turns > 0) stretches.push([z, z]);
    winding += turns;
    if (stretches.length > 0) stretches.at(-1)![1] = z;
  }
  return stretches;
}

/**
 * Whether a point lies inside a closed mesh: surface crossings along a line from it towards +z.
 *
 * @param tree - boxes over the mesh [m]
 * @param x - [m]
 * @param y - [m]
 * @param z - [m]
 * @returns true inside; on the surface either
 *
 * Cost: logarithmic and the crossings met.
 * Source: winding number along a ray, ties as in `sideInPlan`.
 */
export function isInside(tree: BoxTree, x: number, y: number, z: number): boolean {
  // Going up, a line that starts inside leaves once more than it enters.
  return crossingsAlong(tree, x, y, z).reduce((sum, { turns }) => sum + turns, 0) < 0;
}

/**
 * Whether a line along z meets the surface of a mesh above a height.
 *
 * @param tree - boxes over the mesh [m]
 * @param x - of the line [m]
 * @param y - of the line [m]
 * @param above - height [m]; −Infinity asks about the whole line
 * @returns true when it does
 *
 * Cost: logarithmic and the crossings met.
 * Source: definition; ties as in `sideInPlan`.
 */
export function surfaceOnLine(
  { boxes, leaves, order, mesh: { positions: p, triangles } }: LineTree,
  x: number,
  y: number,
  above: number,
): boolean {
  let depth = 0;
  pending[depth++] = 1;
  while (depth > 0) {
    const node = pending[--depth]!;
    const at = 6 * node;
    if (!(above <= boxes[at + 5]! && x >= boxes[at]! && x <= boxes[at + 3]!)) continue;
    if (!(y >= boxes[at + 1]! && y <= boxes[at + 4]!)) continue;
    if (node < leaves) {
      pending[depth++] = 2 * node;
      pending[depth++] = 2 * node + 1;
      continue;
    }
    const end = Math.min(order.length, LEAF * (node - leaves) + LEAF);
    for (let i = LEAF * (node - leaves); i < end; i++) {
      const t = 3 * order[i]!;
      const [a, b, c] = [triangles[t]!, triangles[t + 1]!, triangles[t + 2]!];
      const wc = sideInPlan(p, a, b, x, y);
      const wa = sideInPlan(p, b, c, x, y);
      if (wa > 0 !== wc > 0) continue;
      const wb = sideInPlan(p, c, a, x, y);
      if (wb > 0 !== wc > 0) continue;
      if ((wa * p[3 * a + 2]! + wb * p[3 * b + 2]! + wc * p[3 * c + 2]!) / (wa + wb + wc) > above)
        return true;
    }
  }
  return false;
}

/** Nodes still to be looked at: at most one a level beside the path down. */
const pending = new Int32Array(64);

interface Crossing {
  readonly z: number;
  /** +1 where a line towards +z enters the solid, −1 where it leaves. */
  readonly turns: number;
}

/** Surface crossings above a height on a line along z. */
function crossingsAlong(
  { boxes, leaves, order, mesh }: BoxTree,
  x: number,
  y: number,
  above: number,
): Crossing[] {
  const crossings: Crossing[] = [];
  const pending = [1];
  while (pending.length > 0) {
    const node = pending.pop()!;
    const at = 6 * node;
    if (!(above <= boxes[at + 5]! && x >= boxes[at]! && x <= boxes[at + 3]!)) continue;
    if (!(y >= boxes[at + 1]! && y <= boxes[at + 4]!)) continue;
    if (node < leaves) {
      pending.push(2 * node, 2 * node + 1);
      continue;
    }
    const end = Math.min(order.length, LEAF * (node - leaves) + LEAF);
    for (let i = LEAF * (node - leaves); i < end; i++) {
      const crossing = crossingOf(mesh.positions, mesh.triangles, order[i]!, x, y);
      if (crossing && crossing.z > above) crossings.push(crossing);
    }
  }
  return crossings;
}

function crossingOf(
  p: Float64Array,
  triangles: Uint32Array,
  t: number,
  x: number,
  y: number,
): Crossing | null {
  const [a, b, c] = [triangles[3 * t]!, triangles[3 * t + 1]!, triangles[3 * t + 2]!];
  const wc = sideInPlan(p, a, b, x, y);
  const wa = sideInPlan(p, b, c, x, y);
  const wb = sideInPlan(p, c, a, x, y);
  const facesUp = wa > 0 && wb > 0 && wc > 0;
  if (!facesUp && !(wa < 0 && wb < 0 && wc < 0)) return null;
  const z = (wa * p[3 * a + 2]! + wb * p[3 * b + 2]! + wc * p[3 * c + 2]!) / (wa + wb + wc);
  return { z, turns: facesUp ? -1 : 1 };
}
