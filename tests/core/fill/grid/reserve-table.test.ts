import fc from 'fast-check';
import { beforeAll, describe, expect, test } from 'vitest';
import { cutCavity } from '../../../../src/core/fill/grid/cavity.ts';
import { criticalViscosities } from '../../../../src/core/fill/grid/critical-viscosity.ts';
import { FILL_SETTINGS, LONG_STEPS } from '../../../../src/core/fill/grid/fill-cavity.ts';
import { gateEntries } from '../../../../src/core/fill/grid/gate.ts';
import {
  shortShotReading,
  shotConditions,
  VISCOSITY_AT,
  wallUnder,
  type ReserveValues,
} from '../../../../src/core/fill/grid/reserve-band.ts';
import {
  fillReserve,
  shotTheta,
  type ReserveTable,
  type ShotConditions,
} from '../../../../src/core/fill/grid/reserve-table.ts';
import {
  deepened,
  freezeScale,
  tabulatedReserve,
  type Shaped,
} from '../../../../src/core/fill/grid/tabulated-reserve.ts';
import { freezeConstant, freezeReach } from '../../../../src/core/fill/freeze-constant.ts';
import { arrheniusViscosity } from '../../../../src/core/fill/viscosity.ts';
import { bait, mapOf, middle } from './maps.ts';

const SEED = 20260708;

/** The same bait on a grid of some pitch [m]. */
function shapedAt(cell: number): Shaped {
  const map = bait(cell);
  return {
    cavity: cutCavity(map, gateEntries(map, { at: 'nose', width: 4e-3, depth: 3e-3 })),
    partsOf: (cavity) => {
      const cells = [...cavity.place.keys()].filter((k) => middle(cavity.map, cavity.place[k]!)[0] > 0.062);
      return [{ name: 'tail', cells, root: [] }];
    },
    feed: { stretches: [{ drag: 2e9, thickness: 6e-3, round: true }], airResistance: 3e8 },
  };
}

/** As coarse as the grids of the longest baits, and finer. */
const SHAPED = shapedAt(1.3e-3);
const FINE = shapedAt(0.9e-3);
const SHOT: ShotConditions = {
  ...{ pressure: 2e5, diffusivity: 7.5e-8, noFlow: 373.15, melt: 435, wall: 299 },
  ...{ flow: 4e-6, gap: 0, closing: 0, viscosity: { reference: 3, at: VISCOSITY_AT, activation: 35000 } },
};

let table: ReserveTable;
let fine: ReserveTable;
beforeAll(() => {
  table = tabulatedReserve(SHAPED, SHOT);
  fine = tabulatedReserve(FINE, SHOT);
}, 60_000);

/** The reserve as the solver has it: stiffer and stiffer melt until the tail comes short. */
function solved(shot: ShotConditions, shaped = SHAPED, settings = LONG_STEPS, tolerance = 0.02): number {
  const { map, gate, place } = shaped.cavity;
  const cavity = cutCavity(
    deepened(map, shot.gap),
    gate.map((cell) => place[cell]!),
  );
  const { viscosity, melt: temperature, wall, noFlow, diffusivity, pressure, flow } = shot;
  const closing = shot.closing > 0 ? 'fresh core' : 'own age';
  const [stiffest] = criticalViscosities(
    cavity,
    { temperature, wall, noFlow, diffusivity, viscosity, closing, cools: true },
    { ...shaped.feed, pressure, flowLimit: flow },
    { features: shaped.partsOf(cavity), tolerance, settings },
  );
  return Math.sqrt(stiffest! / viscosity.reference);
}

const told = (shot: ShotConditions) => fillReserve(table, table.parts[0]!, shot);

