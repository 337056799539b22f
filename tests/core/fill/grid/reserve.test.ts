import { describe, expect, test } from 'vitest';
import {
  reserveSpread,
  shortShotReading,
  shotConditions,
  VISCOSITY_AT,
  wallUnder,
  type ReserveInputs,
  type ReserveValues,
} from '../../../../src/core/fill/grid/reserve-band.ts';
import {
  fillReserve,
  freezeSquare,
  shotTheta,
  stiffening,
  type PartDrive,
  type ReserveTable,
  type ShotConditions,
} from '../../../../src/core/fill/grid/reserve-table.ts';
import { setupAnswer, setupMap, setupShot, type SetupData } from '../../../../src/core/fill/setup.ts';
import { steadyCycle } from '../../../../src/core/heat/block-warming.ts';
import { band } from '../../../../src/core/quantity/band.ts';

const GAS = 8.31446261815324;

/** A part with round numbers; drives are ln of a stiffest μα/P, so that e^40 makes a reserve of some units. */
const PART: PartDrive = {
  ...{ name: 'tail', drive: [-24, -25, -27], cooling: 0.3, flow: [-0.5, 0.2], gap: [-0.1, 0.4] },
  ...{ core: 0.25, air: 0.1, easier: 0.2 },
};
const TABLE: ReserveTable = {
  ...{ thetas: [0.25, 0.5, 0.8], scale: { thetas: [0, 1], squares: [-1, -3] } },
  ...{ stiffening: 2, flow: 40, gaps: [-2e-5, 5e-5], gateAge: -0.6, parts: [PART] },
};
/** θ = ½; stiffening E/R·(1/360 − 1/440) = 2 by the choice of E; flow over α 40 m. */
const SHOT: ShotConditions = {
  ...{ pressure: 2e5, diffusivity: 1e-7, noFlow: 360, melt: 440, wall: 280, flow: 4e-6, gap: 0, closing: 0 },
  viscosity: { reference: 3, at: 440, activation: (2 * GAS) / (1 / 360 - 1 / 440) },
};
/** 2·ln of the reserve: ln μ*α/P of the table, against μα/P of the shot. */
const log = (changes: Partial<ShotConditions> = {}, part = PART) =>
  2 * Math.log(fillReserve(TABLE, part, { ...SHOT, ...changes }));
/** At the table's own conditions: −25 + ln K²(½) − ln(μα/P), ln K² = −2. */
const OWN = -25 - 2 + Math.log(2e5 / (3 * 1e-7));

