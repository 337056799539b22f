import { describe, expect, test } from 'vitest';
import { cutCavity, type Cavity } from '../../../../src/core/fill/grid/cavity.ts';
import { eliminationOrder } from '../../../../src/core/fill/grid/elimination.ts';
import { emptyNetwork, solvePressures, type Network } from '../../../../src/core/fill/grid/network.ts';
import { mapOf } from './maps.ts';

/** Numbers from 0 to 1, the same ones for a seed: a linear congruence of Park & Miller (1988). */
function numbers(seed: number): () => number {
  let state = seed;
  return () => (state = (state * 48271) % 2147483647) / 2147483647;
}

/** A cavity of some cells of a 6 × 5 map, all that hang together with the first. */
function blob(seed: number): Cavity {
  const next = numbers(seed);
  const map = mapOf({ nx: 6, ny: 5, cell: 1e-3 }, () => (next() < 0.75 ? 1e-3 : 0));
  map.height[0] = 1e-3;
  return cutCavity(map, [0]);
}

const SEEDS = [1, 2, 3, 4, 5, 6, 7, 8];

describe('order of elimination', () => {
  // The elimination graph as a full table of who is joined to whom: nothing but the definition.
  test.each(SEEDS)('takes a cell with the fewest neighbours left, and counts them (blob %s)', (seed) => {
    const { neighbours, count } = blob(seed);
    const joined = Array.from({ length: count }, () => new Array<boolean>(count).fill(false));
    neighbours.forEach((other, side) => {
      if (other >= 0) joined[side >> 2]![other] = true;
    });
    const { cell, place, start } = eliminationOrder(neighbours);
    const left = new Set(Array.from({ length: count }, (_, k) => k));
    const others = (own: number) => [...left].filter((one) => joined[own]![one]);
    cell.forEach((own, k) => {
      expect(left.has(own)).toBe(true);
      expect(place[own]).toBe(k);
      const around = others(own);
      expect(around.length).toBe(Math.min(...[...left].map((one) => others(one).length)));
      expect(start[k + 1]! - start[k]!).toBe(around.length);
      left.delete(own);
      for (const a of around) for (const b of around) if (a !== b) joined[a]![b] = true;
    });
    expect(left.size).toBe(0);
    expect(start[0]).toBe(0);
  });
});

/** Pressures by Gauss–Jordan with pivots on the full matrix; cells that see neither gate nor front stay 0. */
function byElimination(net: Network): number[] {
  const { active, link, gate, front, neighbours } = net;
  const count = active.length;
  const seen = new Set(
    [...active.keys()].filter((cell) => active[cell] === 1 && gate[cell]! + front[cell]! > 0),
  );
  for (const cell of seen) {
    for (let side = 4 * cell; side < 4 * cell + 4; side++) {
      if (link[side]! > 0 && active[neighbours[side]!] === 1) seen.add(neighbours[side]!);
    }
  }
  const rows = Array.from({ length: count }, (_, cell) => {
    const row = new Array<number>(count + 1).fill(0);
    row[cell] = 1;
    if (!seen.has(cell)) return row;
    row[cell] = gate[cell]! + front[cell]!;
    row[count] = gate[cell]!;
    for (let side = 4 * cell; side < 4 * cell + 4; side++) {
      if (link[side] === 0 || active[neighbours[side]!] === 0) continue;
      row[cell]! += link[side]!;
      row[neighbours[side]!]! -= link[side]!;
    }
    return row;
  });
  for (let k = 0; k < count; k++) {
    const best = rows
      .slice(k)
      .reduce((most, row, n) => (Math.abs(row[k]!) > Math.abs(rows[most]![k]!) ? k + n : most), k);
    [rows[k], rows[best]] = [rows[best]!, rows[k]!];
    for (const row of rows) {
      if (row === rows[k]) continue;
      const times = row[k]! / rows[k]![k]!;
      row.forEach((value, at) => (row[at] = value - times * rows[k]![at]!));
    }
  }
  return rows.map((row, cell) => row[count]! / row[cell]!);
}

/** Random links, the same both ways; a cell that is not active feeds the front of those beside it. */
function draw(net: Network, seed: number): void {
  const next = numbers(seed);
  const { neighbours, active, link, gate, front } = net;
  active.forEach((_, cell) => (active[cell] = next() < 0.8 ? 1 : 0));
  gate.forEach((_, cell) => (gate[cell] = next() < 0.15 ? 1 + next() : 0));
  front.fill(0);
  neighbours.forEach((other, side) => {
    const cell = side >> 2;
    if (other < cell) return;
    const value = next() < 0.85 ? 0.1 + next() : 0;
    const back = [0, 1, 2, 3].map((k) => 4 * other + k).find((k) => neighbours[k] === cell)!;
    link[side] = value;
    link[back] = value;
    if (active[cell] !== active[other]) front[active[cell] === 1 ? cell : other]! += value;
  });
}

describe('pressures', () => {
  test.each(SEEDS)('are those of the full matrix, one instant after another (blob %s)', (seed) => {
    const net = emptyNetwork(blob(seed));
    expect([...net.pressure]).toEqual([...net.pressure].map(() => 0));
    for (let instant = 0; instant < 6; instant++) {
      draw(net, 100 * seed + instant);
      const exact = byElimination(net);
      solvePressures(net);
      net.active.forEach((on, cell) => {
        if (on === 1) expect(Math.abs(net.pressure[cell]! - exact[cell]!)).toBeLessThan(1e-12);
      });
    }
  });

  test('a part that frozen cells cut off keeps 0', () => {
    const cavity = cutCavity(
      mapOf({ nx: 5, ny: 1, cell: 1e-3 }, () => 1e-3),
      [0],
    );
    const net = emptyNetwork(cavity);
    net.active.set([1, 0, 1, 1, 1]);
    cavity.neighbours.forEach((other, side) => {
      const cell = side >> 2;
      net.link[side] = other >= 0 && net.active[cell] === 1 && net.active[other] === 1 ? 1 : 0;
    });
    net.gate[0] = 1;
    solvePressures(net);
    expect([...net.pressure]).toEqual([1, 0, 0, 0, 0]);
  });

  test('fall evenly along a row of equal cells: 5/6, 4/6, 3/6, 2/6, 1/6', () => {
    const cavity = cutCavity(
      mapOf({ nx: 5, ny: 1, cell: 1e-3 }, () => 1e-3),
      [0],
    );
    const net = emptyNetwork(cavity);
    net.active.fill(1);
    cavity.neighbours.forEach((other, side) => (net.link[side] = other >= 0 ? 3 : 0));
    net.gate[0] = 3;
    net.front[4] = 3;
    solvePressures(net);
    net.pressure.forEach((pressure, cell) => expect(pressure).toBeCloseTo((5 - cell) / 6, 14));
  });
});
