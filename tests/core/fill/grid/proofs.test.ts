import { describe, expect, test } from 'vitest';
import published from '../../../published/fill.json' with { type: 'json' };
import { cutCavity } from '../../../../src/core/fill/grid/cavity.ts';
import { fillCavity, type CavityFill } from '../../../../src/core/fill/grid/fill-cavity.ts';
import { freezeConstant, freezeReach } from '../../../../src/core/fill/freeze-constant.ts';
import { branchHesitation } from '../../../../src/core/fill/hesitation.ts';
import { HOT, MELT, PUSH, at, bait, mapOf, middle, strip } from './maps.ts';

const reachOf = (fill: CavityFill) => {
  const { share, cavity } = fill.state;
  const rows = cavity.gate.length;
  return (share.reduce((sum, part) => sum + part, 0) / rows) * cavity.map.cell;
};

describe('slot at constant pressure, no freezing', () => {
  // Poiseuille flow with a moving front, x = h√(Pt/6μ): 50 mm of a 1 mm slot at 2 bar and 3 Pa·s take 0.225 s.
  const error = (cells: number) =>
    fillCavity(
      strip(cells, 3, 0.05 / cells, () => 1e-3),
      HOT,
      PUSH,
    ).time /
      0.225 -
    1;

  test('fills in 6μx²/(Ph²), second order in the cell', () => {
    const [coarse, middling, fine] = [error(10), error(20), error(40)].map(Math.abs) as [
      number,
      number,
      number,
    ];
    expect(coarse).toBeLessThan(0.01);
    expect(fine).toBeLessThan(5e-4);
    expect(coarse / middling).toBeGreaterThan(3.5);
    expect(middling / fine).toBeGreaterThan(3.5);
  });

  test('the front is where h√(Pt/6μ) says at every cell', () => {
    const fill = fillCavity(
      strip(40, 1, 0.05 / 40, () => 1e-3),
      HOT,
      PUSH,
    );
    fill.state.filledAt.forEach((time, cell) => {
      if (cell < 4) return;
      const x = ((cell + 1) * 0.05) / 40;
      expect(Math.abs(1e-3 * Math.sqrt((2e5 * time) / (6 * 3)) - x) / 0.00125).toBeLessThan(0.3);
    });
  });
});

describe('disc at constant flow, no freezing', () => {
  const [height, flow] = [1e-3, 2e-6];
  const run = (cells: number) => {
    const cell = 0.04 / cells;
    const map = mapOf({ nx: cells, ny: cells, cell, open: true }, (x, y) =>
      Math.hypot(x - 0.02, y) < 0.02 ? height : 0,
    );
    const centre = (cells >> 1) + cells * (cells >> 1);
    return fillCavity(cutCavity(map, [centre]), HOT, { ...PUSH, pressure: 1e9, flowLimit: flow });
  };
  const fill = run(41);

  test('the front is a circle of radius √(Qt/πh)', () => {
    const { map, place } = fill.state.cavity;
    let [sum, count] = [0, 0];
    fill.state.filledAt.forEach((time, cell) => {
      const [x, y] = middle(map, place[cell]!);
      const radius = Math.hypot(x - 0.02, y);
      if (radius < 0.005 || radius > 0.017) return;
      const front = Math.sqrt((flow * time) / (Math.PI * height));
      expect(Math.abs(front - radius)).toBeLessThan(1.6 * map.cell);
      sum += front - radius;
      count++;
    });
    // A cell counts as full once the front has passed its far edge, half a cell beyond its middle.
    expect(Math.abs(sum / count - map.cell / 2)).toBeLessThan(0.35 * map.cell);
  });

  test('pressure rises as (3μQ/πh³)·ln t, first order in the cell', () => {
    const slopeError = (disc: CavityFill) => {
      const { time, pressure } = disc.injector;
      const inside = time.flatMap((t, k) => {
        const radius = Math.sqrt((flow * t) / (Math.PI * height));
        return radius > 0.006 && radius < 0.018 ? [{ x: Math.log(t), y: pressure[k]! }] : [];
      });
      const mean = (of: (point: { x: number; y: number }) => number) =>
        inside.reduce((sum, point) => sum + of(point), 0) / inside.length;
      const [mx, my] = [mean(({ x }) => x), mean(({ y }) => y)];
      const slope = mean(({ x, y }) => (x - mx) * (y - my)) / mean(({ x }) => (x - mx) ** 2);
      return Math.abs(slope / ((3 * 3 * flow) / (Math.PI * height ** 3)) - 1);
    };
    const [coarse, fine] = [slopeError(fill), slopeError(run(81))];
    expect(coarse).toBeLessThan(0.06);
    expect(fine).toBeLessThan(0.6 * coarse);
  });

  test('takes V/Q to fill, to rounding', () => {
    expect(fill.time / (fill.volume / flow)).toBeCloseTo(1, 9);
  });
});

