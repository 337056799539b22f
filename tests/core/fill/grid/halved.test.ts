import { describe, expect, test } from 'vitest';
import { cutCavity, cutHalf, type Cavity } from '../../../../src/core/fill/grid/cavity.ts';
import { coarseCavity } from '../../../../src/core/fill/grid/coarsened.ts';
import { featureCells } from '../../../../src/core/fill/grid/feature-cells.ts';
import { fillCavity, type CavityFill } from '../../../../src/core/fill/grid/fill-cavity.ts';
import { fillMap, lastPlaces, weldStretches } from '../../../../src/core/fill/grid/fill-map.ts';
import { filledShare } from '../../../../src/core/fill/grid/filled-share.ts';
import { gateEntries } from '../../../../src/core/fill/grid/gate.ts';
import { laidOut } from '../../../../src/core/fill/grid/laid-out.ts';
import { isMirrored, mirrorPlace } from '../../../../src/core/fill/grid/mirror.ts';
import type { CavityMap } from '../../../../src/core/fill/grid/plan-width.ts';
import { bait, HOT, mapOf, MELT, middle, PUSH } from './maps.ts';

const CELL = 1e-3;
const COOLING = { ...MELT, cools: true };
const FEED = {
  ...{ pressure: 2e5, flowLimit: 1.5e-5, airResistance: 3e8 },
  stretches: [{ drag: 2e9, thickness: 6e-3, round: true }],
};

/** The bait of the other tests made its own mirror image: a tail of two prongs; 60 rows. */
const SYMMETRIC = (() => {
  const map = bait(CELL);
  const height = map.height.map((own, place) => Math.max(own, map.height[mirrorPlace(map, place)]!));
  return { ...map, height };
})();
const GATE = gateEntries(SYMMETRIC, { at: 'nose', width: 4e-3, depth: 3e-3 });
const HALF = cutHalf(SYMMETRIC, GATE);
const WHOLE = cutCavity(SYMMETRIC, GATE);

/** A map with something else at one place. */
function changed(map: CavityMap, list: 'height' | 'thickness', place: number, times: number): CavityMap {
  const values = map[list]!.slice();
  values[place]! *= times;
  return { ...map, [list]: values };
}

describe('half of a cavity', () => {
  test('has the upper half of the cells, each as it is in the whole one', () => {
    expect(HALF.halved).toBe(true);
    expect(WHOLE.halved).toBe(false);
    expect(2 * HALF.count).toBe(WHOLE.count);
    expect(HALF.gate).toHaveLength(GATE.length / 2);
    HALF.place.forEach((place, k) => {
      expect(place).toBeGreaterThanOrEqual(110 * 30);
      const own = WHOLE.cellAt[place]!;
      for (const list of ['volume', 'gap', 'open', 'roundness'] as const) {
        expect(HALF[list][k]).toBe(WHOLE[list][own]);
      }
    });
  });

  test('is not taken of an odd number of rows, of an unlike height or thickness, or of gates on one side', () => {
    const place = HALF.place[7]!;
    const thick = { ...SYMMETRIC, thickness: SYMMETRIC.height.slice() };
    const odd = mapOf({ nx: 20, ny: 9, cell: CELL }, () => 2e-3);
    expect(cutHalf(thick, GATE).halved).toBe(true);
    expect(cutHalf(changed(thick, 'thickness', place, 0.95), GATE).halved).toBe(true);
    expect(cutHalf(changed(thick, 'thickness', place, 0.85), GATE).halved).toBe(false);
    expect(cutHalf(changed(SYMMETRIC, 'height', place, 1 + 2e-6), GATE).halved).toBe(false);
    expect(cutHalf(SYMMETRIC, GATE.slice(1)).halved).toBe(false);
    expect(isMirrored(odd)).toBe(true);
    expect(cutHalf(odd, [4 * 20]).halved).toBe(false);
    expect(isMirrored(bait(CELL))).toBe(false);
  });

  test('takes the larger of two thicknesses', () => {
    const thick = { ...SYMMETRIC, thickness: SYMMETRIC.height.map((height) => height / 2) };
    const [place, other] = [HALF.place[7]!, mirrorPlace(SYMMETRIC, HALF.place[7]!)];
    const low = cutHalf(changed(thick, 'thickness', place, 0.95), GATE);
    const high = cutHalf(changed(thick, 'thickness', other, 1.05), GATE);
    expect(low.gap[low.cellAt[place]!]).toBeCloseTo(SYMMETRIC.height[place]! / 2, 12);
    expect(high.gap[high.cellAt[place]!]).toBeCloseTo((1.05 * SYMMETRIC.height[place]!) / 2, 12);
  });

  test('is refused as a whole one is, by its own name', () => {
    expect(() => cutHalf(SYMMETRIC, [0])).toThrow('cutHalf: gate cells in the cavity');
    expect(() => cutHalf({ ...SYMMETRIC, cell: 0 }, GATE)).toThrow('cutHalf: cell: wants');
  });

  test('on a grid of twice the pitch is the half of the whole one there', () => {
    const [half, whole] = [coarseCavity(HALF)!, coarseCavity(WHOLE)!];
    expect(half.halved).toBe(true);
    expect(whole.halved).toBe(false);
    expect(2 * half.count).toBe(whole.count);
    expect(2 * half.gate.length).toBe(whole.gate.length);
  });
});

