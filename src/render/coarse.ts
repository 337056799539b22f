import type { Mesh } from '../core/mesh/mesh.ts';
import { bounds } from './camera.ts';

/** Times that the edge of a cell is doubled. */
const LEVELS = 6;
/** Normals of a cell's points may spread so far that its surface bends by a third of the smallest cell. */
const SPREAD = 0.3;

/** Points that become one: sums of what they were. */
interface Cells {
  count: number;
  /** Shape (cells, 3): place on the grid. */
  readonly place: Int32Array;
  /** Shape (cells, 6): sums of positions and of normals. */
  readonly sums: Float64Array;
  readonly points: Uint32Array;
  /** Whether the cell may become part of a larger one. */
  readonly even: Uint8Array;
}

const cellsFor = (most: number): Cells => ({
  count: 0,
  place: new Int32Array(3 * most),
  sums: new Float64Array(6 * most),
  points: new Uint32Array(most),
  even: new Uint8Array(most).fill(1),
});

/** Finds the cell of a place, or makes it. */
function finder(cells: Cells, most: number): (x: number, y: number, z: number) => number {
  const size = 1 << Math.ceil(Math.log2(2 * most + 1));
  const table = new Int32Array(size).fill(-1);
  const { place } = cells;
  return (x, y, z) => {
    let slot = Math.imul(x, 0x9e3779b1) ^ Math.imul(y, 0x85ebca6b) ^ Math.imul(z, 0xc2b2ae35);
    slot = (slot ^ (slot >>> 15)) & (size - 1);
    for (let cell = table[slot]!; cell >= 0; cell = table[slot]!) {
      if (place[3 * cell] === x && place[3 * cell + 1] === y && place[3 * cell + 2] === z) return cell;
      slot = (slot + 1) & (size - 1);
    }
    const cell = cells.count++;
    table[slot] = cell;
    place[3 * cell] = x;
    place[3 * cell + 1] = y;
    place[3 * cell + 2] = z;
    return cell;
  };
}

/** Points of a mesh in the smallest cells, and the cell of each. */
function finest({ positions }: Mesh, normals: Float32Array, edge: number): { cells: Cells; of: Uint32Array } {
  const most = positions.length / 3;
  const cells = cellsFor(most);
  const find = finder(cells, most);
  const { min } = bounds(positions);
  const of = new Uint32Array(most);
  for (let point = 0, i = 0; point < most; point++, i += 3) {
    const cell = find(
      Math.floor((positions[i]! - min[0]) / edge),
      Math.floor((positions[i + 1]! - min[1]) / edge),
      Math.floor((positions[i + 2]! - min[2]) / edge),
    );
    of[point] = cell;
    cells.points[cell]!++;
    for (let axis = 0; axis < 3; axis++) {
      cells.sums[6 * cell + axis]! += positions[i + axis]!;
      cells.sums[6 * cell + 3 + axis]! += normals[i + axis]!;
    }
  }
  return { cells, of };
}

/** Cells that turn too much within cannot grow. */
function judge({ count, sums, points, even }: Cells, level: number): void {
  const least = 1 - SPREAD / 4 ** level;
  for (let cell = 0; cell < count; cell++) {
    const x = sums[6 * cell + 3]!;
    const y = sums[6 * cell + 4]!;
    const z = sums[6 * cell + 5]!;
    if (x * x + y * y + z * z < (least * points[cell]!) ** 2) even[cell] = 0;
  }
}

const canGrow = ({ count, even }: Cells): boolean => even.subarray(0, count).includes(1);

/** Cells twice as large, and the one that each of the smaller falls into. */
function doubled(small: Cells, level: number): { cells: Cells; of: Uint32Array } {
  const cells = cellsFor(small.count);
  const find = finder(cells, small.count);
  const of = new Uint32Array(small.count);
  for (let i = 0; i < small.count; i++) {
    const cell = find(small.place[3 * i]! >> 1, small.place[3 * i + 1]! >> 1, small.place[3 * i + 2]! >> 1);
    of[i] = cell;
    if (small.even[i] === 0) cells.even[cell] = 0;
    cells.points[cell]! += small.points[i]!;
    for (let k = 0; k < 6; k++) cells.sums[6 * cell + k]! += small.sums[6 * i + k]!;
  }
  judge(cells, level);
  return { cells, of };
}

/** Largest cell that each point may become one with, as a number, and the middles of all those cells. */
function merged(mesh: Mesh, normals: Float32Array, edge: number): { of: Uint32Array; middles: Float64Array } {
  const { cells, of } = finest(mesh, normals, edge);
  judge(cells, 0);
  const levels = [{ cells, of }];
  for (let level = 1, small = cells; level <= LEVELS && canGrow(small); level++) {
    const next = doubled(small, level);
    levels.push(next);
    small = next.cells;
  }
  const middles = new Float64Array(3 * cells.count);
  let count = 0;
  let above: Int32Array | undefined;
  // From the largest cells down: where one grew, those in it take its number.
  for (let level = levels.length - 1; level >= 0; level--) {
    const { cells: here } = levels[level]!;
    const up = levels[level + 1]?.of;
    const number = new Int32Array(here.count).fill(-1);
    for (let i = 0; i < here.count; i++) {
      const taken = above && up ? above[up[i]!]! : -1;
      if (taken >= 0) number[i] = taken;
      else if (here.even[i] === 1 || level === 0) {
        number[i] = count;
        for (let axis = 0; axis < 3; axis++)
          middles[3 * count + axis] = here.sums[6 * i + axis]! / here.points[i]!;
        count++;
      }
    }
    above = number;
  }
  return { of: of.map((cell) => above![cell]!), middles: middles.slice(0, 3 * count) };
}

/**
 * A mesh with fewer triangles that casts the same shadow: points in one cell of a grid become one, in larger cells
 * where the surface is nearly flat. Closed meshes stay closed.
 *
 * @param mesh - any mesh
 * @param normals - mean of the faces around each point: shape (V, 3)
 * @param edge - of the smallest cells; the surface moves by half of it at most
 *
 * Source: vertex clustering, J. Rossignac and P. Borrel (1993), on an octree.
 */
export function coarse(mesh: Mesh, normals: Float32Array, edge: number): Mesh {
  const { of, middles } = merged(mesh, normals, edge);
  const { triangles } = mesh;
  const kept = new Uint32Array(triangles.length);
  let count = 0;
  for (let corner = 0; corner < triangles.length; corner += 3) {
    const a = of[triangles[corner]!]!;
    const b = of[triangles[corner + 1]!]!;
    const c = of[triangles[corner + 2]!]!;
    if (a === b || b === c || c === a) continue;
    kept[count++] = a;
    kept[count++] = b;
    kept[count++] = c;
  }
  return { positions: middles, triangles: kept.slice(0, count) };
}
