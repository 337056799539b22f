import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { sessionCost } from '../../../src/core/plan/cost.ts';
import { rotation } from '../../../src/core/plan/rotation.ts';
import type { PlanRequest, SessionPlan } from '../../../src/core/plan/session-parts.ts';
import { colourShots, sessionPlan, stirredDensity } from '../../../src/core/plan/session.ts';
import { band } from '../../../src/core/quantity/band.ts';
import { toSI } from '../../../src/core/quantity/units.ts';
import { batchFor } from '../../../src/core/shot/batch.ts';
import { baitMass, shotMass } from '../../../src/core/shot/shot-volume.ts';
import { hotDensity } from '../../../src/core/shot/compound-density.ts';
import { refusesNumbers } from '../../support/refusals.ts';
import { FOUR, TWO } from './data.ts';

const REQUEST: PlanRequest = {
  orders: [{ mold: FOUR, baits: 100 }],
  density: band(1040),
  capacity: toSI(4, '[foz_us]'),
  heel: 30e-6,
  remelt: 0.2,
  salt: 0,
  microballoons: 0,
};
const ENDS = ['value', 'low', 'high'] as const;

describe('a session worked by hand', () => {
  // 100 baits, four at a time: 25 shots of 28.5 mL. Melt at 0.9 × 1040 = 936 kg/m³: 26.676 g a shot, of which the
  // channels' 4.5 mL are 4.212 g. A tenth clings. 30 mL stay in the cup: 31.2 g.
  const plan = sessionPlan(REQUEST);
  const grams = (kilograms: number) => kilograms * 1e3;

  test('shots, fillings and hot melt', () => {
    expect([plan.shots, plan.fillings, plan.baits]).toEqual([25, 25, 100]);
    expect(plan.hot.value * 1e6).toBeCloseTo(25 * 28.5, 9);
    // 118.29 mL hold 107.5 mL with a tenth to spare: three shots of 30 mL.
    expect(plan.molds[0]?.perFilling).toBe(3);
  });

  test('where the compound goes', () => {
    const { balance } = plan;
    expect(grams(balance.sprues.value)).toBeCloseTo(25 * 4.212, 9);
    expect(grams(balance.baits.value)).toBeCloseTo(25 * (26.676 - 4.212), 9);
    expect(grams(balance.clinging.value)).toBeCloseTo(0.1 * 25 * 26.676, 9);
    expect(grams(balance.heel.value)).toBeCloseTo(31.2, 9);
    const heated = 25 * 26.676 * 1.1 + 31.2;
    expect(grams(balance.heated.value)).toBeCloseTo(heated, 9);
    expect(grams(balance.raw.value)).toBeCloseTo(0.8 * heated, 9);
    expect(plan.measured.liquid.value * 1e6).toBeCloseTo((0.8 * heated) / 1.04, 6);
  });

  test('time: 25 turns of a minute at the block and two minutes of rest, one after the other', () => {
    expect(plan.time.value).toBe(25 * (60 + 90 + 30));
    expect(plan.time.low).toBe(25 * (30 + 60 + 30));
    expect(plan.time.high).toBe(25 * (120 + 150 + 30));
    expect(plan.rotation.waiting).toBe(24 * 120);
  });

  test('cost: liquid by the litre, salt by the kilogram', () => {
    const salted = sessionPlan({ ...REQUEST, salt: 0.1 });
    const cost = sessionCost(salted, { compound: 10 / 1e-3, salt: 2 })!;
    const { liquid, salt } = salted.measured;
    expect(cost.whole.value).toBeCloseTo(liquid.value * 1e4 + salt.value * 2, 12);
    expect(cost.each.value).toBeCloseTo(cost.whole.value / 100, 12);
    expect(sessionCost(salted, {})).toBeNull();
  });

  test('the shelf: enough at the high end, barely at the nominal, else short', () => {
    const { value, high } = plan.measured.liquid;
    const verdict = (shelf: number) => sessionPlan({ ...REQUEST, shelf }).shelf;
    expect([high, value, value * 0.999].map(verdict)).toEqual(['enough', 'barely', 'short']);
    expect(plan.shelf).toBeNull();
  });
});

test('without heel, old sprues and warm-up it needs what the sheet’s batches need', () => {
  const density = band(1040, 1020, 1060);
  const plan = sessionPlan({ ...REQUEST, density, heel: 0, remelt: 0 });
  const share = {
    cavities: 4,
    shotMass: shotMass(FOUR.shot, hotDensity(density)),
    baitMass: baitMass(6e-6, density, band(0)),
  };
  const batch = batchFor(100, share, density);
  for (const end of ENDS) expect(plan.measured.liquid[end]).toBeCloseTo(batch.liquid[end], 12);
});

