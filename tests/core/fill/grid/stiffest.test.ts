import { describe, expect, test } from 'vitest';
import { cutCavity, type Cavity } from '../../../../src/core/fill/grid/cavity.ts';
import { criticalViscosities, viscosityTrials } from '../../../../src/core/fill/grid/critical-viscosity.ts';
import { filledFrom, filledShare } from '../../../../src/core/fill/grid/filled-share.ts';
import { fillCavity } from '../../../../src/core/fill/grid/fill-cavity.ts';
import type { GridFeed } from '../../../../src/core/fill/grid/feed.ts';
import type { CavityMap } from '../../../../src/core/fill/grid/plan-width.ts';
import type { ShotConditions } from '../../../../src/core/fill/grid/reserve-table.ts';
import type { GridMelt } from '../../../../src/core/fill/grid/state.ts';
import {
  deepened,
  freezeScale,
  tabulatedReserve,
  type Shaped,
} from '../../../../src/core/fill/grid/tabulated-reserve.ts';
import { freezeConstant, freezeConstantUniform } from '../../../../src/core/fill/freeze-constant.ts';
import { arrheniusViscosity, GAS_CONSTANT } from '../../../../src/core/fill/viscosity.ts';
import { PUSH, at, mapOf, middle, strip } from './maps.ts';

const MM = 1e-3;
/** Reserves are sought from a tenth to ten, viscosities from a hundredth to a hundred. */
const WIDEST = Math.log(100);

describe('what counts as filled', () => {
  test('all but a cell and a half, 98.5 % at most, nothing of one cell', () => {
    expect(filledFrom(1)).toBe(0);
    expect(filledFrom(0)).toBe(0);
    expect(filledFrom(15)).toBeCloseTo(0.9, 12);
    expect(filledFrom(100)).toBeCloseTo(0.985, 12);
    expect(filledFrom(1000)).toBeCloseTo(0.985, 12);
  });

  test('shares are by volume; no cells are full', () => {
    const cavity = strip(3, 1, MM, (x) => (x < MM ? 3 * MM : MM));
    const fill = fillCavity(cavity, at(0.5), PUSH);
    fill.state.share.set([0.5, 1, 0]);
    expect(filledShare(fill, [0, 1])).toBeCloseTo((1.5 + 1) / 4, 12);
    expect(filledShare(fill, [2])).toBe(0);
    expect(filledShare(fill, [])).toBe(1);
  });
});

const all = (cavity: Cavity) => Array.from({ length: cavity.count }, (_, k) => k);

/** ln of the stiffest melt, by halving nothing but the definition. */
function halved(shareAt: (ln: number) => number, cells: number): number {
  const wanted = 1 - Math.max(0.015, 1.5 / cells);
  let [low, high] = [-WIDEST, WIDEST];
  for (let k = 0; k < 13; k++) {
    const ln = (low + high) / 2;
    if (shareAt(ln) >= wanted) low = ln;
    else high = ln;
  }
  return (low + high) / 2;
}

const shareWith =
  (cavity: Cavity, melt: GridMelt, feed: GridFeed, cells: readonly number[]) => (ln: number) => {
    const viscosity = { ...melt.viscosity, reference: melt.viscosity.reference * Math.exp(ln) };
    return filledShare(fillCavity(cavity, { ...melt, viscosity }, feed), cells);
  };

