import { describe, expect, test } from 'vitest';
import { cutCavity, type Cavity } from '../../../../src/core/fill/grid/cavity.ts';
import { emptyNetwork, solvePressures, type Network } from '../../../../src/core/fill/grid/network.ts';
import {
  coolingRate,
  emptyState,
  updateMobility,
  type FillState,
  type GridMelt,
} from '../../../../src/core/fill/grid/state.ts';
import {
  carryHeat,
  frontInflow,
  heatFront,
  joinCells,
  noteInflow,
} from '../../../../src/core/fill/grid/step.ts';
import { closing, openFraction } from '../../../../src/core/fill/open-fraction.ts';
import { GAS_CONSTANT } from '../../../../src/core/fill/viscosity.ts';
import { MELT, mapOf, strip } from './maps.ts';

const MM = 1e-3;
const COOLS: GridMelt = { ...MELT, cools: true };
const row = (count: number) => strip(count, 1, MM, () => MM);
const square = () =>
  cutCavity(
    mapOf({ nx: 3, ny: 3, cell: MM, open: true }, () => MM),
    [0],
  );

describe('before the first drop', () => {
  test('only the gate’s cells are being filled, all else is empty, hot and open', () => {
    const cavity = cutCavity(
      mapOf({ nx: 3, ny: 1, cell: MM, open: true }, () => MM),
      [1, 0],
    );
    const state = emptyState(cavity, MELT, 0.5);
    expect(state.front).toEqual(cavity.gate);
    expect([...state.stage]).toEqual([1, 1, 0]);
    const three = (value: number) => [value, value, value];
    expect([...state.share]).toEqual(three(0));
    expect([...state.touched]).toEqual(three(0));
    expect([...state.wetted]).toEqual(three(Infinity));
    expect([...state.filledAt]).toEqual(three(NaN));
    expect([...state.temperature]).toEqual(three(448.15));
    expect([...state.openShare]).toEqual(three(1));
    expect([...state.mobility]).toEqual(three(0));
    expect(state.cameFrom).toHaveLength(12);
  });

  test.each([
    { closes: 'own age', theta: 0.5, law: 'slot', kept: 0.5 },
    { closes: 'fresh core', theta: 0.5, law: 'fresh core', kept: 0.5 },
    { closes: 'own age', theta: -1, law: 'slot', kept: 0.005 },
    { closes: 'own age', theta: 0.999, law: 'slot', kept: 0.985 },
  ] as const)('$closes at θ = $theta closes as a $law at $kept', ({ closes, theta, law, kept }) => {
    const state = emptyState(row(1), { ...MELT, closing: closes }, theta);
    expect(state.slot).toEqual(closing(law, kept));
    expect(state.round).toEqual(closing('round', kept));
  });
});

/** A state in which every cell is full, as old as told [s]. */
function wetState(cavity: Cavity, melt: GridMelt, wetted: number): FillState {
  const state = emptyState(cavity, melt, 0.5);
  state.stage.fill(2);
  state.wetted.fill(wetted);
  return state;
}

