import { describe, expect, test } from 'vitest';
import {
  coneDrag,
  ellipseSection,
  rectangleFactor,
  rectangleSection,
  roundSection,
  slotSection,
} from '../../../src/core/fill/channel-flow.ts';
import {
  freezeConstant,
  freezeConstantUniform,
  freezeReach,
  hotFront,
  shortShotViscosity,
} from '../../../src/core/fill/freeze-constant.ts';
import { branchHesitation, slotFreezeTime, type Branch } from '../../../src/core/fill/hesitation.ts';
import { closing, openFraction } from '../../../src/core/fill/open-fraction.ts';
import { featureProfile, ovalRoundness, profileStretches } from '../../../src/core/fill/profile.ts';
import { flowingMeanExcess, skinGrowthTime, steadySkin } from '../../../src/core/fill/thermal-entry.ts';
import {
  activationEnergy,
  arrheniusViscosity,
  freeVolumeRatio,
  tubeViscosity,
} from '../../../src/core/fill/viscosity.ts';
import { erfInverse } from '../../../src/core/numeric/error-function.ts';

const MM = 1e-3;
const WANTS = 'wants a finite number above 0';

describe('channels', () => {
  test('a slot twice as high drags an eighth; a bar twice as thick a sixteenth', () => {
    expect(slotSection(6, 2)).toEqual({ area: 12, drag: 12 / 48 });
    expect(roundSection(2).area).toBeCloseTo(4 * Math.PI, 12);
    expect(roundSection(2).drag).toBeCloseTo(8 / (16 * Math.PI), 12);
    const oval = ellipseSection(2, 3);
    expect(oval.area).toBeCloseTo(6 * Math.PI, 12);
    expect(oval.drag).toBeCloseTo((4 * 13) / (216 * Math.PI), 12);
  });

  // Conduit of a square: 0.4217 of the slot's flow, Shah & London (1978), from memory; the strip without end: 1 − 0.63·h/w.
  test('a square carries 0.4217 of the slot’s flow, a flat strip 1 − 0.6302·h/w', () => {
    expect(rectangleFactor(1)).toBeCloseTo(0.4217, 4);
    expect((1 - rectangleFactor(0.01)) / 0.01).toBeCloseTo(0.6302, 3);
    const upright = rectangleSection(2, 8);
    expect(upright.area).toBe(16);
    expect(upright.drag).toBeCloseTo(12 / (8 * 8 * rectangleFactor(0.25)), 12);
    expect(rectangleSection(8, 2)).toEqual(upright);
    expect(() => rectangleFactor(1.01)).toThrow('rectangleFactor: wants aspect up to 1, got 1.01');
  });

  // (8/π)∫ds/r⁴ over r from 1 to 2: L·(1 + 2 + 4)/(3·8).
  test('a cone from 1 to 2 drags 8L/π · 7/24, whichever end comes first', () => {
    expect(coneDrag(1, 2, 3)).toBeCloseTo(((8 * 3) / Math.PI) * (7 / 24), 12);
    expect(coneDrag(2, 1, 3)).toBe(coneDrag(1, 2, 3));
  });
});