describe('freezing', () => {
  test.each([0.3, 0.4, 0.5, 0.6, 0.7])('θ %s: reach K·h²√(P/(μα)) within 1 %%', (theta) => {
    const drive = { pressure: 2e5, viscosity: 3, diffusivity: 7.5e-8 };
    const reach = freezeReach(freezeConstant('slot', theta), 1e-3, drive);
    const fill = fillCavity(
      strip(90, 1, reach / 60, () => 1e-3),
      at(theta),
      PUSH,
    );
    expect(fill.filled).toBe(false);
    expect(Math.abs(reachOf(fill) / reach - 1)).toBeLessThan(0.01);
  });

  test.each([
    { theta: 0.3, cell: 0.25e-3, within: 0.03 },
    { theta: 0.5, cell: 0.25e-3, within: 0.03 },
    { theta: 0.7, cell: 0.25e-3, within: 0.03 },
    { theta: 0.5, cell: 0.4e-3, within: 0.08 },
  ])('round bar, θ $theta, pitch $cell m: reach K·R²√(P/(μα)) within $within', ({ theta, cell, within }) => {
    const radius = 1e-3;
    const reach = freezeReach(freezeConstant('round', theta), radius, {
      pressure: 2e5,
      viscosity: 3,
      diffusivity: 7.5e-8,
    });
    const bare = mapOf(
      { nx: Math.round((2 * reach) / cell), ny: Math.round((2.4 * radius) / cell), cell },
      (_, y) => (Math.abs(y) < radius ? 2 * Math.sqrt(radius ** 2 - y * y) : 0),
    );
    const map = { ...bare, thickness: bare.height.map((height) => (height > 0 ? 2 * radius : 0)) };
    const ends = [...map.height.keys()].filter((place) => map.height[place]! > 0 && place % map.nx === 0);
    const fill = fillCavity(cutCavity(map, ends), at(theta), PUSH);
    expect(Math.abs(fill.volume / (Math.PI * radius ** 2) / reach - 1)).toBeLessThan(within);
  });

  // Independent march (numpy), the row march.L1_taper of the published table.
  test('tapered slot: short at 1 bar, full at 2 and 3', () => {
    const row = published.checks.find(({ id }) => id === 'march.L1_taper')!;
    const expected = row.expected as unknown as Record<string, number>;
    const [one, two, three] = [1e5, 2e5, 3e5].map((pressure) =>
      fillCavity(
        strip(200, 1, 0.05 / 200, (x) => 1.2e-3 - (0.8e-3 * x) / 0.05),
        at(0.4868369995),
        { ...PUSH, pressure },
      ),
    );
    expect(one!.filled).toBe(false);
    expect(Math.abs(reachOf(one!) / expected['x_1bar']! - 1)).toBeLessThan(0.015);
    expect(two!.filled && three!.filled).toBe(true);
    expect(Math.abs(two!.time / expected['t_2bar']! - 1)).toBeLessThan(0.015);
    expect(Math.abs(three!.time / expected['t_3bar']! - 1)).toBeLessThan(0.015);
  });
});