describe('mobility', () => {
  const [slot, round] = [closing('slot', 0.5), closing('round', 0.5)];
  const section = (width: number) => {
    const map = { ...mapOf({ nx: 1, ny: 1, cell: MM }, () => 2 * MM), width: Float64Array.of(width) };
    return cutCavity({ ...map, thickness: Float64Array.of(2 * MM) }, [0]);
  };

  // Both laws on one clock, between the shutting times of both by roundness; conductance ∝ open³ to open⁴.
  test.each([2 * MM, 3 * MM, 6 * MM, 16 * MM, 1])('2 mm high and %s m wide, from wet to shut', (width) => {
    const cavity = section(width);
    const r = cavity.roundness[0]! > 0.02 ? cavity.roundness[0]! : 0;
    const clock = (1 - cavity.roundness[0]!) * slot.shut + cavity.roundness[0]! * round.shut;
    for (const spent of [0, 0.01, 0.3, 0.8, 0.97]) {
      const now = 5 + (spent * clock * (2 * MM) ** 2) / (4 * MELT.diffusivity);
      const state = wetState(cavity, MELT, 5);
      updateMobility(state, now);
      const flat = openFraction(slot, spent * slot.shut);
      const open = flat + (openFraction(round, spent * round.shut) - flat) * r;
      expect(state.openShare[0]! / open).toBeCloseTo(1, 9);
      const power = open ** 3 * (1 + (open - 1) * r);
      expect(state.mobility[0]! / ((cavity.open[0]! * power) / 3)).toBeCloseTo(1, 8);
    }
    const late = wetState(cavity, MELT, 5);
    updateMobility(late, 5 + (1.001 * clock * (2 * MM) ** 2) / (4 * MELT.diffusivity));
    expect([late.openShare[0], late.mobility[0]]).toEqual([0, 0]);
  });

  test('less than a hundredth open counts as shut', () => {
    const cavity = row(1);
    const at = (spent: number) => {
      const state = wetState(cavity, MELT, 0);
      updateMobility(state, (spent * slot.shut * MM ** 2) / (4 * MELT.diffusivity));
      return state;
    };
    const [wide, narrow] = [0.999, 1 - 1e-6].map(at);
    expect(wide!.openShare[0]).toBeGreaterThan(0.01);
    expect(wide!.mobility[0]).toBeGreaterThan(0);
    expect(narrow!.openShare[0]).toBeLessThan(0.01);
    expect(narrow!.openShare[0]).toBeGreaterThan(0);
    expect(narrow!.mobility[0]).toBe(0);
  });

  test('before a cell is half full its melt is half as old as its first drop; never younger than now', () => {
    const cavity = row(3);
    const state = wetState(cavity, MELT, Infinity);
    state.touched.set([1, 3, 0]);
    state.wetted[2] = 2;
    state.stage[0] = 1;
    updateMobility(state, 2);
    const open = (age: number) => openFraction(slot, (4 * MELT.diffusivity * age) / MM ** 2);
    expect(state.openShare[0]).toBeCloseTo(open(0.5), 8);
    expect(state.openShare[1]).toBe(1);
    expect(state.openShare[2]).toBe(1);
    state.stage[0] = 0;
    state.openShare[0] = 0.7;
    state.mobility[0] = 7;
    updateMobility(state, 3);
    // Empty cells are left as they are.
    expect([state.openShare[0], state.mobility[0]]).toEqual([0.7, 7]);
    expect(state.openShare[2]).toBeCloseTo(open(1), 8);
  });

  test('cooler melt is stiffer by Arrhenius, where it cools at all', () => {
    for (const cools of [true, false]) {
      const state = wetState(row(1), { ...MELT, cools, viscosity: { ...MELT.viscosity, at: 440 } }, 0);
      state.temperature[0] = 420;
      updateMobility(state, 0);
      const at = cools ? 420 : MELT.temperature;
      const viscosity = 3 * Math.exp((35000 / GAS_CONSTANT) * (1 / at - 1 / 440));
      expect(state.mobility[0]! / (state.cavity.open[0]! / viscosity)).toBeCloseTo(1, 8);
    }
  });

  // Nu·α/(open gap)²: 7.5407 on a slot, 4 · 3.6568 on the radius of a tube, between them by roundness.
  test.each([
    { width: 1, open: 1 },
    { width: 2 * MM, open: 0.5 },
    { width: 4 * MM, open: 0.5 },
    { width: 2 * MM, open: 0.01 },
  ])('the core tends to its skin at Nu·α/(open gap)²: $width m wide, $open open', ({ width, open }) => {
    const state = wetState(section(width), MELT, 0);
    state.openShare[0] = open;
    const r = state.cavity.roundness[0]!;
    const nusselt = (1 - r) * 7.5407 + r * 4 * 3.6568;
    const gap = 2 * MM * Math.max(open, 0.05);
    expect(coolingRate(state, 0) / ((nusselt * MELT.diffusivity) / gap ** 2)).toBeCloseTo(1, 12);
  });
});