describe('a run in half a cavity', () => {
  const runs = (cut: (map: CavityMap, gate: readonly number[]) => Cavity, melt = COOLING): CavityFill =>
    fillCavity(cut(SYMMETRIC, GATE), melt, FEED);
  const [half, whole] = [runs(cutHalf), runs(cutCavity)];

  test('tells time, volume and pressure of the whole one', () => {
    expect(half.filled && whole.filled).toBe(true);
    expect(half.time / whole.time).toBeCloseTo(1, 2);
    expect(half.volume / whole.volume).toBeCloseTo(1, 9);
    expect(half.injected / half.volume).toBeCloseTo(1, 9);
    expect(half.flow[0]! / whole.flow[0]!).toBeCloseTo(1, 9);
    expect(half.injector.pressure[0]! / whole.injector.pressure[0]!).toBeCloseTo(1, 9);
  });

  test('fills every place of both halves when the whole one does, within its steps', () => {
    const [own, other] = [fillMap(half), fillMap(whole)];
    expect(own.time.length).toBe(other.time.length);
    own.time.forEach((time, place) => {
      expect(Number.isNaN(time)).toBe(Number.isNaN(other.time[place]!));
      if (!Number.isNaN(time)) expect(Math.abs(time - other.time[place]!)).toBeLessThan(0.02 * other.end);
    });
  });

  test('comes short where the whole one does, and as much', () => {
    const stiff = { ...COOLING, viscosity: { ...COOLING.viscosity, reference: 30 } };
    const [own, other] = [runs(cutHalf, stiff), runs(cutCavity, stiff)];
    expect(own.filled || other.filled).toBe(false);
    expect(own.volume / other.volume).toBeCloseTo(1, 2);
    expect(own.injected / own.volume).toBeCloseTo(1, 9);
    const [short, too] = [own, other].map((fill) => fillMap(fill).short);
    const unlike = short!.filter((value, place) => value !== too![place]).length;
    expect(unlike).toBeLessThan(0.02 * WHOLE.count);
  });

  test('has the same last places, on both sides', () => {
    const places = (fill: CavityFill) =>
      lastPlaces(fill, 6e-3).map(({ x, y }) => [Math.round(x / CELL), Math.round(y / CELL)]);
    const sorted = (list: number[][]) => list.map(String).sort();
    expect(places(half).some(([, y]) => y! < 0)).toBe(true);
    expect(sorted(places(half))).toEqual(sorted(places(whole)));
  });

  test('has fronts that meet on its middle line, behind an island', () => {
    const size = { nx: 60, ny: 30, cell: CELL, open: true };
    const map = mapOf(size, (x, y) => (Math.hypot(x - 0.025, y) < 0.006 ? 0 : 2e-3));
    const gate = Array.from({ length: 30 }, (_, j) => 60 * j);
    const [own, other] = [cutHalf, cutCavity].map((cut) =>
      weldStretches(fillCavity(cut(map, gate), HOT, PUSH)),
    );
    const ends = (found: typeof own) => found!.map(({ from, to }) => String([from, to].flat())).sort();
    expect(own!.length).toBeGreaterThan(3);
    expect(ends(own)).toEqual(ends(other));
  });

  test('laid out, joins each cell at the middle line with its mirror image, and no other', () => {
    const { map, place, cellAt, neighbours, cameFrom } = laidOut(half);
    place.forEach((at, cell) => {
      expect(cellAt[at]).toBe(cell);
      const i = at % map.nx;
      const around = [i + 1 < map.nx ? at + 1 : -1, i > 0 ? at - 1 : -1, at + map.nx, at - map.nx];
      const wanted = around.map((other) => (map.height[other]! > 0 ? cellAt[other]! : -1));
      expect([...neighbours.subarray(4 * cell, 4 * cell + 4)]).toEqual(wanted);
      const mirrored = 4 * cellAt[mirrorPlace(map, at)]!;
      const [east, west, north, south] = cameFrom.subarray(4 * cell, 4 * cell + 4);
      expect([...cameFrom.subarray(mirrored, mirrored + 4)]).toEqual([east, west, south, north]);
    });
  });
});

describe('a part of half a cavity', () => {
  const part = (at: readonly (readonly [number, number])[], width: number) => ({
    name: 'part',
    stations: at.map(([x, y], k) => ({ s: 0.01 * k, thickness: 1e-3, width, at: [x, y, 0] as const })),
  });
  const along = part([[0.02, 0], [0.03, 0], [0.04, 0]], 4.4e-3); // prettier-ignore
  const beside = (side: number) => part([[0.022, 0.008 * side], [0.028, 0.024 * side]], 4e-3); // prettier-ignore
  const middles = (cavity: Cavity, cells: readonly number[]) =>
    cells.map((cell) => middle(cavity.map, cavity.place[cell]!));

  test('that lies across the middle line has each of its cells twice', () => {
    const [own, all] = [featureCells(HALF, along), featureCells(WHOLE, along)];
    expect(own.cells).toHaveLength(all.cells.length);
    expect(own.root).toHaveLength(all.root.length);
    expect(2 * new Set(own.cells).size).toBe(all.cells.length);
  });

  test.each([1, -1])('that lies on one side has its cells, or their mirror images (side %d)', (side) => {
    const [own, all] = [featureCells(HALF, beside(side)), featureCells(WHOLE, beside(side))];
    expect(all.cells.length).toBeGreaterThan(20);
    const upwards = middles(WHOLE, all.cells).map(([x, y]) => [x, side * y]);
    const keys = (list: readonly (readonly number[])[]) =>
      list.map((pair) => pair.map((value) => Math.round(value / (CELL / 2))).join(' ')).sort();
    expect(keys(middles(HALF, own.cells))).toEqual(keys(upwards));
    const [fill, whole] = [HALF, WHOLE].map((cavity) => fillCavity(cavity, { ...COOLING, wall: 299 }, FEED));
    expect(Math.abs(filledShare(fill!, own.cells) - filledShare(whole!, all.cells))).toBeLessThan(0.02);
  });
});
