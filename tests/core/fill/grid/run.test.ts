import { describe, expect, test } from 'vitest';
import { cutCavity } from '../../../../src/core/fill/grid/cavity.ts';
import { fillCavity, LONG_STEPS, type CavityFill } from '../../../../src/core/fill/grid/fill-cavity.ts';
import { fillMap, lastPlaces, weldStretches } from '../../../../src/core/fill/grid/fill-map.ts';
import { shotFill } from '../../../../src/core/fill/grid/shot-fill.ts';
import { closing } from '../../../../src/core/fill/open-fraction.ts';
import { backPressure } from '../../../../src/core/vent/tiers.ts';
import { HOT, MELT, PUSH, at, mapOf, strip } from './maps.ts';

const MM = 1e-3;

// A row of n cells of a millimetre at a constant flow, nothing freezes: a step fills from half-way over one cell to half-way
// over the next, so after k steps k + ½ cells are full, and in the middle of a step the front stands k + 1 cells from the gate.
describe('a row of cells at constant flow', () => {
  const [cells, flow] = [12, 2e-9];
  const feed = { ...PUSH, pressure: 1e9, flowLimit: flow };
  const resistance = (12 * 3) / MM ** 3;
  const cavity = strip(cells, 1, MM, () => MM);
  const fill = fillCavity(cavity, HOT, feed, [[0], [3, 4], []]);
  const steps = [...Array.from({ length: cells }).keys()];

  test('takes V/Q and one step a cell; what went in is what it holds', () => {
    expect(fill.filled).toBe(true);
    expect(fill.time / ((cells * MM ** 3) / flow)).toBeCloseTo(1, 12);
    expect(fill.volume / (cells * MM ** 3)).toBeCloseTo(1, 12);
    expect(fill.injected / (cells * MM ** 3)).toBeCloseTo(1, 12);
    expect(fill.steps).toBe(cells);
    expect(fill.flow).toEqual(steps.map(() => flow));
    expect([...fill.state.share]).toEqual(steps.map(() => 1));
  });

  test('pressure at the injector: Q·μ·12/h³ for k + 1 square cells', () => {
    fill.injector.time.forEach((time, k) =>
      expect(time).toBeCloseTo(k === 0 ? 0 : ((k + 0.5) * MM ** 3) / flow, 9),
    );
    expect(fill.injector.pressure).toHaveLength(cells);
    fill.injector.pressure.forEach((pressure, k) => {
      expect(pressure / (flow * resistance * (k === 0 ? 0.5 : k + 1))).toBeCloseTo(1, 5);
    });
  });

  test('watched cells: the share of the way from gate to front, from when the first of them is full', () => {
    const [first, pair, none] = fill.watched;
    expect(first!.time).toEqual(fill.injector.time.slice(1));
    first!.pressure.forEach((pressure, n) => {
      expect(pressure / (flow * resistance * (n + 1.5))).toBeCloseTo(1, 5);
    });
    expect(pair!.time).toEqual(fill.injector.time.slice(4));
    // One step with cell 3 alone, then the mean of both: 3.5 and 4.5 cells from the gate.
    pair!.pressure.forEach((pressure, n) => {
      expect(pressure / (flow * resistance * (n === 0 ? 1.5 : n + 1))).toBeCloseTo(1, 5);
    });
    expect(none).toEqual({ time: [], pressure: [] });
  });

  test('channels and air before and behind add their own pressure', () => {
    const stretches = [{ drag: 4e11, thickness: 1, round: true }];
    const airResistance = 3e13;
    const vented = fillCavity(cavity, HOT, { ...feed, stretches, airResistance }, [[0]]);
    const air = backPressure(airResistance, flow);
    vented.injector.pressure.forEach((pressure, k) => {
      const cavityAlone = flow * resistance * (k === 0 ? 0.5 : k + 1);
      expect(pressure / (cavityAlone + flow * 4e11 * 3 + air)).toBeCloseTo(1, 5);
    });
    vented.watched[0]!.pressure.forEach((pressure, n) => {
      expect(pressure / (flow * resistance * (n + 1.5) + air)).toBeCloseTo(1, 5);
    });
    expect(vented.time / fill.time).toBeCloseTo(1, 12);
  });

  test('finer settings step half as far over full', () => {
    const fine = fillCavity(cavity, HOT, feed, [], { overfill: 0.25, stride: 0.05 });
    expect(fine.time / fill.time).toBeCloseTo(1, 12);
    expect(fine.steps).toBe(cells);
    expect(fine.injector.time[1]).toBeCloseTo((1.25 * MM ** 3) / flow, 9);
    expect(fine.watched).toEqual([]);
  });
});

