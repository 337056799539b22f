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

/** Factor L·D·Lᵀ in columns, in the order of elimination; its pattern stands in the order. */
interface Factor {
  readonly value: Float64Array;
  /** D, and one over it once its column is done. */
  readonly diagonal: Float64Array;
  /** Right side, then pressures, by places. */
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
  const list = () => new Float64Array(count);
  return {
    ...{ neighbours, order, active: new Uint8Array(count), link: new Float64Array(4 * count) },
    ...{ gate: list(), front: list(), pressure: list() },
    factor: { value: new Float64Array(order.row.length), diagonal: list(), work: list() },
  };
}

/** Puts the matrix of the active cells into the pattern of the factor; the right side is what the gate gives. */
function assemble(net: Network): void {
  const { neighbours, order, active, link, gate, front } = net;
  const { place, entry } = order;
  const { value, diagonal, work } = net.factor;
  value.fill(0);
  for (let cell = 0; cell < active.length; cell++) {
    const k = place[cell]!;
    work[k] = 0;
    if (active[cell] === 0) continue;
    let sum = gate[cell]! + front[cell]!;
    for (let side = 4 * cell; side < 4 * cell + 4; side++) {
      const c = link[side]!;
      if (c === 0 || active[neighbours[side]!] === 0) continue;
      sum += c;
      if (entry[side]! >= 0) value[entry[side]!] = -c;
    }
    diagonal[k] = sum;
    work[k] = gate[cell]!;
  }
}

/**
 * Documented kernel: factors the network column by column in place, each column changing those of its rows, and the right side
 * with it.
 */
function factorise(net: Network): void {
  const { order, active, gate, front } = net;
  const { cell, start, row, target } = order;
  const { value, diagonal, work } = net.factor;
  const count = cell.length;
  let [pair, first] = [0, 0];
  for (let k = 0; k < count; k++) {
    const own = cell[k]!;
    const end = start[k + 1]!;
    if (active[own] === 0) {
      pair += ((end - first) * (end - first - 1)) >> 1;
      first = end;
      continue;
    }
    const pivot = diagonal[k]!;
    // Cells cut off by frozen ones see neither gate nor front: their pivot vanishes and their pressure stays 0.
    const share = pivot > 1e-13 * (gate[own]! + front[own]!) ? 1 / pivot : 0;
    const right = work[k]!;
    diagonal[k] = share;
    for (let p = first; p < end; p++) {
      const y = value[p]!;
      if (y === 0) {
        pair += end - p - 1;
        continue;
      }
      const times = y * share;
      const at = row[p]!;
      diagonal[at] = diagonal[at]! - times * y;
      work[at] = work[at]! - times * right;
      for (let r = p + 1; r < end; r++) {
        const there = target[pair++]!;
        value[there] = value[there]! - times * value[r]!;
      }
      value[p] = times;
    }
    first = end;
  }
}

/** Pressures from the last place to the first. */
function substitute(net: Network): void {
  const { order, active, pressure } = net;
  const { cell, start, row } = order;
  const { value, diagonal, work } = net.factor;
  let end = row.length;
  for (let k = cell.length - 1; k >= 0; k--) {
    const first = start[k]!;
    const own = cell[k]!;
    if (active[own] === 1) {
      let x = work[k]! * diagonal[k]!;
      for (let p = first; p < end; p++) x -= value[p]! * work[row[p]!]!;
      work[k] = x;
      pressure[own] = x;
    }
    end = first;
  }
}

/**
 * Solves the pressures of all active cells.
 *
 * @param net - links, gate and front conductances set [m³/(Pa·s)]; pressures are replaced [1]
 *
 * Valid: cells cut off from gate and front keep pressure 0.
 * Cost: some 70 multiplications a cell of an ordinary bait; no iteration, so neither start nor tolerance.
 * Source: sparse L·D·Lᵀ by columns on a pattern known beforehand, T. A. Davis, Direct Methods for Sparse Linear Systems
 * (2006), ch. 4, from memory.
 */
export function solvePressures(net: Network): void {
  assemble(net);
  factorise(net);
  substitute(net);
}