describe('a tabulated reserve', () => {
  test('is the root of the stiffest over the own melt', () => {
    expect(log()).toBeCloseTo(OWN, 12);
    expect(log({ pressure: 4e5 }) - OWN).toBeCloseTo(Math.LN2, 12);
    expect(log({ viscosity: { ...SHOT.viscosity, reference: 6 } }) - OWN).toBeCloseTo(-Math.LN2, 12);
  });

  test('follows θ between the table’s nodes, and keeps the end’s beyond', () => {
    // The no-flow temperature moves the stiffening too: 0.3 a unit.
    const at = (noFlow: number) => {
      const stiff = (SHOT.viscosity.activation / GAS) * (1 / noFlow - 1 / 440);
      return log({ noFlow }) - Math.log(2e5 / (3 * 1e-7)) + 0.3 * (stiff - 2);
    };
    // θ = (T − 280)/160: 0.375, 0.65, 0.9, 0.1; ln K² = −1 − 2θ.
    expect(at(340)).toBeCloseTo(-24.5 - 1.75, 9);
    expect(at(384)).toBeCloseTo(-26 - 2.3, 9);
    expect(at(424)).toBeCloseTo(-27 - 2.8, 9);
    expect(at(296)).toBeCloseTo(-24 - 1.2, 9);
  });

  test('a melt that stiffens more loses its cooling a unit', () => {
    const steep = { ...SHOT.viscosity, activation: 1.5 * SHOT.viscosity.activation };
    expect(log({ viscosity: steep }) - OWN).toBeCloseTo(-0.3, 12);
  });

  test.each([
    { flow: 2e-6, by: -0.5 },
    { flow: 1e-6, by: -0.5 },
    { flow: 4e-6 / Math.SQRT2, by: -0.25 },
    { flow: 4e-6 * Math.SQRT2, by: 0.1 },
    { flow: 8e-6, by: 0.2 },
    { flow: 9e-6, by: 0.2 },
  ])('a push of $flow m³/s changes it by $by', ({ flow, by }) => {
    expect(log({ flow }) - OWN).toBeCloseTo(by, 9);
  });

  test.each([
    { gap: -2e-5, by: -0.1 },
    { gap: -1e-5, by: -0.05 },
    { gap: 2.5e-5, by: 0.2 },
    { gap: 9e-5, by: 0.4 },
  ])('a cut off by $gap m changes it by $by', ({ gap, by }) => {
    expect(log({ gap }) - OWN).toBeCloseTo(by, 9);
  });

  test('walls as old as the gate lose, a core that stays hot gains, between them in proportion', () => {
    expect(log({ closing: -1 }) - OWN).toBeCloseTo(-0.6, 12);
    expect(log({ closing: -0.5 }) - OWN).toBeCloseTo(-0.3, 12);
    expect(log({ closing: 0.5 }) - OWN).toBeCloseTo(0.125, 12);
    expect(log({ closing: 1 }) - OWN).toBeCloseTo(0.25, 12);
  });

  test('heat that spreads twice as fast: half the drive, half the flow over it', () => {
    expect(log({ diffusivity: 2e-7 }) - OWN).toBeCloseTo(-Math.LN2 - 0.5, 9);
  });

  test('θ is kept between 0.02 and 0.97, whatever the temperatures', () => {
    expect(shotTheta({ noFlow: 360, wall: 280, melt: 440 })).toBe(0.5);
    expect(shotTheta({ noFlow: 270, wall: 280, melt: 440 })).toBe(0.02);
    expect(shotTheta({ noFlow: 439, wall: 280, melt: 440 })).toBe(0.97);
    // A wall as hot as the melt: over one kelvin.
    expect(shotTheta({ noFlow: 440.5, wall: 440, melt: 440 })).toBe(0.5);
    expect(shotTheta({ noFlow: 440.5, wall: 440, melt: 430 })).toBe(0.5);
  });

  test('stiffening runs to the skin: the no-flow temperature, or a warmer wall; never below 0', () => {
    expect(stiffening(SHOT)).toBeCloseTo(2, 12);
    const warm = (SHOT.viscosity.activation / GAS) * (1 / 400 - 1 / 440);
    expect(stiffening({ ...SHOT, wall: 400 })).toBeCloseTo(warm, 12);
    expect(stiffening({ ...SHOT, noFlow: 450 })).toBe(0);
  });

  test('the freeze-off constant is read between its nodes', () => {
    expect(freezeSquare(TABLE.scale, 0.25)).toBeCloseTo(-1.5, 12);
  });
});

const EFFUSIVITY = { melt: 500, mold: 20000 };
const VALUES: ReserveValues = {
  ...{ pressure: 2e5, viscosity: 3, activation: 30000, diffusivity: 1e-7, noFlow: 360, melt: 440, mold: 276 },
  ...{ gap: 1e-5, closing: 0.5, push: 2 },
};

