/** A network of conductances: gate at pressure 1, front at 0, four links a cell. */
export interface Links {
  readonly neighbours: Int32Array;
  readonly active: Uint8Array;
  readonly link: Float64Array;
  readonly gate: Float64Array;
  readonly front: Float64Array;
}

/** Pivots of the modified incomplete Cholesky factor, cells by rising index. Source: Gustafsson, BIT 18 (1978) 142. */
function pivots(
  { neighbours, active, link, gate, front }: Links,
  diagonal: Float64Array,
  inverse: Float64Array,
): void {
  const later = new Float64Array(active.length);
  for (let cell = 0; cell < active.length; cell++) {
    if (active[cell] === 0) continue;
    let sum = gate[cell]! + front[cell]!;
    for (let side = 4 * cell; side < 4 * cell + 4; side++) {
      if (link[side] === 0 || active[neighbours[side]!] === 0) continue;
      sum += link[side]!;
      if (neighbours[side]! > cell) later[cell] = later[cell]! + link[side]!;
    }
    diagonal[cell] = sum;
  }
  for (let cell = 0; cell < active.length; cell++) {
    if (active[cell] === 0) continue;
    let pivot = diagonal[cell]!;
    for (let side = 4 * cell; side < 4 * cell + 4; side++) {
      const other = neighbours[side]!;
      if (link[side] === 0 || other > cell || active[other] === 0) continue;
      pivot -= link[side]! * (0.03 * link[side]! + 0.97 * later[other]!) * inverse[other]!;
    }
    inverse[cell] = pivot > 0 ? 1 / pivot : 1 / (diagonal[cell]! || 1);
  }
}

/**
 * The rival of the direct factor: conjugate gradients from the last pressures, modified incomplete Cholesky.
 * Returns the iterations taken until all imbalances add up to less than `tolerance` of the flow through the gate.
 */
export function solveIteratively(net: Links, pressure: Float64Array, tolerance: number): number {
  const { neighbours, active, link, gate } = net;
  const count = active.length;
  const list = () => new Float64Array(count);
  const [diagonal, inverse, r, z, d, q] = [list(), list(), list(), list(), list(), list()];
  pivots(net, diagonal, inverse);
  const multiply = (x: Float64Array, out: Float64Array) => {
    for (let cell = 0; cell < count; cell++) {
      if (active[cell] === 0) continue;
      let sum = diagonal[cell]! * x[cell]!;
      for (let side = 4 * cell; side < 4 * cell + 4; side++) {
        if (link[side] !== 0 && active[neighbours[side]!] === 1) sum -= link[side]! * x[neighbours[side]!]!;
      }
      out[cell] = sum;
    }
  };
  const sweep = (cell: number, from: Float64Array, earlier: boolean) => {
    let sum = 0;
    for (let side = 4 * cell; side < 4 * cell + 4; side++) {
      const other = neighbours[side]!;
      if (link[side] !== 0 && other < cell === earlier && active[other] === 1)
        sum += link[side]! * from[other]!;
    }
    return sum;
  };
  multiply(pressure, r);
  let given = 0;
  for (let cell = 0; cell < count; cell++) {
    if (active[cell] === 0) continue;
    r[cell] = gate[cell]! - r[cell]!;
    given += gate[cell]!;
  }
  let rho = 0;
  for (let iteration = 0; iteration < 1000; iteration++) {
    let [off, through] = [0, given];
    for (let cell = 0; cell < count; cell++) {
      off += Math.abs(r[cell]!);
      if (active[cell] === 1) through -= gate[cell]! * pressure[cell]!;
    }
    if (off <= tolerance * Math.abs(through)) return iteration;
    for (let cell = 0; cell < count; cell++) {
      if (active[cell] === 1) z[cell] = (r[cell]! + sweep(cell, z, true)) * inverse[cell]!;
    }
    for (let cell = count - 1; cell >= 0; cell--) {
      if (active[cell] === 1) z[cell] = z[cell]! + sweep(cell, z, false) * inverse[cell]!;
    }
    let next = 0;
    for (let cell = 0; cell < count; cell++) next += r[cell]! * z[cell]!;
    for (let cell = 0; cell < count; cell++) d[cell] = z[cell]! + (rho > 0 ? next / rho : 0) * d[cell]!;
    rho = next;
    multiply(d, q);
    let curve = 0;
    for (let cell = 0; cell < count; cell++) curve += d[cell]! * q[cell]!;
    for (let cell = 0; cell < count; cell++) {
      pressure[cell] = pressure[cell]! + (rho / curve) * d[cell]!;
      r[cell] = r[cell]! - (rho / curve) * q[cell]!;
    }
  }
  return 1000;
}