describe('small relations', () => {
  test('reach goes with size² and the root of P/(μα); fronts with the root of time', () => {
    const drive = { pressure: 8, viscosity: 2, diffusivity: 0.25 };
    expect(freezeReach(0.5, 3, drive)).toBe(18);
    expect(shortShotViscosity(0.5, 3, 18, drive)).toBeCloseTo(2, 12);
    expect(hotFront('slot', 3, { pressure: 24, viscosity: 2 }, 2)).toBeCloseTo(6, 12);
    expect(hotFront('round', 3, { pressure: 24, viscosity: 2 }, 6)).toBeCloseTo(3 * Math.sqrt(18), 12);
    for (const name of ['pressure', 'viscosity', 'diffusivity'] as const) {
      expect(() => freezeReach(1, 1, { ...drive, [name]: 0 })).toThrow(`freezeReach: ${name}: ${WANTS}`);
    }
  });

  test('skins: 2hr/(Nu + 4r) when fed for ever, δ²/4η²α without feed', () => {
    const fed = { noFlow: 370, wall: 310, bulk: 400 };
    expect(steadySkin(0.001, fed, 8)).toBeCloseTo((0.002 * 2) / 16, 15);
    expect(steadySkin(0.001, fed)).toBeCloseTo((0.002 * 2) / 15.5407, 12);
    expect(() => steadySkin(0.001, { ...fed, wall: 370 })).toThrow('steadySkin: noFlow − wall');
    expect(() => steadySkin(0.001, { ...fed, bulk: 370 })).toThrow('steadySkin: bulk − noFlow');
    expect(skinGrowthTime(2, Infinity, 0.5, 2)).toBeCloseTo(2, 12);
    // rate 2η²α = 1: −δ·δ∞ − δ∞²·ln(1 − δ/δ∞) = −8 + 16·ln 2.
    expect(skinGrowthTime(2, 4, 0.5, 2)).toBeCloseTo(16 * Math.LN2 - 8, 12);
    expect(() => skinGrowthTime(4, 4, 0.5, 2)).toThrow('skinGrowthTime: limit − skin');
    expect(() => flowingMeanExcess('slot', 0.029)).toThrow('flowingMeanExcess: distance');
  });

  test('viscosity: Arrhenius both ways, the free-volume law, a timed tube', () => {
    const melt = { reference: 4, at: 400, activation: 8.31446261815324 * 1000 };
    expect(arrheniusViscosity(melt, 500)).toBeCloseTo(4 * Math.exp(1000 / 500 - 1000 / 400), 12);
    const at = (temperature: number) => ({ viscosity: arrheniusViscosity(melt, temperature), temperature });
    expect(activationEnergy(at(420), at(470)) / melt.activation).toBeCloseTo(1, 9);
    expect(() => activationEnergy(at(420), { ...at(470), temperature: 420 })).toThrow(
      'activationEnergy: wants two temperatures, got 420 twice',
    );
    // −17.44·48.4/100 against −17.44·148.4/200.
    expect(Math.log10(freeVolumeRatio(300, 348.4, 448.4))).toBeCloseTo(17.44 * (0.742 - 0.484), 9);
    expect(() => freeVolumeRatio(300, 248, 448.4)).toThrow('freeVolumeRatio: temperature − glass + 51.6');
    expect(tubeViscosity({ radius: 2, length: 3, pressure: 5, time: 7, volume: 11 })).toBeCloseTo(
      (Math.PI * 16 * 35) / (8 * 33),
      12,
    );
    expect(() => tubeViscosity({ radius: 0, length: 3, pressure: 5, time: 7, volume: 11 })).toThrow(
      `tubeViscosity: radius: ${WANTS}`,
    );
  });

  test('a branch: the body’s pressure, its time, and which of both is over first', () => {
    const branch: Branch = {
      ...{
        gap: MM,
        bodyDrag: 2e9,
        bodyVolume: 6e-6,
        flow: 3e-6,
        viscosity: 4,
        diffusivity: 1e-7,
        theta: 0.5,
      },
    };
    const shut = (closing('slot', 0.5).shut * MM ** 2) / 4e-7;
    const told = branchHesitation(branch);
    expect(told.pressure).toBeCloseTo(4 * 2e9 * 3e-6, 9);
    expect(told.bodyTime).toBeCloseTo(2, 12);
    expect(told.freezeTime).toBeCloseTo(shut, 12);
    expect(slotFreezeTime(MM, 1e-7, 0.5)).toBeCloseTo(shut, 12);
    const drive = { pressure: 24000, viscosity: 4, diffusivity: 1e-7 };
    expect(told.creep).toBeCloseTo(freezeReach(freezeConstant('slot', 0.5), MM, drive), 12);
    const flow = branch.bodyVolume / shut;
    expect(branchHesitation({ ...branch, flow: flow * 1.001 }).freezesFirst).toBe(false);
    expect(branchHesitation({ ...branch, flow: flow * 0.999 }).freezesFirst).toBe(true);
  });
});