describe('the search from nothing', () => {
  const cavity = strip(24, 1, MM, () => MM);
  const feature = (cells: readonly number[]) => ({ name: 'part', cells, root: [] });

  test('trials run each viscosity once, for all features', () => {
    const features = [feature(all(cavity)), feature([0, 1])];
    const trials = viscosityTrials(cavity, at(0.6), PUSH, { features });
    const shares = trials.sharesAt(3);
    expect(trials.sharesAt(3)).toBe(shares);
    expect(trials.tried()).toEqual([3]);
    const exact = features.map(({ cells }) => shareWith(cavity, at(0.6), PUSH, cells)(3));
    expect(shares).toEqual(exact);
    expect(shares[0]).toBeLessThan(1);
    const fine = { overfill: 0.25, stride: 0.01 };
    expect(viscosityTrials(cavity, at(0.6), PUSH, { features, settings: fine }).sharesAt(3)).not.toEqual(
      shares,
    );
  });

  test.each([0.06, 0.01])('finds each feature’s end within its tolerance of %s', (tolerance) => {
    const features = [feature(all(cavity)), feature(all(cavity).slice(0, 12))];
    const found = criticalViscosities(cavity, at(0.5), PUSH, { features, tolerance });
    features.forEach(({ cells }, n) => {
      const exact = halved(shareWith(cavity, at(0.5), PUSH, cells), cells.length);
      expect(Math.abs(Math.log(found[n]! / 3) - exact)).toBeLessThan(tolerance / 2 + 0.005);
    });
  });

  test('by default within 0.03, from a melt far too stiff or far too thin as well', () => {
    const features = [feature(all(cavity))];
    const exact = 3 * Math.exp(halved(shareWith(cavity, at(0.5), PUSH, all(cavity)), 24));
    for (const reference of [0.3, 30, 150]) {
      const melt = { ...at(0.5), viscosity: { ...at(0.5).viscosity, reference } };
      const [found] = criticalViscosities(cavity, melt, PUSH, { features });
      expect(Math.abs(Math.log(found! / exact))).toBeLessThan(0.035);
    }
  });

  test('the ends of the range, and no cells at all', () => {
    const features = [feature(all(cavity))];
    const [never] = criticalViscosities(cavity, at(0.5), { ...PUSH, pressure: 1 }, { features });
    expect(never! / 0.03).toBeCloseTo(1, 9);
    const [always] = criticalViscosities(cavity, at(0.5), { ...PUSH, pressure: 1e9 }, { features });
    expect(always! / 300).toBeCloseTo(1, 9);
    const [empty] = criticalViscosities(
      cavity,
      at(0.5),
      { ...PUSH, pressure: 1 },
      { features: [feature([])] },
    );
    expect(empty! / 300).toBeCloseTo(1, 9);
  });

  test('a tolerance of nothing is refused', () => {
    const features = [feature(all(cavity))];
    expect(() => criticalViscosities(cavity, at(0.5), PUSH, { features, tolerance: 0 })).toThrow(
      'criticalViscosities: tolerance: wants a number from 0.001 to 1, got 0',
    );
  });
});

describe('a cavity cut deeper', () => {
  test('heights and thicknesses grow alike, nothing below a twentieth of a millimetre, outside stays outside', () => {
    const flat = mapOf({ nx: 3, ny: 1, cell: MM }, (x) => (x < 2 * MM ? MM : 0));
    const map: CavityMap = { ...flat, thickness: Float64Array.from([2 * MM, 0.1 * MM, 0]) };
    const deep = deepened(map, -0.2 * MM);
    expect([...deep.height].map((value) => Math.round(value * 1e6))).toEqual([800, 800, 0]);
    expect([...deep.thickness!].map((value) => Math.round(value * 1e6))).toEqual([1800, 50, 0]);
    expect(deepened(flat, MM).thickness).toBeUndefined();
    expect(deep).toMatchObject({ nx: 3, ny: 1, cell: MM, x0: map.x0, y0: map.y0 });
  });

  test('the freeze-off constant is tabled from 0.02 to 0.97, as ln K²', () => {
    const { thetas, squares } = freezeScale();
    expect(thetas).toHaveLength(21);
    const rest = [0.02, ...Array.from({ length: 18 }, (_, k) => 0.05 * (k + 1)), 0.94, 0.97];
    thetas.forEach((theta, k) => expect(theta).toBeCloseTo(rest[k]!, 12));
    for (const k of [0, 10, 20]) {
      expect(squares[k]).toBeCloseTo(Math.log(freezeConstant('slot', thetas[k]!) ** 2), 9);
    }
    expect(freezeScale()).toBe(freezeScale());
  });
});

/** Cells of a strip: one row of them has too few for the coarse grid. */
const LONG = 23;

/** A strip of some rows of a 1 mm gap, gated across its left end; its parts are named halves. */
function shapedStrip(rows: number, feed: Shaped['feed'], easiest?: Shaped['feed']): Shaped {
  const map = mapOf({ nx: LONG, ny: rows, cell: MM, open: true }, () => MM);
  return {
    cavity: cutCavity(
      map,
      Array.from({ length: rows }, (_, j) => LONG * j),
    ),
    partsOf: (cavity) =>
      [
        { name: 'whole', from: 0 },
        { name: 'tip', from: 18 * MM },
      ].map(({ name, from }) => ({
        ...{ name, root: [] },
        cells: all(cavity).filter((k) => middle(cavity.map, cavity.place[k]!)[0] > from),
      })),
    feed,
    easiest,
  };
}

const SHOT: ShotConditions = {
  ...{ pressure: 2e5, diffusivity: 7.5e-8, noFlow: 373, melt: 440, wall: 306 },
  ...{ flow: 0.8e-7, gap: 0, closing: 0, viscosity: { reference: 2, at: 448, activation: 35000 } },
};