test('warm-up shots make no baits, and their plastic can be melted again', () => {
  const plan = sessionPlan({ ...REQUEST, orders: [{ mold: TWO, baits: 11 }] });
  expect([plan.molds[0]?.shots, plan.molds[0]?.warmUps, plan.shots]).toEqual([6, 2, 8]);
  expect(plan.balance.scrap.value).toBeCloseTo(plan.balance.baits.value / 3, 12);
});

test('two colours: the parts of a shot add up to it, and the gate’s part has the channels', () => {
  const [ahead, behind] = sessionPlan({ ...REQUEST, orders: [{ mold: TWO, baits: 2 }] }).molds[0]!.colours!;
  expect(ahead.value).toBeCloseTo(0.25 * 34e-6 + 6e-6, 15);
  for (const end of ENDS) expect(ahead[end] + behind[end]).toBeCloseTo(TWO.shot[end], 15);
  const tail = sessionPlan({ ...REQUEST, orders: [{ mold: { ...TWO, gate: 'tail' }, baits: 2 }] });
  expect(tail.molds[0]!.colours![0].value).toBeCloseTo(0.25 * 34e-6, 15);
});

test('an injector that does not hold a shot is filled more than once for it', () => {
  const plan = sessionPlan({ ...REQUEST, capacity: 20e-6 });
  expect(plan.molds[0]?.perFilling).toBe(0);
  // 30 mL with a tenth to spare are 33 mL: two strokes of 20 mL.
  expect(plan.fillings).toBe(2 * plan.shots);
});

test('salt and hollow glass: rule of mixtures, one after the other or at once', () => {
  const got = stirredDensity(band(1040), 0.2, 0.01);
  expect(got.value).toBeCloseTo(1 / (0.79 / 1040 + 0.2 / 2165 + 0.01 / 200), 9);
  const plan = sessionPlan({ ...REQUEST, salt: 0.2, microballoons: 0.01 });
  const { liquid, salt, microballoons } = plan.measured;
  expect(liquid.value * 1040 + salt.value + microballoons.value).toBeCloseTo(plan.balance.raw.value, 12);
});

const session = fc.record({
  four: fc.integer({ min: 0, max: 400 }),
  two: fc.integer({ min: 0, max: 400 }),
  heel: fc.double({ min: 0, max: 2e-4, noNaN: true }),
  remelt: fc.double({ min: 0, max: 0.5, noNaN: true }),
  salt: fc.double({ min: 0, max: 0.4, noNaN: true }),
  capacity: fc.double({ min: 1.5e-5, max: 3e-4, noNaN: true }),
});
type Drawn = Parameters<
  Parameters<typeof fc.property<[typeof session extends fc.Arbitrary<infer T> ? T : never]>>[1]
>[0];

const planned = ({ four, two, heel, remelt, salt, capacity }: Drawn): SessionPlan =>
  sessionPlan({
    ...REQUEST,
    density: band(1040, 1020, 1060),
    heel,
    remelt,
    salt,
    capacity,
    orders: [
      { mold: FOUR, baits: four },
      { mold: TWO, baits: two },
    ],
  });

test('what goes in is what comes out, at every end of the band', () => {
  fc.assert(
    fc.property(session, (drawn) => {
      const { balance } = planned(drawn);
      for (const end of ENDS) {
        const [into, out] = [
          balance.raw[end] + balance.remelted[end],
          balance.baits[end] +
            balance.sprues[end] +
            balance.scrap[end] +
            balance.clinging[end] +
            balance.heel[end],
        ];
        expect(Math.abs(into - out)).toBeLessThanOrEqual(1e-12 * Math.max(1, out));
      }
    }),
    { seed: 61, numRuns: 60 },
  );
});

test('more baits never need less: compound, melt, shots, fillings, time', () => {
  const needs = (plan: SessionPlan) => [
    ...ENDS.flatMap((end) => [
      plan.balance.raw[end],
      plan.hot[end],
      plan.measured.liquid[end],
      plan.time[end],
    ]),
    plan.shots,
    plan.fillings,
  ];
  fc.assert(
    fc.property(session, fc.integer({ min: 0, max: 9 }), fc.integer({ min: 0, max: 9 }), (drawn, a, b) => {
      const less = needs(planned(drawn));
      const more = needs(planned({ ...drawn, four: drawn.four + a, two: drawn.two + b }));
      more.forEach((need, i) => expect(need).toBeGreaterThanOrEqual((less[i] ?? 0) * (1 - 1e-12)));
    }),
    { seed: 62, numRuns: 60 },
  );
});