// Every argument of nothing is refused by its name.
describe('refusals', () => {
  const drive = { pressure: 1, viscosity: 1, diffusivity: 1 };
  const refused = (
    where: string,
    call: (value: (name: string) => number) => unknown,
    names: readonly string[],
  ) => names.map((name) => ({ where, name, call: () => call((one) => (one === name ? 0 : 1)) }));
  const branch = (v: (name: string) => number): Branch => ({
    ...{ gap: 1, bodyDrag: v('bodyDrag'), bodyVolume: v('bodyVolume'), flow: v('flow') },
    ...{ viscosity: v('viscosity'), diffusivity: 1, theta: 0.5 },
  });
  const fed = { noFlow: 2, wall: 1, bulk: 3 };

  test.each([
    ...refused('slotSection', (v) => slotSection(v('width'), v('height')), ['width', 'height']),
    ...refused('roundSection', (v) => roundSection(v('radius')), ['radius']),
    ...refused('ellipseSection', (v) => ellipseSection(v('a'), v('b')), ['a', 'b']),
    ...refused('rectangleFactor', (v) => rectangleFactor(v('aspect')), ['aspect']),
    ...refused('rectangleSection', (v) => rectangleSection(v('width'), v('height')), ['width', 'height']),
    ...refused('coneDrag', (v) => coneDrag(v('mouth'), v('end'), v('length')), ['mouth', 'end', 'length']),
    ...refused('freezeReach', (v) => freezeReach(1, v('size'), drive), ['size']),
    ...refused(
      'shortShotViscosity',
      (v) =>
        shortShotViscosity(1, v('gap'), v('reach'), {
          pressure: v('pressure'),
          diffusivity: v('diffusivity'),
        }),
      ['gap', 'reach', 'pressure', 'diffusivity'],
    ),
    ...refused(
      'hotFront',
      (v) => hotFront('slot', v('size'), { pressure: v('pressure'), viscosity: v('viscosity') }, v('time')),
      ['size', 'pressure', 'viscosity', 'time'],
    ),
    ...refused('slotFreezeTime', (v) => slotFreezeTime(v('gap'), v('diffusivity'), 0.5), [
      'gap',
      'diffusivity',
    ]),
    ...refused('branchHesitation', (v) => branchHesitation(branch(v)), [
      'bodyDrag',
      'bodyVolume',
      'flow',
      'viscosity',
    ]),
    ...refused('steadySkin', (v) => steadySkin(v('gap'), fed, v('nusselt')), ['gap', 'nusselt']),
    ...refused('skinGrowthTime', (v) => skinGrowthTime(v('skin'), 9, v('eta'), v('diffusivity')), [
      'skin',
      'eta',
      'diffusivity',
    ]),
    ...refused(
      'arrheniusViscosity',
      (v) => arrheniusViscosity({ reference: v('reference'), at: v('at'), activation: 1 }, v('temperature')),
      ['reference', 'at', 'temperature'],
    ),
    ...refused(
      'activationEnergy',
      (v) =>
        activationEnergy(
          { viscosity: v('viscosity'), temperature: v('temperature') },
          { viscosity: 1, temperature: 2 },
        ),
      ['viscosity', 'temperature'],
    ),
  ])('$where without $name', ({ where, name, call }) => {
    expect(call).toThrow(`${where}: ${name}: ${WANTS}, got 0`);
  });

  test('two viscosities of which one has another sign', () => {
    const at = (viscosity: number, temperature: number) => ({ viscosity, temperature });
    expect(() => activationEnergy(at(1, 300), at(-1, 400))).toThrow(`activationEnergy: ratio: ${WANTS}`);
  });
});