test('the front is over-full by half of the larger of its own and the usual cell', () => {
  const size = { nx: 2, ny: 3, cell: MM, open: true };
  const first = (thickness: number) => {
    const map = mapOf(size, (_, y) => (y < -0.5 * MM ? 3 : 1) * MM);
    const thick = map.height.map((height) => Math.min(height, height > 2 * MM ? thickness : MM));
    const cavity = cutCavity({ ...map, thickness: thick }, [0, 2, 4]);
    const { injector } = fillCavity(cavity, HOT, { ...PUSH, pressure: 1e9, flowLimit: 1e-9 });
    return injector.time[1]!;
  };
  // Conductances h·g²: 3³, 1.5³ (half of its neighbour) and 1; the deep cell of 3 mm³ takes 27 of 31.375: 3 + 3/2 mm³.
  expect(first(3 * MM)).toBeCloseTo((4.5 / 27) * 31.375, 4);
  // A rib of 0.3 mm counts 0.5 mm: 0.75, 1 and 1; a cell of 1 mm³ takes 1 of 2.75: 1 mm³ and half of 5/3 mm³, the usual.
  expect(first(0.3 * MM)).toBeCloseTo((1 + 5 / 6) * 2.75, 4);
});

describe('steps', () => {
  test('are no longer than a twentieth of the time so far and of the time in which the thinnest cells close', () => {
    const cavity = strip(20, 1, 2 * MM, (x) => (x < 4 * MM ? 0.5 * MM : MM));
    const melt = at(0.4);
    const { injector } = fillCavity(cavity, melt, { ...PUSH, pressure: 1e9, flowLimit: 1e-9 });
    const thin = (closing('slot', 0.4).shut * (0.5 * MM) ** 2) / (4 * melt.diffusivity);
    expect(injector.time[1]! / (0.05 * 0.05 * thin)).toBeCloseTo(1, 9);
    injector.time.slice(1).forEach((time, k) => {
      const before = injector.time[k]!;
      expect((time - before) / (0.05 * (before + 0.05 * thin))).toBeLessThan(1 + 1e-9);
    });
  });
});

describe('where a run ends', () => {
  test('a shut gate, a frozen cavity and a cold melt leave it short, with what has gone in', () => {
    const cavity = strip(30, 1, 2 * MM, () => MM);
    const frozen = fillCavity(cavity, at(0.6), { ...PUSH, pressure: 2e4 });
    expect(frozen.filled).toBe(false);
    expect(frozen.injected / frozen.volume).toBeCloseTo(1, 12);
    const held = frozen.state.share.reduce((sum, share) => sum + share * 4e-9, 0);
    expect(frozen.volume / held).toBeCloseTo(1, 12);
    const cold = fillCavity(cavity, at(0.99), PUSH);
    expect([cold.filled, cold.time, cold.volume, cold.injected, cold.steps]).toEqual([false, 0, 0, 0, 0]);
    expect(cold.flow).toEqual([]);
    const stretches = [{ drag: 1e9, thickness: 0.2 * MM, round: false }];
    const shut = fillCavity(cavity, at(0.6), { ...PUSH, pressure: 2e4, stretches });
    expect(shut.time).toBeLessThan((closing('slot', 0.6).shut * (0.2 * MM) ** 2) / (4 * MELT.diffusivity));
    expect(shut.steps).toBeGreaterThan(5);
  });

  test('melt that is held at the gate’s temperature keeps it, melt that cools does not', () => {
    const cavity = strip(6, 1, MM, () => MM);
    const end = (cools: boolean) =>
      fillCavity(cavity, { ...MELT, cools }, { ...PUSH, flowLimit: 1e-8 }).state.temperature;
    expect([...end(false)]).toEqual(new Array(6).fill(448.15));
    expect(Math.max(...end(true))).toBeLessThan(448.15);
  });

  test('pressure, flow, diffusivity and a melt no hotter than the wall are refused', () => {
    const cavity = strip(2, 1, MM, () => MM);
    expect(() => fillCavity(cavity, HOT, { ...PUSH, pressure: 0 })).toThrow('fillCavity: pressure: wants');
    expect(() => fillCavity(cavity, HOT, { ...PUSH, flowLimit: 0 })).toThrow('fillCavity: flowLimit: wants');
    expect(() => fillCavity(cavity, { ...HOT, diffusivity: 0 }, PUSH)).toThrow(
      'fillCavity: diffusivity: wants',
    );
    expect(() => fillCavity(cavity, { ...HOT, wall: 448.15 }, PUSH)).toThrow(
      'noFlowFraction: wants melt above contact',
    );
  });

  test('a shot is a run with the melt, the push and the channels of its own', () => {
    const cavity = strip(8, 1, MM, () => MM);
    const { viscosity, temperature: melt, wall, noFlow, diffusivity } = MELT;
    const feed = { stretches: [{ drag: 1e11, thickness: 2 * MM, round: true }], airResistance: 1e12 };
    const shot = {
      viscosity,
      melt,
      wall,
      noFlow,
      diffusivity,
      pressure: 3e5,
      flow: 1e-8,
      gap: 1,
      closing: 1,
    };
    const push = { ...feed, pressure: 3e5, flowLimit: 1e-8 };
    const own = fillCavity(cavity, { ...MELT, cools: true }, push, [], LONG_STEPS);
    const fill = shotFill(cavity, feed, shot);
    expect(fill.time).toBe(own.time);
    expect(fill.injector).toEqual(own.injector);
    expect([...fill.state.temperature]).toEqual([...own.state.temperature]);
    expect(fill.state.temperature.some((temperature) => temperature < melt)).toBe(true);
  });
});