describe('every number of a session of two molds, by plain arithmetic at each end', () => {
  const [salt, glass, remelt, heel] = [0.1, 0.02, 0.25, 40e-6];
  const density = band(1040, 1020, 1060);
  const [fours, twos] = [250, 31];
  const plan = sessionPlan({
    orders: [
      { mold: FOUR, baits: fours },
      { mold: TWO, baits: twos },
    ],
    density,
    capacity: 100e-6,
    heel,
    remelt,
    salt,
    microballoons: glass,
    shelf: 1,
  });
  // 63 shots of four; 16 of two, and two to warm its block up.
  const [fourShots, twoShots, warming] = [63, 16, 2];
  const stirred = stirredDensity(density, salt, glass);
  const hot = hotDensity(stirred);
  const [four, two] = [shotMass(FOUR.shot, hot), shotMass(TWO.shot, hot)];

  test.each(ENDS)('%s', (end) => {
    const [fourSprue, twoSprue] = [
      (four[end] * FOUR.channels) / FOUR.shot[end],
      (two[end] * TWO.channels) / TWO.shot[end],
    ];
    const all = fourShots * four[end] + (twoShots + warming) * two[end];
    const kept = stirred[end] * heel;
    const heated = 1.1 * all + kept;
    const { balance, measured } = plan;
    const expected: [number, number][] = [
      [balance.sprues[end], fourShots * fourSprue + (twoShots + warming) * twoSprue],
      [balance.baits[end], fourShots * (four[end] - fourSprue) + twoShots * (two[end] - twoSprue)],
      [balance.scrap[end], warming * (two[end] - twoSprue)],
      [balance.clinging[end], 0.1 * all],
      [balance.heel[end], kept],
      [balance.heated[end], heated],
      [balance.raw[end], 0.75 * heated],
      [balance.remelted[end], 0.25 * heated],
      [measured.salt[end], 0.1 * 0.75 * heated],
      [measured.microballoons[end], 0.02 * 0.75 * heated],
      [measured.liquid[end] * 1e3, ((0.88 * 0.75 * heated) / 1040) * 1e3],
      [plan.hot[end] * 1e3, (fourShots * FOUR.shot[end] + (twoShots + warming) * TWO.shot[end]) * 1e3],
    ];
    for (const [got, want] of expected) expect(got).toBeCloseTo(want, 12);
    // Common practice: glitter 1/48 (1/96 to 1/24) of the liquid, colour 1/96 (1/240 to 1/48).
    const share = { value: [48, 96], low: [96, 240], high: [24, 48] }[end];
    expect(measured.glitter[end]).toBeCloseTo(measured.liquid[end] / share[0]!, 15);
    expect(measured.colour[end]).toBeCloseTo(measured.liquid[end] / share[1]!, 15);
  });

  test('molds, in the order asked', () => {
    // 100 mL hold 90.9 mL with a tenth to spare: three shots of 30 mL, two of 42 mL.
    expect(plan.molds).toEqual([
      {
        id: 'four',
        baits: 250,
        shots: 63,
        warmUps: 0,
        shot: FOUR.shot,
        perFilling: 3,
        fillings: 63,
        colours: null,
      },
      {
        id: 'two',
        baits: 31,
        shots: 16,
        warmUps: 2,
        shot: TWO.shot,
        perFilling: 2,
        fillings: 18,
        colours: [expect.anything(), expect.anything()],
      },
    ]);
    expect([plan.baits, plan.shots, plan.fillings]).toEqual([281, 81, 81]);
    expect(plan.shelf).toBe('enough');
  });

  test('turns: the one that rests longer first, its pause and its warm-up shots with it', () => {
    const blocks = (end: (typeof ENDS)[number]) => [
      { id: 'four', shots: 63, handling: FOUR.handling[end], rest: FOUR.closed[end] + 30 },
      { id: 'two', shots: 18, handling: TWO.handling[end], rest: TWO.closed[end] },
    ];
    expect(plan.rotation).toEqual(rotation(blocks('value')));
    for (const end of ENDS) expect(plan.time[end]).toBe(rotation(blocks(end)).time);
  });
});