// Of six rows the changes come from the coarse grid.
describe.each([1, 6])('the table of a strip of %s rows', (rows) => {
  const feed = {
    stretches: [{ drag: 4e10 / rows, thickness: 3 * MM, round: true }],
    airResistance: 4e11 / rows,
  };
  const easiest = {
    stretches: [{ drag: 1e10 / rows, thickness: 3 * MM, round: true }],
    airResistance: 4e11 / rows,
  };
  const shaped = shapedStrip(rows, feed, easiest);
  const shot = { ...SHOT, flow: SHOT.flow * rows };
  const table = tabulatedReserve(shaped, shot);
  const viscosity = arrheniusViscosity(shot.viscosity, shot.melt);
  const stiff = (35000 / GAS_CONSTANT) * (1 / 373 - 1 / 440);
  const square = (theta: number) => 2 * Math.log(freezeConstant('slot', theta));

  test('is made for the shot: θ = 1/2, its stiffening, its flow over α', () => {
    expect(table.thetas).toEqual([0.25, 0.5, 0.8]);
    expect(table.stiffening).toBeCloseTo(stiff, 12);
    expect(table.flow).toBeCloseTo(shot.flow / 7.5e-8, 12);
    expect(table.gaps).toEqual([-3e-5, 1e-4]);
    expect(table.scale).toBe(freezeScale());
    const uniform = freezeConstantUniform('slot', 0.5) / freezeConstant('slot', 0.5);
    expect(table.gateAge).toBeCloseTo(2 * Math.log(uniform), 12);
    expect(table.parts.map(({ name }) => name)).toEqual(['whole', 'tip']);
  });

  /** ln of the stiffest melt at the gate over the shot's own, halved under each condition by itself. */
  function exact(
    part: number,
    change: Partial<Record<'theta' | 'flow' | 'gap' | 'stiff' | 'air', number>> & {
      core?: true;
      feed?: Shaped['feed'];
    },
  ) {
    const { map, gate, place } = shaped.cavity;
    const cavity = cutCavity(
      deepened(map, change.gap ?? 0),
      gate.map((cell) => place[cell]!),
    );
    const noFlow = 306 + (change.theta ?? 0.5) * 134;
    const activation = ((change.stiff ?? stiff) * GAS_CONSTANT) / (1 / noFlow - 1 / 440);
    const melt: GridMelt = {
      ...{ temperature: 440, wall: 306, noFlow, diffusivity: 7.5e-8 },
      viscosity: { reference: viscosity, at: 440, activation },
      closing: change.core ? 'fresh core' : 'own age',
      cools: activation > 0,
    };
    const own = { ...(change.feed ?? feed), pressure: 2e5, flowLimit: shot.flow * (change.flow ?? 1) };
    const { cells } = shaped.partsOf(cavity)[part]!;
    return halved(
      shareWith(cavity, melt, { ...own, airResistance: change.air ?? own.airResistance ?? 0 }, cells),
      cells.length,
    );
  }

  test.each([0, 1])('part %s is the solver’s under each condition alone', (part) => {
    const own = table.parts[part]!;
    const base = exact(part, {});
    const near = (told: number, change: Parameters<typeof exact>[1], within = 0.02) =>
      expect(Math.abs(told - (exact(part, change) - base)), JSON.stringify(change)).toBeLessThan(within);
    const group = Math.log((viscosity * 7.5e-8) / 2e5);
    const at = (k: number) => own.drive[k]! + square(table.thetas[k]!) - group;
    expect(Math.abs(at(1) - base)).toBeLessThan(0.04);
    near(at(0) - at(1), { theta: 0.25 });
    near(at(2) - at(1), { theta: 0.8 }, 0.09);
    near(own.cooling * stiff, { stiff: 0 });
    near(own.flow[0], { flow: 0.5 }, 0.05);
    near(own.flow[1], { flow: 2 });
    near(own.gap[0], { gap: -3e-5 });
    near(own.gap[1], { gap: 1e-4 });
    near(own.core, { core: true });
    near(own.air, { air: 0 });
    near(own.easier, { feed: easiest });
    for (const value of [own.cooling, own.flow[1], own.gap[1], own.core, own.air, own.easier]) {
      expect(value).toBeGreaterThan(0);
    }
    for (const value of [own.flow[0], own.gap[0]]) expect(value).toBeLessThan(0);
  });
});

test('a table without air, easier cavity or stiffening has none of their changes', () => {
  const shaped = shapedStrip(1, { stretches: [] });
  const warm = { ...SHOT, noFlow: 373, melt: 440, viscosity: { ...SHOT.viscosity, activation: 0 } };
  const table = tabulatedReserve(shaped, warm);
  expect(table.stiffening).toBe(0);
  for (const { air, easier, cooling } of table.parts) expect([air, easier, cooling]).toEqual([0, 0, 0]);
});

test.each([
  { noFlow: 320, theta: 0.35 },
  { noFlow: 420, theta: 0.68 },
])('θ stays between the table’s ends: no-flow at $noFlow K gives $theta', ({ noFlow, theta }) => {
  const table = tabulatedReserve(shapedStrip(1, { stretches: [] }), { ...SHOT, noFlow });
  expect(table.thetas).toEqual([0.25, theta, 0.8]);
});