/** A row of four cells, gated at its left end: two full, one being filled, one empty; mobilities 4, 12, 6, 5. */
function rowOfFour() {
  const state = emptyState(row(4), COOLS, 0.5);
  state.stage.set([2, 2, 1, 0]);
  state.front = [2];
  state.mobility.set([4, 12, 6, 5]);
  return { state, net: emptyNetwork(state.cavity) };
}

describe('joints', () => {
  test('conductances of halves in series: full with full, full with front, the gate’s half cell', () => {
    const { state, net } = rowOfFour();
    for (const side of [0, 4, 5, 9]) net.link[side] = 9;
    joinCells(state, net, 0.75);
    // 4·12/(0.5·12 + 0.5·4) = 6; 12·6/(0.5·6 + 0.75·12) = 6; the gate: 4 over half a cell = 8.
    expect([...net.link]).toEqual([6, 0, 0, 0, 6, 6, 0, 0, 0, 6, 0, 0, 0, 0, 0, 0]);
    expect([...net.active]).toEqual([1, 1, 0, 0]);
    expect([...net.front]).toEqual([0, 6, 0, 0]);
    expect([...net.gate]).toEqual([8, 0, 0, 0]);
  });

  test('a frozen full cell joins nothing, and two front cells do not feed each other', () => {
    const { state, net } = rowOfFour();
    state.mobility[1] = 0;
    joinCells(state, net, 0.75);
    expect([...net.link]).toEqual(new Array(16).fill(0));
    expect([...net.active]).toEqual([1, 0, 0, 0]);
    expect([...net.front]).toEqual([0, 0, 0, 0]);
    const early = rowOfFour();
    early.state.stage.set([2, 1, 1, 1]);
    joinCells(early.state, early.net, 0.5);
    // 4·12/(0.5·12 + 0.5·4) = 6 between full and front, nothing beyond.
    expect([...early.net.link]).toEqual([6, 0, 0, 0, 0, 6, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0]);
    expect([...early.net.front]).toEqual([6, 0, 0, 0]);
  });

  test('flow under unit pressure: 8, 6 and 6 in series', () => {
    const { state, net } = rowOfFour();
    joinCells(state, net, 0.75);
    solvePressures(net);
    const series = 1 / (1 / 8 + 1 / 6 + 1 / 6);
    const inflow = new Float64Array(4);
    const unit = frontInflow(state, net, inflow);
    expect(unit.gate).toBeCloseTo(series, 12);
    expect(unit.front).toBeCloseTo(series, 12);
    expect([...inflow]).toEqual([unit.front, 0, 0, 0]);
    // A second of 1 Pa: what came in came from the west.
    noteInflow(state, net, 2);
    noteInflow(state, net, 1);
    expect(state.cameFrom[9]).toBeCloseTo(3 * series, 12);
    expect(state.cameFrom.filter((value) => value !== 0)).toHaveLength(1);
  });

  test('the first drop goes straight from the gate into its cells', () => {
    const state = emptyState(row(2), COOLS, 0.5);
    const net = emptyNetwork(state.cavity);
    state.mobility.set([4, 0]);
    joinCells(state, net, 1);
    solvePressures(net);
    const inflow = new Float64Array(2);
    expect(frontInflow(state, net, inflow)).toEqual({ gate: 8, front: 8 });
    expect([...inflow]).toEqual([8, 0]);
  });
});

/** A square of nine cells with its gate in a corner, six of them full, under pressure. */
function corner(): { state: FillState; net: Network } {
  const state = emptyState(square(), COOLS, 0.5);
  const far = new Set([8, 5, 7].map((place) => state.cavity.cellAt[place]!));
  state.stage.forEach((_, cell) => (state.stage[cell] = far.has(cell) ? 1 : 2));
  state.front = [...far];
  state.temperature.forEach((_, cell) => (state.temperature[cell] = 440 - 3 * cell));
  state.mobility.forEach((_, cell) => (state.mobility[cell] = (1 + 0.1 * cell) * 1e-10));
  state.openShare.forEach((_, cell) => (state.openShare[cell] = 1 - 0.05 * cell));
  state.share.forEach((_, cell) => (state.share[cell] = far.has(cell) ? 0.1 * cell : 1));
  const net = emptyNetwork(state.cavity);
  joinCells(state, net, 1);
  solvePressures(net);
  return { state, net };
}