/** A run that is made up: when each cell of a full map was full [s], Infinity for one that is left short. */
function madeUp(
  size: { nx: number; ny: number },
  times: readonly number[],
  shares: readonly number[] = [],
): CavityFill {
  const cavity = cutCavity({ ...mapOf({ ...size, cell: MM, open: true }, () => MM), x0: 0, y0: 0 }, [0]);
  const pick = (of: (place: number) => number) => Float64Array.from(cavity.place, of);
  const full = (place: number) => Number.isFinite(times[place]!);
  return {
    state: {
      cavity,
      filledAt: pick((place) => (full(place) ? times[place]! : NaN)),
      stage: Uint8Array.from(cavity.place, (place) => (full(place) ? 2 : 1)),
      share: pick((place) => shares[place] ?? 1),
      cameFrom: new Float64Array(4 * cavity.count),
    },
    time: 9,
  } as unknown as CavityFill;
}

describe('maps of a run', () => {
  test('times lie on the plan, no later than the end; what is short has none', () => {
    const map = fillMap(madeUp({ nx: 3, ny: 1 }, [1, 9.5, Infinity]));
    expect(map).toMatchObject({ nx: 3, ny: 1, x0: 0, y0: 0, cell: MM, end: 9 });
    expect([...map.time]).toEqual([1, 9, NaN]);
    expect([...map.short]).toEqual([0, 0, 1]);
    const hole = mapOf({ nx: 2, ny: 1, cell: MM, open: true }, (x) => (x < MM ? MM : 0));
    const alone = fillMap(fillCavity(cutCavity(hole, [0]), HOT, PUSH));
    expect([...alone.short]).toEqual([0, 0]);
    expect(alone.time[1]).toBeNaN();
  });

  const last = (times: readonly number[], radius: number, shares?: readonly number[]) =>
    lastPlaces(madeUp({ nx: times.length, ny: 1 }, times, shares), radius * MM).map(({ x, time }) => [
      Math.round(x / MM),
      time,
    ]);

  test('last places filled after all around them, latest first', () => {
    expect(last([1, 3, 2, 5, 4], 1)).toEqual([
      [3, 5],
      [1, 3],
    ]);
    // Within two cells of the third cell one filled later.
    expect(last([1, 3, 2, 5, 4], 2)).toEqual([[3, 5]]);
    expect(last([5, 1, 3, 1, 4], 1)).toEqual([
      [0, 5],
      [4, 4],
      [2, 3],
    ]);
    // Within two cells of it one filled later that is no last place itself.
    expect(last([1, 3, 2, 4, 5], 2)).toEqual([[4, 5]]);
    // Alike and side by side: one of them.
    expect(last([1, 4, 4, 1], 1)).toHaveLength(1);
    expect(last([1, 4, 4, 1], 0.5)).toHaveLength(2);
    expect(last([1, 4, 2, 4], 2)).toHaveLength(1);
    expect(last([1, 4, 2, 4], 1.9)).toHaveLength(2);
  });

  test('what is left short counts as last of all, the emptiest first, at the end of the run', () => {
    expect(last([1, Infinity, 2, Infinity, 8], 1, [1, 0.7, 1, 0.2, 1])).toEqual([
      [3, 9],
      [1, 9],
    ]);
  });

  test('up the plan as along it', () => {
    const upright = (times: readonly number[], radius: number) =>
      lastPlaces(madeUp({ nx: 1, ny: times.length }, times), radius * MM).map(({ y, time }) => [
        Math.round(y / MM),
        time,
      ]);
    for (const radius of [0.5, 1, 2]) {
      for (const times of [
        [1, 3, 2, 5, 4],
        [1, 3, 2, 4, 5],
        [5, 1, 3, 1, 4],
      ]) {
        expect(upright(times, radius)).toEqual(last(times, radius));
      }
    }
  });

  test('places lie where the plan has them', () => {
    const [place] = lastPlaces(madeUp({ nx: 2, ny: 3 }, [1, 2, 3, 4, 5, 6]), 9 * MM);
    expect(place).toEqual({ x: 1 * MM, y: 2 * MM, time: 6 });
  });
});