test('nothing ordered: nothing to heat, no heel, no warm-up, no time', () => {
  const plan = sessionPlan({ ...REQUEST, orders: [{ mold: TWO, baits: 0 }], shelf: 0 });
  const none = { value: 0, low: 0, high: 0 };
  expect(plan).toMatchObject({ baits: 0, shots: 0, fillings: 0, hot: none, time: none, shelf: 'enough' });
  expect(plan.balance.heel).toEqual(none);
  expect(plan.balance.heated).toEqual(none);
  expect(plan.molds[0]?.warmUps).toBe(0);
});

test('a shot that the injector just holds with a tenth to spare is drawn at once', () => {
  const fillings = (capacity: number) => sessionPlan({ ...REQUEST, capacity }).molds[0]!.fillings;
  expect([33e-6, 32.9e-6, 16.6e-6, 16.4e-6].map(fillings)).toEqual([25, 50, 50, 75]);
});

test('two colours: a gate at the side or the nose feeds the part ahead; a bait of one colour has none', () => {
  for (const gate of ['nose', 'side', undefined] as const) {
    const [ahead, behind] = colourShots({ ...TWO, gate })!;
    for (const end of ENDS) {
      expect(ahead[end]).toBeCloseTo(0.25 * (TWO.shot[end] - 6e-6) + 6e-6, 15);
      expect(behind[end]).toBeCloseTo(0.75 * (TWO.shot[end] - 6e-6), 15);
    }
  }
  const [ahead, behind] = colourShots({ ...TWO, gate: 'tail' })!;
  expect(ahead.high).toBeCloseTo(0.25 * 36e-6, 15);
  expect(behind.high).toBeCloseTo(0.75 * 36e-6 + 6e-6, 15);
  expect(colourShots(FOUR)).toBeNull();
});

describe('numbers out of order', () => {
  const salted = (salt: number, glass: number) => stirredDensity(band(1040), salt, glass);
  refusesNumbers([
    [
      'sessionPlan',
      sessionPlan,
      [{ ...REQUEST, shelf: 1 }],
      {
        '0.density.low': 'positive',
        '0.capacity': 'positive',
        '0.heel': 'not negative',
        '0.shelf': 'not negative',
        '0.remelt': [0, 0.5],
        '0.salt': [0, 0.4],
        '0.microballoons': [0, 0.1],
        '0.orders.0.baits': [0, 100_000],
      },
    ],
  ]);
  test('say what they want', () => {
    expect(() => sessionPlan({ ...REQUEST, salt: 0.5 })).toThrow(
      'sessionPlan: wants salt of 0 to 40 %, got 50 %',
    );
    expect(() => sessionPlan({ ...REQUEST, salt: -0.25 })).toThrow(
      'sessionPlan: wants salt of 0 to 40 %, got -25 %',
    );
    expect(() => sessionPlan({ ...REQUEST, microballoons: -0.25 })).toThrow(
      'sessionPlan: wants hollow glass',
    );
    expect(() => sessionPlan({ ...REQUEST, remelt: -0.25 })).toThrow('sessionPlan: wants old sprues');
    expect(() => sessionPlan({ ...REQUEST, microballoons: 0.25 })).toThrow(
      'sessionPlan: wants hollow glass of 0 to 10 %, got 25 %',
    );
    expect(() => sessionPlan({ ...REQUEST, remelt: 0.75 })).toThrow(
      'sessionPlan: wants old sprues of 0 to 50 %, got 75 %',
    );
    expect(() => sessionPlan({ ...REQUEST, capacity: 0 })).toThrow('sessionPlan: capacity:');
    expect(() => sessionPlan({ ...REQUEST, heel: -1 })).toThrow('sessionPlan: heel:');
    expect(() => sessionPlan({ ...REQUEST, shelf: -1 })).toThrow('sessionPlan: shelf:');
  });
  test('salt and glass leave something for the compound', () => {
    expect(() => salted(0.5, 0.5)).toThrow('stirredDensity: wants fractions below 1 together, got 1');
    expect(() => salted(0.5, 0.25)).not.toThrow();
  });
});

test('refuses half a bait and a cup of old sprues', () => {
  expect(() => sessionPlan({ ...REQUEST, orders: [{ mold: FOUR, baits: 1.5 }] })).toThrow(
    'sessionPlan: wants whole baits of 0 to 100 000, got 1.5',
  );
  expect(() => sessionPlan({ ...REQUEST, remelt: 0.9 })).toThrow(
    'sessionPlan: wants old sprues of 0 to 50 %',
  );
});