describe('conditions of a shot', () => {
  test('the wall under melt: 500 of melt against 20 000 of mold', () => {
    expect(wallUnder({ effusivity: EFFUSIVITY }, 440, 276)).toBeCloseTo(
      (500 * 440 + 20000 * 276) / 20500,
      12,
    );
  });

  test('come from one value of each input', () => {
    const setting = { volume: 8e-6, effusivity: EFFUSIVITY, shortShots: [] };
    expect(shotConditions(VALUES, setting, TABLE.scale)).toEqual({
      ...{ pressure: 2e5, diffusivity: 1e-7, noFlow: 360, melt: 440, gap: 1e-5, closing: 0.5, flow: 4e-6 },
      wall: wallUnder({ effusivity: EFFUSIVITY }, 440, 276),
      viscosity: { reference: 3, at: 448.15, activation: 30000 },
    });
    expect(VISCOSITY_AT).toBe(448.15);
  });

  const shot = (gap: number, reach: number) => ({ gap, reach, pressure: 1.5e5, melt: 430, mold: 290 });
  // x² = K²·h⁴·P/(μα): the viscosity at 430 K, carried to 448.15 K by Arrhenius.
  const plainly = ({ gap, reach }: ReturnType<typeof shot>) => {
    const wall = (500 * 430 + 20000 * 290) / 20500;
    const square = Math.exp(-1 - 2 * ((360 - wall) / (430 - wall)));
    const there = (square * gap ** 4 * 1.5e5) / (reach ** 2 * 1e-7);
    return there * Math.exp((30000 / GAS) * (1 / 448.15 - 1 / 430));
  };

  test('short shots tell the viscosity of their reach, in the geometric mean', () => {
    const shots = [shot(1e-3, 0.1), shot(1.5e-3, 0.12)];
    const exact = Math.sqrt(plainly(shots[0]!) * plainly(shots[1]!));
    const told = shortShotReading({ effusivity: EFFUSIVITY, shortShots: shots }, TABLE.scale, VALUES);
    expect(told / exact).toBeCloseTo(1, 12);
    const setting = { volume: 8e-6, effusivity: EFFUSIVITY, shortShots: shots };
    expect(shotConditions(VALUES, setting, TABLE.scale).viscosity.reference / (3 * exact)).toBeCloseTo(1, 12);
  });

  test('a band of pressure alone spreads the reserve by its root', () => {
    const inputs = Object.fromEntries(
      Object.entries({ ...VALUES, gap: 0, closing: 0 }).map(([name, value]) => [name, band(value)]),
    ) as ReserveInputs;
    const setting = { volume: 8e-6, effusivity: EFFUSIVITY, shortShots: [] };
    const wide = { ...inputs, pressure: band(2e5, 1e5, 8e5) };
    const spread = reserveSpread(TABLE, PART, wide, setting);
    const own = fillReserve(
      TABLE,
      PART,
      shotConditions({ ...VALUES, gap: 0, closing: 0 }, setting, TABLE.scale),
    );
    expect(spread.value).toBeCloseTo(own, 12);
    expect(spread.low / own).toBeCloseTo(Math.SQRT1_2, 9);
    expect(spread.high / own).toBeCloseTo(2, 9);
    expect(spread.shares.find(({ name }) => name === 'pressure')!.share).toBeCloseTo(1, 12);
  });
});

const exactly = (values: Partial<ReserveValues>) =>
  Object.fromEntries(Object.entries(values).map(([name, value]) => [name, band(value)])) as never;

/** A set-up in which nothing but what a test changes has a band. */
const DATA: SetupData = {
  ...{
    title: 'mold',
    labels: ['Tail'],
    plan: [],
    feed: { stretches: [] },
    volume: 8e-6,
    moldEffusivity: 20000,
  },
  table: { ...TABLE, parts: [PART, { ...PART, name: 'leg', drive: PART.drive.map((value) => value - 1) }] },
  grid: { ...{ nx: 2, ny: 1, x0: 3, y0: 4, cell: 0.5 }, height: [1000, 0], thickness: [800, 0], gate: [0] },
  compounds: [
    {
      ...{ id: 'soft', name: 'Soft', shortShots: [], effusivity: 500 },
      bands: exactly({ viscosity: 3, activation: 30000, diffusivity: 1e-7, noFlow: 360 }),
      pour: { low: 430, nominal: 445, high: 455 },
    },
  ],
  injectors: [
    { id: 'hand', name: 'Hand', pressure: band(2e5), holds: true },
    { id: 'press', name: 'Press', pressure: band(2e6), holds: true },
  ],
  bands: { gap: band(0), push: band(2), loss: band(5, 3, 9) },
  cycle: {
    ...{
      shotMass: 0.02,
      shotHeat: 2000,
      blockMass: 1.2,
      blockHeat: 900,
      melt: 448,
      start: 295,
      ambient: 293,
    },
    ...{ loss: 10, surface: 0.04, pace: 120 },
  },
  own: { compound: 'soft', injector: 'hand' },
};
const CHOICE = { compound: 'soft', injector: 'hand', pour: 445, mold: { temperature: 276 } };