describe('tabulated reserve', () => {
  test('is the solver’s at the conditions that it was made for, within its bracket', () => {
    expect(Math.abs(told(SHOT) / solved(SHOT) - 1)).toBeLessThan(0.02);
  });

  test('long steps move it by a fifth of what the pitch does', () => {
    const close = 0.002;
    const pitch = solved(SHOT, FINE, LONG_STEPS, close) / solved(SHOT, SHAPED, LONG_STEPS, close) - 1;
    const steps = solved(SHOT, FINE, LONG_STEPS, close) / solved(SHOT, FINE, FILL_SETTINGS, close) - 1;
    expect(Math.abs(steps)).toBeLessThan(0.2 * Math.abs(pitch));
  });

  // The error that `fillReserve` states; bands are ten times that.
  test.each([
    ['a warm mold', { wall: 331 }],
    ['a hot one', { wall: 348 }],
    ['a hotter pour', { melt: 446 }],
    ['a cooler pour', { melt: 425 }],
    ['a low no-flow temperature', { noFlow: 343.15 }],
    ['a high one', { noFlow: 398.15 }],
    ['heat that spreads slowly', { diffusivity: 5e-8 }],
    ['heat that spreads fast', { diffusivity: 1.05e-7 }],
    ['a light push', { pressure: 1.1e5 }],
    ['a heavy one', { pressure: 4.5e5 }],
    ['a slow push', { flow: 2e-6 }],
    ['a quick one', { flow: 8e-6 }],
    ['steep viscosity', { viscosity: { ...SHOT.viscosity, activation: 60000 } }],
    ['flat viscosity', { viscosity: { ...SHOT.viscosity, activation: 25000 } }],
    ['stiff plastic', { viscosity: { ...SHOT.viscosity, reference: 15 } }],
    ['a shallow cut', { gap: -3e-5 }],
    ['a deep cut', { gap: 1e-4 }],
    ['a core that stays hot', { closing: 1 }],
    ['several at once', { wall: 331, melt: 442, pressure: 1.2e5, diffusivity: 9e-8, flow: 3e-6 }],
    ['several against it', { melt: 428, noFlow: 385, pressure: 1.4e5, gap: -2e-5 }],
  ])('is within 6 %% of the solver with %s', (_, changes) => {
    const shot = { ...SHOT, ...changes };
    expect(Math.abs(told(shot) / solved(shot) - 1)).toBeLessThan(0.06);
  });

  test.each([
    ['at its own conditions', {}, 0.02],
    ['in a warm mold', { wall: 331 }, 0.06],
    ['with a low no-flow temperature', { noFlow: 343.15 }, 0.06],
    ['with a light push', { pressure: 1.1e5 }, 0.06],
    ['with a slow push', { flow: 2e-6 }, 0.06],
    ['with a deep cut', { gap: 1e-4 }, 0.06],
    ['with a core that stays hot', { closing: 1 }, 0.06],
  ])('on a finer grid it is as near to the solver %s', (_, changes, most) => {
    const shot = { ...SHOT, ...changes };
    const reserve = fillReserve(fine, fine.parts[0]!, shot);
    expect(Math.abs(reserve / solved(shot, FINE) - 1)).toBeLessThan(most);
  });

  test(`hotter, warmer, deeper, harder, thinner never fills less (seed ${SEED})`, () => {
    const share = fc.double({ min: 0, max: 1, noNaN: true });
    const order = fc.tuple(share, share).map(([a, b]) => [Math.min(a, b), Math.max(a, b)] as const);
    const at = (low: number, high: number, s: number) => low + (high - low) * s;
    fc.assert(
      fc.property(order, order, order, order, order, (melt, wall, gap, push, thin) => {
        const shot = (k: 0 | 1): ShotConditions => ({
          ...SHOT,
          melt: at(425, 455, melt[k]),
          wall: at(290, 350, wall[k]),
          gap: at(-3e-5, 1e-4, gap[k]),
          pressure: at(1e5, 5e5, push[k]),
          viscosity: { ...SHOT.viscosity, reference: at(15, 0.5, thin[k]) },
        });
        return told(shot(1)) >= told(shot(0)) * (1 - 1e-9);
      }),
      { seed: SEED, numRuns: 300 },
    );
  });

  test('every place as old as the gate is the low end', () => {
    expect(told({ ...SHOT, closing: -1 })).toBeLessThan(told(SHOT));
    expect(table.gateAge).toBeLessThan(0);
  });

  test('no pressure, no diffusivity, no flow are refused', () => {
    for (const name of ['pressure', 'diffusivity', 'flow'] as const) {
      expect(() => told({ ...SHOT, [name]: 0 })).toThrow(`fillReserve: ${name}`);
    }
  });
});

describe('short shots', () => {
  const compound = { diffusivity: 7.5e-8, noFlow: 373.15, activation: 35000 };
  const effusivity = { melt: 520, mold: 20100 };
  const shot = (gap: number, viscosity: number) => {
    const [melt, mold, pressure] = [436, 295, 2.17e5];
    const wall = wallUnder({ effusivity }, melt, mold);
    const theta = shotTheta({ noFlow: compound.noFlow, melt, wall });
    const there = { reference: viscosity, at: VISCOSITY_AT, activation: compound.activation };
    const drive = { pressure, diffusivity: compound.diffusivity, viscosity: arrheniusViscosity(there, melt) };
    return { gap, reach: freezeReach(freezeConstant('slot', theta), gap, drive), pressure, melt, mold };
  };
  const setting = { volume: 5e-6, effusivity, shortShots: [shot(1e-3, 2), shot(0.8e-3, 2)] };

  test('give back the viscosity that they were made with', () => {
    expect(Math.abs(shortShotReading(setting, freezeScale(), compound) / 2 - 1)).toBeLessThan(0.01);
    const mixed = { ...setting, shortShots: [shot(1e-3, 1), shot(0.8e-3, 4)] };
    expect(Math.abs(shortShotReading(mixed, freezeScale(), compound) / 2 - 1)).toBeLessThan(0.01);
  });

  test('what they were shot through, the reserve does not depend on', () => {
    const values: ReserveValues = {
      ...{ ...compound, pressure: 2e5, viscosity: 1, melt: 435, mold: 295, gap: 0, closing: 0, push: 2 },
    };
    const reserve = (changes: Partial<ReserveValues>, measured: boolean) => {
      const used = { ...setting, shortShots: measured ? setting.shortShots : [] };
      const own = { ...values, viscosity: measured ? 1 : 2, ...changes };
      return told(shotConditions(own, used, table.scale));
    };
    const spread = (measured: boolean) => {
      const ends = [5e-8, 1.05e-7].map((diffusivity) => reserve({ diffusivity }, measured));
      return Math.abs(Math.log(ends[0]! / ends[1]!));
    };
    expect(Math.abs(reserve({}, true) / reserve({}, false) - 1)).toBeLessThan(0.01);
    expect(spread(true)).toBeLessThan(0.1 * spread(false) + 0.02);
  });
});

test('a cavity is cut deeper all over, never below a hair', () => {
  const flat = mapOf({ nx: 4, ny: 1, cell: 1e-3 }, (x) => (x < 0.003 ? 1e-3 : 0));
  const at = (gap: number) => [...deepened(flat, gap).height];
  expect(at(1e-4)[0]).toBeCloseTo(1.1e-3, 12);
  expect(at(1e-4)[3]).toBe(0);
  expect(at(-2e-3)[0]).toBeCloseTo(5e-5, 12);
});