describe('heat', () => {
  const [scale, span] = [2e5, 0.01];
  const entering = ({ state, net }: ReturnType<typeof corner>, cell: number) =>
    [0, 1, 2, 3].flatMap((side) => {
      const other = state.cavity.neighbours[4 * cell + side]!;
      if (other < 0) return [];
      const behind = net.pressure[other]! - (net.active[cell] === 1 ? net.pressure[cell]! : 0);
      return [{ other, flow: Math.max(0, net.link[4 * cell + side]! * behind * scale) }];
    });

  // What a cell holds, what comes in and what its skin takes: the heat balance at the end of the step.
  test('full cells: change of heat = what flows in − what the skin takes', () => {
    const bench = corner();
    const { state, net } = bench;
    const before = [...state.temperature];
    carryHeat(state, net, scale, span);
    for (let cell = 0; cell < 9; cell++) {
      const [old, own] = [before[cell]!, state.temperature[cell]!];
      if (net.active[cell] === 0) {
        expect(own).toBe(old);
        continue;
      }
      const held = state.cavity.volume[cell]! * state.openShare[cell]!;
      const gate = net.gate[cell]! * (1 - net.pressure[cell]!) * scale;
      const carried = entering(bench, cell)
        .filter(({ other }) => net.active[other] === 1)
        .reduce((sum, { other, flow }) => sum + flow * (state.temperature[other]! - own), 0);
      const lost = held * coolingRate(state, cell) * (own - MELT.noFlow);
      const gained = gate * (MELT.temperature - own) + carried - lost;
      expect((held * (own - old)) / span / gained).toBeCloseTo(1, 9);
    }
  });

  test('front cells: melt that comes in is mixed with what is there, then cools', () => {
    const bench = corner();
    const { state, net } = bench;
    const [gate] = state.front;
    net.gate[gate!] = 1e-11;
    const before = [...state.temperature];
    heatFront(state, net, scale, span);
    for (const cell of state.front) {
      const own = state.temperature[cell]!;
      const mixed = MELT.noFlow + (own - MELT.noFlow) * (1 + span * coolingRate(state, cell));
      const held = state.share[cell]! * state.cavity.volume[cell]!;
      const streams = entering(bench, cell).map(({ other, flow }) => ({ flow, temperature: before[other]! }));
      streams.push({ flow: net.gate[cell]! * scale, temperature: MELT.temperature });
      const total = held + streams.reduce((sum, { flow }) => sum + flow * span, 0);
      const heat = streams.reduce(
        (sum, one) => sum + one.flow * span * one.temperature,
        held * before[cell]!,
      );
      expect(mixed / (heat / total)).toBeCloseTo(1, 12);
    }
    state.stage.forEach((stage, cell) => {
      if (stage === 2) expect(state.temperature[cell]).toBe(before[cell]);
    });
  });

  test('a wall warmer than the no-flow temperature is the skin', () => {
    for (const act of [carryHeat, heatFront]) {
      const { state, net } = corner();
      const warm = { ...state, melt: { ...state.melt, wall: 430 } };
      warm.temperature.fill(430);
      net.gate.fill(0);
      act(warm, net, scale, span);
      warm.temperature.forEach((temperature) => expect(temperature).toBeCloseTo(430, 9));
    }
  });

  test('a front cell that holds nothing and gets nothing keeps its temperature', () => {
    const { state, net } = corner();
    state.share.fill(0);
    net.link.fill(0);
    const before = [...state.temperature];
    heatFront(state, net, scale, span);
    expect([...state.temperature]).toEqual(before);
  });
});