describe('hesitation', () => {
  // A thick bar 60 mm long, gated at its left end; a 1 mm fin 5 mm wide leaves it 10 mm from the gate.
  const cell = 1e-3;
  const thick = 5e-3;
  const map = mapOf({ nx: 60, ny: 40, cell, open: true }, (x, y) => {
    if (y > -0.02 && y < -0.012) return thick;
    return x > 0.01 && x < 0.015 && y >= -0.012 ? 1e-3 : 0;
  });
  const cavity = cutCavity(
    map,
    [0, 1, 2, 3, 4, 5, 6, 7].map((j) => 60 * j),
  );
  const fin = Array.from({ length: cavity.count }, (_, k) => k).filter(
    (k) => middle(map, cavity.place[k]!)[1] > -0.012,
  );
  const creepWhen = (fill: CavityFill, before: number) =>
    (fin.filter((cellNo) => fill.state.filledAt[cellNo]! <= before).length / 5) * cell;
  const bodyFull = (fill: CavityFill) =>
    Math.max(...[...fill.state.filledAt].filter((time, k) => !fin.includes(k) && Number.isFinite(time)));
  const run = (flow: number) => fillCavity(cavity, at(0.4868369995), { ...PUSH, flowLimit: flow });
  const predicted = (flow: number) =>
    branchHesitation({
      ...{ gap: 1e-3, flow, viscosity: 3, diffusivity: 7.5e-8, theta: 0.4868369995 },
      bodyDrag: (12 * 0.0475) / (8e-3 * thick ** 3),
      bodyVolume: 0.0475 * 8e-3 * thick,
    });

  test('while the bar fills the fin only creeps, then it shoots ahead', () => {
    const [fill, rule] = [run(4e-6), predicted(4e-6)];
    const creep = creepWhen(fill, bodyFull(fill));
    expect(rule.freezesFirst).toBe(false);
    expect(creep).toBeLessThan(rule.creep);
    expect(creep).toBeGreaterThan(0.3 * rule.creep);
    expect(creepWhen(fill, Infinity)).toBeGreaterThan(3 * creep);
  });

  test('a bar that fills more slowly than the fin freezes leaves the fin short at any later pressure', () => {
    const [fill, rule] = [run(1e-6), predicted(1e-6)];
    expect(rule.freezesFirst).toBe(true);
    expect(fill.filled).toBe(false);
    expect(creepWhen(fill, Infinity)).toBeLessThan(rule.creep + cell);
    expect(fill.state.stage.filter((stage, k) => !fin.includes(k) && stage !== 2)).toHaveLength(0);
  });
});

describe('heat carried along', () => {
  // Developed slot flow at constant speed u loses heat as T − T_wall ∝ exp(−Nu·α·x/(h²u)), Nu 7.5407 on 2h: Shah & London.
  test('the melt cools along a slot as the heat balance says', () => {
    const [height, speed, length] = [1e-3, 0.1, 0.04];
    const diffusivity = (0.5 * speed * height ** 2) / (7.5407 * length);
    const melt = {
      ...MELT,
      diffusivity,
      cools: true,
      noFlow: 295,
      viscosity: { ...MELT.viscosity, activation: 0 },
    };
    const cells = 160;
    const cavity = strip(cells, 1, length / cells, () => height);
    const flowLimit = speed * height * cavity.map.cell;
    const { state } = fillCavity(cavity, melt, { ...PUSH, pressure: 1e9, flowLimit });
    state.temperature.forEach((temperature, cell) => {
      if (cell > cells - 3) return;
      const x = ((cell + 0.5) * length) / cells;
      const exact = Math.exp((-7.5407 * diffusivity * x) / (height ** 2 * speed));
      expect(Math.abs((temperature - melt.wall) / (melt.temperature - melt.wall) - exact)).toBeLessThan(0.02);
    });
  });

  test('melt that cools on its way gets less far, never further than the closed form', () => {
    const cavity = strip(90, 1, 1.2e-3, () => 1e-3);
    const [cooling, held] = [true, false].map((cools) =>
      reachOf(fillCavity(cavity, { ...at(0.5), cools }, PUSH)),
    );
    expect(cooling).toBeLessThan(held!);
    expect(cooling).toBeGreaterThan(0.6 * held!);
  });

  test('a wall warmer than the no-flow temperature lets a thin part fill that a cold one leaves short', () => {
    const cavity = strip(36, 1, 1e-3, () => 0.6e-3);
    expect(fillCavity(cavity, { ...MELT, cools: true }, PUSH).filled).toBe(false);
    expect(fillCavity(cavity, { ...MELT, cools: true, wall: 380 }, PUSH).filled).toBe(true);
  });
});

describe('the whole bait', () => {
  test.each([2e-3, 1.2e-3])('mass balance holds to 1e-9 at a pitch of %s m', (cell) => {
    const map = bait(cell);
    const gate = [...map.height.keys()].filter((place) => map.height[place]! > 0 && place % map.nx < 3);
    for (const reference of [3, 20]) {
      const melt = { ...MELT, cools: true, viscosity: { ...MELT.viscosity, reference } };
      const fill = fillCavity(cutCavity(map, gate), melt, { ...PUSH, flowLimit: 1.5e-5 });
      expect(Math.abs(fill.injected / fill.volume - 1)).toBeLessThan(1e-9);
      const { share, cavity } = fill.state;
      const held = share.reduce((sum, part, k) => sum + part * cavity.volume[k]!, 0);
      expect(Math.abs(fill.volume / held - 1)).toBeLessThan(1e-9);
    }
  });
});
