import { describe, expect, test } from 'vitest';
import { fillFront } from '../../../../src/core/fill/grid/advance.ts';
import { cutCavity } from '../../../../src/core/fill/grid/cavity.ts';
import { feedResistance, gateFlow } from '../../../../src/core/fill/grid/feed.ts';
import { emptyState, type FillState, type GridMelt } from '../../../../src/core/fill/grid/state.ts';
import { closing, openFraction } from '../../../../src/core/fill/open-fraction.ts';
import { backPressure } from '../../../../src/core/vent/tiers.ts';
import { MELT, PUSH, mapOf, strip } from './maps.ts';

const MM = 1e-3;
const COOLS: GridMelt = { ...MELT, cools: true };
const row = (count: number) => strip(count, 1, MM, () => MM);

describe('the front moves on', () => {
  const pourInto = (state: FillState, inflow: number[], stray = 0) =>
    fillFront(state, Float64Array.from(inflow), 10, 2, stray);
  /** Cells of 1 mm³ that take inflow in cells a second. */
  const V = 1e-9;

  test('a share grows by inflow over volume; half full and full are noted when they come', () => {
    const state = emptyState(row(3), COOLS, 0.5);
    state.temperature[0] = 400;
    expect(pourInto(state, [0.2 * V])).toBe(0);
    expect(state.share[0]).toBeCloseTo(0.4, 12);
    expect([state.wetted[0], state.filledAt[0]]).toEqual([Infinity, NaN]);
    expect([...state.front]).toEqual([0]);
    // From 0.4 by 0.2 a second: half full after 0.5 s.
    pourInto(state, [0.2 * V]);
    expect(state.wetted[0]).toBeCloseTo(10.5, 12);
    expect(state.filledAt[0]).toBeNaN();
    // From 0.8 by 0.4 a second: full after 0.5 s, and 0.6 of a cell goes on.
    expect(pourInto(state, [0.4 * V])).toBe(0);
    expect(state.wetted[0]).toBeCloseTo(10.5, 12);
    expect(state.filledAt[0]).toBeCloseTo(10.5, 12);
    expect([...state.stage]).toEqual([2, 1, 0]);
    expect([...state.front]).toEqual([1]);
    expect(state.share[0]).toBe(1);
    expect(state.share[1]).toBeCloseTo(0.6, 12);
    // What goes on is taken to arrive at the end of the step, as warm as where it came from.
    expect([state.touched[1], state.wetted[1]]).toEqual([12, 12]);
    expect(state.temperature[1]).toBe(400);
    expect(state.cameFrom[5]! / (0.6 * V)).toBeCloseTo(1, 12);
    expect(state.cameFrom.filter((value) => value !== 0)).toHaveLength(1);
  });

  test('a lot goes on through several cells, and at the end of the row it is left over', () => {
    const state = emptyState(row(3), COOLS, 0.5);
    const left = pourInto(state, [1.75 * V]);
    expect(left / (0.5 * V)).toBeCloseTo(1, 12);
    expect([...state.share]).toEqual([1, 1, 1]);
    expect([...state.stage]).toEqual([2, 2, 2]);
    expect([...state.front]).toEqual([]);
    expect(state.filledAt[0]).toBeCloseTo(10 + 1 / 1.75, 12);
    expect([state.filledAt[1], state.filledAt[2]]).toEqual([12, 12]);
  });

  test('empty neighbours share what is too much by how open they are', () => {
    const map = mapOf({ nx: 3, ny: 1, cell: MM, open: true }, () => MM);
    map.height[0] = 2 * MM;
    const state = emptyState(cutCavity(map, [1]), COOLS, 0.5);
    const [own, high, low] = [1, 0, 2].map((place) => state.cavity.cellAt[place]!) as [
      number,
      number,
      number,
    ];
    expect(pourInto(state, [0.95 * V])).toBe(0);
    // 0.9 of 1 mm³ over; conductances 8 to 1 (cubes of 2 and 1 mm).
    expect(state.share[own]).toBe(1);
    expect((state.share[high]! * 2) / (0.9 * (8 / 9))).toBeCloseTo(1, 6);
    expect(state.share[low]! / (0.9 / 9)).toBeCloseTo(1, 6);
    expect(state.front.toSorted((a, b) => a - b)).toEqual([high, low].toSorted((a, b) => a - b));
    // To the west it came from the east, and the other way round.
    expect(state.cameFrom[4 * high]! / (0.8 * V)).toBeCloseTo(1, 6);
    expect(state.cameFrom[4 * low + 1]! / (0.1 * V)).toBeCloseTo(1, 6);
  });

  test('neighbours that are full already take nothing more; a started one keeps when it was touched', () => {
    const state = emptyState(row(3), COOLS, 0.5);
    const [own, other, third] = [1, 0, 2];
    state.stage.set([1, 1, 1]);
    state.front = [other, own, third];
    state.share.set([0.9, 0.9, 0.2]);
    state.touched.set([3, 3, 3]);
    state.wetted.set([5, 5, Infinity]);
    // The first fills by 0.2, the second by 0.3: the third takes all of the second's, the first's finds no taker.
    const left = pourInto(state, [0.15 * V, 0.2 * V, 0]);
    expect(left / (0.2 * V)).toBeCloseTo(1, 9);
    expect(state.share[third]).toBeCloseTo(0.5, 9);
    expect([...state.touched]).toEqual([3, 3, 3]);
    expect([...state.stage]).toEqual([2, 2, 1]);
    expect(state.front).toEqual([third]);
  });

  test('melt that found no room before comes in with the rest, by inflow', () => {
    const state = emptyState(
      cutCavity(
        mapOf({ nx: 2, ny: 1, cell: MM, open: true }, () => MM),
        [0, 1],
      ),
      COOLS,
      0.5,
    );
    pourInto(state, [0.1 * V, 0.05 * V], 0.15 * V);
    expect(state.share[0]).toBeCloseTo(0.2 + 0.1, 12);
    expect(state.share[1]).toBeCloseTo(0.1 + 0.05, 12);
  });

  test('full but for rounding is full', () => {
    const state = emptyState(row(2), COOLS, 0.5);
    expect(pourInto(state, [0.5 * V * (1 - 1e-13)])).toBe(0);
    expect([...state.stage]).toEqual([2, 1]);
    expect([...state.share]).toEqual([1, 0]);
    expect(state.filledAt[0]).toBeCloseTo(12, 9);
  });
});