describe('weld lines of a run', () => {
  /** Sets what came into the cell at a place, from east, west, north, south [m³]. */
  const came = (fill: CavityFill, place: number, sides: readonly number[]) =>
    fill.state.cameFrom.set(sides, 4 * fill.state.cavity.cellAt[place]!);
  const [EAST, WEST, NORTH, SOUTH] = [
    [1, 0, 0, 0],
    [0, 1, 0, 0],
    [0, 0, 1, 0],
    [0, 0, 0, 1],
  ] as const;
  const half = 0.5 * MM;

  test('stand between cells that were filled from opposite sides, with the later time', () => {
    const fill = madeUp({ nx: 2, ny: 2 }, [1, 4, 3, 2]);
    came(fill, 0, WEST);
    came(fill, 1, EAST);
    expect(weldStretches(fill)).toEqual([{ from: [half, -half], to: [half, half], time: 4 }]);
    came(fill, 0, SOUTH);
    came(fill, 2, NORTH);
    expect(weldStretches(fill)).toEqual([{ from: [-half, half], to: [half, half], time: 3 }]);
  });

  test('stand nowhere else: fronts side by side, away from each other, or short', () => {
    for (const [own, other] of [
      [EAST, WEST],
      [WEST, WEST],
      [SOUTH, SOUTH],
      [NORTH, SOUTH],
      [[0, 0, 0, 0], EAST],
    ] as const) {
      const fill = madeUp({ nx: 2, ny: 1 }, [1, 2]);
      came(fill, 0, own);
      came(fill, 1, other);
      expect(weldStretches(fill)).toEqual([]);
    }
    for (const times of [
      [Infinity, 2],
      [1, Infinity],
    ]) {
      const fill = madeUp({ nx: 2, ny: 1 }, times);
      came(fill, 0, WEST);
      came(fill, 1, EAST);
      expect(weldStretches(fill)).toEqual([]);
    }
  });

  // Unit directions: (cos a, sin a) from the south-west against straight from the east differ by 1 + cos a along x.
  test.each([
    { angle: 75, found: 1 },
    { angle: 80, found: 0 },
  ])('a front at $angle° against a straight one: $found', ({ angle, found }) => {
    const a = (angle * Math.PI) / 180;
    const fill = madeUp({ nx: 2, ny: 1 }, [1, 2]);
    came(fill, 0, [0, 3 * Math.cos(a), 0, 3 * Math.sin(a)]);
    came(fill, 1, [5, 0, 0, 0]);
    expect(weldStretches(fill)).toHaveLength(found);
    // From the north-west it is the same.
    came(fill, 0, [0, 3 * Math.cos(a), 3 * Math.sin(a), 0]);
    expect(weldStretches(fill)).toHaveLength(found);
  });
});