describe('someone’s own set-up', () => {
  test('a thermometer is 3 K off at most, a block reckoned from its shots 5 K', () => {
    expect(setupAnswer(DATA, CHOICE).mold).toEqual({ value: 276, low: 273, high: 279 });
    const cold = setupAnswer(DATA, { ...CHOICE, mold: { shots: 0 } }).mold;
    expect(cold.value).toBeCloseTo(295, 9);
    expect([cold.low, cold.high]).toEqual([cold.value - 5, cold.value + 5]);
    const settled = setupAnswer(DATA, { ...CHOICE, mold: { shots: 1e5 } }).mold;
    expect(settled.value).toBeCloseTo(steadyCycle(DATA.cycle).before, 6);
  });

  test('the melt loses heat on its way to the gate; nominal conditions are the middle of every band', () => {
    expect(setupShot(DATA, CHOICE)).toEqual({
      ...{ pressure: 2e5, diffusivity: 1e-7, noFlow: 360, melt: 440, gap: 0, closing: 0, flow: 4e-6 },
      wall: (500 * 440 + 20000 * 276) / 20500,
      viscosity: { reference: 3, at: 448.15, activation: 30000 },
    });
    expect(setupShot(DATA, { ...CHOICE, injector: 'press' }).pressure).toBe(2e6);
  });

  test('parts come with their labels, or else their names, the least sure first', () => {
    const { parts } = setupAnswer(DATA, CHOICE);
    expect(parts.map(({ label }) => label)).toEqual(['leg', 'Tail']);
    // A drive less by 1 in ln of the viscosity: e^(−½) of the reserve.
    expect(parts[0]!.reserve.value / parts[1]!.reserve.value).toBeCloseTo(Math.exp(-0.5), 12);
    const shot = setupShot(DATA, CHOICE);
    expect(parts[1]!.reserve.value).toBeCloseTo(fillReserve(TABLE, PART, shot), 12);
  });

  test('the band holds the wall’s closing from gate age to hot core, and the melt from most to least lost', () => {
    const { low, value, high, shares } = setupAnswer(DATA, CHOICE).parts[1]!.reserve;
    const at = (pour: number, mold: number, closing: number) => {
      const shot = setupShot(
        { ...DATA, bands: { ...DATA.bands, loss: band(0) } },
        { ...CHOICE, pour, mold: { temperature: mold } },
      );
      return Math.log(fillReserve(TABLE, PART, { ...shot, closing }) / value);
    };
    // Each moved alone, changes in squares.
    const lower = Math.hypot(at(436, 276, 0), at(440, 273, 0), at(440, 276, -1));
    const upper = Math.hypot(at(442, 276, 0), at(440, 279, 0), at(440, 276, 1));
    expect(Math.log(low / value)).toBeCloseTo(-lower, 9);
    expect(Math.log(high / value)).toBeCloseTo(upper, 9);
    expect(
      shares
        .filter(({ share }) => share > 0)
        .map(({ name }) => name)
        .sort(),
    ).toEqual(['closing', 'melt', 'mold']);
  });

  test('full at nominal but not at the low end may come short', () => {
    const least = setupAnswer(DATA, CHOICE).parts[0]!.reserve;
    const moved = (to: number) => {
      const by = 2 * Math.log(to / least.value);
      const parts = DATA.table.parts.map((part) => ({
        ...part,
        drive: part.drive.map((value) => value + by),
      }));
      return setupAnswer({ ...DATA, table: { ...TABLE, parts } }, CHOICE).verdict;
    };
    expect(moved(1.001)).toBe('may come short');
    expect(moved(0.999)).toBe('comes short');
    expect(moved((least.value / least.low) * 1.001)).toBe('fills');
    expect(moved((least.value / least.low) * 0.999)).toBe('may come short');
  });

  test('the map comes back from micrometres', () => {
    expect(setupMap(DATA)).toEqual({
      ...{ nx: 2, ny: 1, x0: 3, y0: 4, cell: 0.5 },
      height: Float64Array.of(1000 * 1e-6, 0),
      thickness: Float64Array.of(800 * 1e-6, 0),
    });
  });

  test('what is not listed is refused', () => {
    expect(() => setupAnswer(DATA, { ...CHOICE, injector: 'pump' })).toThrow(
      'setup: wants one of hand, press, got pump',
    );
    expect(() => setupAnswer(DATA, { ...CHOICE, compound: 'hard' })).toThrow(
      'setup: wants one of soft, got hard',
    );
  });
});