describe('hand, channels and air', () => {
  const closings = { slot: closing('slot', 0.4), round: closing('round', 0.4) };
  const stretches = [
    { drag: 2e9, thickness: 3 * MM, round: true },
    { drag: 5e8, thickness: 2 * MM, round: false },
  ];

  test('channels in series close by the cube, round ones by the fourth power', () => {
    const thermal = 1.5e-7;
    const [tube, slot] = [
      openFraction(closings.round, (4 * thermal) / (3 * MM) ** 2),
      openFraction(closings.slot, (4 * thermal) / (2 * MM) ** 2),
    ];
    const exact = 3 * (2e9 / tube ** 4 + 5e8 / slot ** 3);
    expect(feedResistance({ ...PUSH, stretches }, closings, thermal, 3) / exact).toBeCloseTo(1, 12);
    expect(feedResistance(PUSH, closings, thermal, 3)).toBe(0);
  });

  test('without air the flow is pressure over resistance to the last digit, or the hand’s', () => {
    for (const resistance of [3e9, 7.3e9, 1.1e10]) {
      expect(gateFlow(PUSH, resistance)).toBe(2e5 / resistance);
      expect(gateFlow({ ...PUSH, airResistance: 0 }, resistance)).toBe(2e5 / resistance);
    }
    expect(gateFlow({ ...PUSH, flowLimit: 1e-6 }, 1e9)).toBe(1e-6);
    expect(gateFlow({ ...PUSH, flowLimit: 1e-6, airResistance: 1e9 }, 1e9)).toBe(1e-6);
  });

  test('with air the pressures add up to the hand’s', () => {
    const feed = { ...PUSH, airResistance: 2e9 };
    const flow = gateFlow(feed, 1e9);
    expect((flow * 1e9 + backPressure(2e9, flow)) / 2e5).toBeCloseTo(1, 9);
  });

  test('nothing flows through what is shut, with or without air', () => {
    expect(gateFlow(PUSH, Infinity)).toBe(0);
    expect(gateFlow({ ...PUSH, airResistance: 1e9 }, Infinity)).toBe(0);
  });
});
