import type { Cavity } from './cavity.ts';
import type { Elimination } from './elimination.ts';

/** Conductances of one instant and the pressures that follow; arrays have one entry a cell unless said otherwise. */
export interface Network {
  readonly neighbours: Int32Array;
  readonly order: Elimination;
  /** 1 where the pressure is sought: cells that are full and open. */
  readonly active: Uint8Array;
  /** To east, west, north, south; four entries a cell, 0 where nothing flows [m³/(Pa·s)]. */
  readonly link: Float64Array;
  /** To the gate, whose pressure is 1 [m³/(Pa·s)]. */
  readonly gate: Float64Array;
  /** To the front, whose pressure is 0 [m³/(Pa·s)]. */
  readonly front: Float64Array;
  /** Between front 0 and gate 1 [1]. */
  readonly pressure: Float64Array;
  readonly factor: Factor;
}

/** Factor L·D·Lᵀ in columns, in the order of elimination. */
interface Factor {
  /** Row and value of an entry; column k runs from `order.start[k]` to `end[k]`. */
  readonly row: Int32Array;
  readonly value: Float64Array;
  readonly end: Int32Array;
  readonly diagonal: Float64Array;
  /** Elimination tree of the cells in use, marks and a stack to walk it. */
  readonly parent: Int32Array;
  readonly seen: Int32Array;
  readonly stack: Int32Array;
  readonly work: Float64Array;
}

/**
 * Network of a cavity with room for every later instant.
 *
 * @param cavity - cells and neighbours
 * @returns nothing joined, all pressures 0 [1]
 *
 * Cost: linear in the factor's size.
 * Source: definition.
 */
export function emptyNetwork(cavity: Cavity): Network {
  const { count, neighbours, order } = cavity;
  const entries = order.start[count]!;
  const [list, whole] = [() => new Float64Array(count), () => new Int32Array(count)];
  return {
    ...{ neighbours, order, active: new Uint8Array(count), link: new Float64Array(4 * count) },
    ...{ gate: list(), front: list(), pressure: list() },
    factor: {
      ...{ row: new Int32Array(entries), value: new Float64Array(entries), end: whole(), diagonal: list() },
      ...{ parent: whole(), seen: whole(), stack: whole(), work: list() },
    },
  };
}

/**
 * Documented kernel: factors the network row by row. The pattern of row k is found by walking the elimination tree from
 * each neighbour that comes before k; the tree grows as it is walked.
 */
function factorise(net: Network): void {
  const { neighbours, order, active, link, gate, front } = net;
  const { cell, place, start } = order;
  const { row, value, end, diagonal, parent, seen, stack, work } = net.factor;
  const count = cell.length;
  for (let k = 0; k < count; k++) {
    const own = cell[k]!;
    end[k] = start[k]!;
    parent[k] = -1;
    seen[k] = k;
    if (active[own] === 0) continue;
    let pivot = gate[own]! + front[own]!;
    let top = count;
    for (let side = 4 * own; side < 4 * own + 4; side++) {
      const c = link[side]!;
      if (c === 0 || active[neighbours[side]!] === 0) continue;
      pivot += c;
      let i = place[neighbours[side]!]!;
      if (i > k) continue;
      work[i] = work[i]! - c;
      let depth = 0;
      while (seen[i] !== k) {
        if (parent[i] === -1) parent[i] = k;
        stack[depth++] = i;
        seen[i] = k;
        i = parent[i]!;
      }
      while (depth > 0) stack[--top] = stack[--depth]!;
    }
    for (; top < count; top++) {
      const i = stack[top]!;
      const y = work[i]!;
      work[i] = 0;
      const last = end[i]!;
      for (let p = start[i]!; p < last; p++) work[row[p]!] = work[row[p]!]! - value[p]! * y;
      const entry = y / diagonal[i]!;
      pivot -= entry * y;
      row[last] = k;
      value[last] = entry;
      end[i] = last + 1;
    }
    // Cells cut off by frozen ones see neither gate nor front: their pivot vanishes and their pressure stays 0.
    diagonal[k] = pivot > 1e-13 * (gate[own]! + front[own]!) ? pivot : Infinity;
  }
}

function substitute(net: Network): void {
  const { order, active, gate, pressure } = net;
  const { cell, start } = order;
  const { row, value, end, diagonal, work } = net.factor;
  const count = cell.length;
  for (let k = 0; k < count; k++) work[k] = active[cell[k]!] === 1 ? gate[cell[k]!]! : 0;
  for (let k = 0; k < count; k++) {
    const y = work[k]!;
    if (y === 0) continue;
    for (let p = start[k]!; p < end[k]!; p++) work[row[p]!] = work[row[p]!]! - value[p]! * y;
  }
  for (let k = count - 1; k >= 0; k--) {
    if (active[cell[k]!] === 0) continue;
    let x = work[k]! / diagonal[k]!;
    for (let p = start[k]!; p < end[k]!; p++) x -= value[p]! * work[row[p]!]!;
    work[k] = x;
    pressure[cell[k]!] = x;
  }
  work.fill(0);
}

/**
 * Solves the pressures of all active cells.
 *
 * @param net - links, gate and front conductances set [m³/(Pa·s)]; pressures are replaced [1]
 *
 * Valid: cells cut off from gate and front keep pressure 0.
 * Cost: some 70 multiplications a cell of an ordinary bait; no iteration, so neither start nor tolerance.
 * Source: sparse L·D·Lᵀ by rows, T. A. Davis, ACM Trans. Math. Softw. 31 (2005) 587, from memory.
 */
export function solvePressures(net: Network): void {
  factorise(net);
  substitute(net);
}