describe('closing', () => {
  // Skins of 2η√(αt) on either wall: open share 1 − 2η√Fo·… on the half gap, so 1 − √(Fo/shut), shut = 1/4η².
  test('a core that stays hot closes straight in √t', () => {
    const table = closing('fresh core', 0.6);
    expect(table.shut).toBeCloseTo(1 / (4 * erfInverse(0.6) ** 2), 12);
    for (const spent of [0.1, 0.25, 0.5, 0.9]) {
      expect(openFraction(table, spent * table.shut)).toBeCloseTo(1 - Math.sqrt(spent), 2);
    }
    expect(table).toMatchObject({ law: 'fresh core', theta: 0.6 });
    expect(table.squares).toHaveLength(513);
    // Exact at √(Fo/shut) = k/128, where the table has its roots: (1 − k/128)².
    expect(table.squares[128]).toBeCloseTo(0.75 ** 2, 12);
  });

  test('a table is kept, also when very many others were asked for', () => {
    const own = closing('fresh core', 0.31);
    expect(closing('fresh core', 0.31)).toBe(own);
    expect(closing('fresh core', 0.32)).not.toBe(own);
    for (let k = 0; k < 600; k++) closing('fresh core', 0.1 + k * 1e-4);
    expect(closing('fresh core', 0.31)).toEqual(own);
  });

  test('it is open before it is wetted and shut from its time on', () => {
    const table = closing('slot', 0.5);
    expect(openFraction(table, -1)).toBe(1);
    expect(openFraction(table, table.shut)).toBe(0);
    expect(openFraction(table, 2 * table.shut)).toBe(0);
    expect(openFraction(table, table.shut * (1 - 1e-9))).toBeGreaterThan(0);
  });

  // One term of the series: shut where (4/π)·e^(−π²Fo/4) = θ, 1.602·e^(−5.783·Fo) = θ.
  test('cold walls shut a slot and a bar by the first term of their series', () => {
    for (const theta of [0.02, 0.1, 0.3]) {
      expect(closing('slot', theta).shut).toBeCloseTo(Math.log(4 / Math.PI / theta) / (Math.PI ** 2 / 4), 3);
      expect(closing('round', theta).shut).toBeCloseTo(Math.log(1.60197 / theta) / 5.78319, 3);
    }
  });

  // ∫s³dFo/24 with s = 1 − √(Fo/shut): shut/(24·10); ∫s⁴dFo/4: shut/(4·15) for a channel that closed so.
  test('K of a slot as old as its gate, with a hot core: √(shut/240)', () => {
    const { shut } = closing('fresh core', 0.5);
    expect(freezeConstantUniform('fresh core', 0.5) / Math.sqrt(shut / 240)).toBeCloseTo(1, 3);
  });
});

describe('profiles', () => {
  const stations = [
    { s: 1, thickness: 2, width: 6 },
    { s: 3, thickness: 4, width: 6 },
    { s: 5, thickness: 4, width: 2 },
  ];

  test('stretches are measured in their middle; the smaller measure is the thickness', () => {
    const slots = profileStretches(stations, 'slot', 2);
    expect(slots).toHaveLength(2);
    expect(slots[0]).toEqual({ volume: 36, drag: (12 * 2) / (6 * 27), halfSquared: 9 / 4, roundness: 0 });
    expect(slots[1]).toEqual({ volume: 32, drag: (12 * 2) / (4 * 64), halfSquared: 4, roundness: 1 - 1 });
    const ovals = profileStretches(stations, 'oval', 4);
    const last = ovals[3]!;
    // At s = 4.5: 4 thick and 3 wide, so an oval of 3 by 4, 1 long.
    expect(last.volume).toBeCloseTo(Math.PI * 1.5 * 2, 12);
    expect(last.drag).toBeCloseTo(ellipseSection(2, 1.5).drag, 12);
    expect(last.halfSquared).toBe(9 / 4);
    expect(last.roundness).toBe(ovalRoundness(0.75));
  });

  test('roundness is 1 for a circle, 0 in the flat limit, and rises between', () => {
    expect(ovalRoundness(1)).toBeCloseTo(1, 12);
    expect(ovalRoundness(1e-9)).toBeCloseTo(0, 8);
    // By rates: k₁² of the ellipse 2:1 is 3.5667 on the small semi-axis, π²/4 flat, 5.7832 round.
    const [flat, own, round] = [4 / Math.PI ** 2, 1 / 3.5667266, 1 / 5.783186];
    expect(ovalRoundness(0.5)).toBeCloseTo((flat - own) / (flat - round), 6);
  });

  test('no station is thinner or narrower than the thinnest part', () => {
    const feature = {
      stations: [
        { s: 0, thickness: 3, width: 1, at: [0, 0, 0] as const },
        { s: 1, thickness: 1, width: 5, at: [1, 0, 0] as const },
      ],
      thinnest: { thickness: 2, at: [0, 0, 0] as const },
    };
    expect(featureProfile(feature)).toEqual([
      { s: 0, thickness: 3, width: 2 },
      { s: 1, thickness: 2, width: 5 },
    ]);
  });

  test('stations in one place, and measures of nothing, are refused', () => {
    expect(() => profileStretches([stations[0]!], 'slot', 2)).toThrow(`profile: length: ${WANTS}`);
    expect(() => profileStretches([], 'slot', 2)).toThrow(`profile: length: ${WANTS}, got 0`);
    const flat = stations.map((station) => ({ ...station, thickness: 0 }));
    expect(() => profileStretches(flat, 'slot', 2)).toThrow(`profile: thickness: ${WANTS}, got 0`);
  });
});
