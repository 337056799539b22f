import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { sessionCost } from '../../../src/core/plan/cost.ts';
import type { PlanRequest, SessionPlan } from '../../../src/core/plan/session-parts.ts';
import { sessionPlan, stirredDensity } from '../../../src/core/plan/session.ts';
import { band } from '../../../src/core/quantity/band.ts';
import { toSI } from '../../../src/core/quantity/units.ts';
import { batchFor } from '../../../src/core/shot/batch.ts';
import { baitMass, shotMass } from '../../../src/core/shot/shot-volume.ts';
import { hotDensity } from '../../../src/core/shot/compound-density.ts';
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

test('refuses half a bait and a cup of old sprues', () => {
  expect(() => sessionPlan({ ...REQUEST, orders: [{ mold: FOUR, baits: 1.5 }] })).toThrow(
    'sessionPlan: wants whole baits of 0 to 100 000, got 1.5',
  );
  expect(() => sessionPlan({ ...REQUEST, remelt: 0.9 })).toThrow(
    'sessionPlan: wants old sprues of 0 to 50 %',
  );
});
