import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { planAnswer } from '../../../src/core/plan/answer.ts';
import {
  FIELDS,
  freshPlan,
  linkOfPlan,
  planFromLink,
  type PlanState,
} from '../../../src/core/plan/plan-state.ts';
import { sessionPlan } from '../../../src/core/plan/session.ts';
import { toSI } from '../../../src/core/quantity/units.ts';
import { DATA, FOUR } from './data.ts';

const state = (baits: Record<string, string>, fields: Partial<PlanState['fields']> = {}): PlanState => ({
  baits,
  fields: { ...freshPlan(DATA).fields, ...fields },
});

const roundTrip = (plan: PlanState): PlanState => {
  const params = new URLSearchParams(linkOfPlan(plan, DATA));
  return planFromLink((name) => new URLSearchParams(params.toString()).get(name), DATA);
};

describe('a plan in a link', () => {
  test('comes back as it was typed, also when half finished', () => {
    const text = fc.stringMatching(/^[0-9a-z. %€&=+?/]{0,12}$/u);
    const count = fc.constantFrom('1', '250', '2.5', 'ten', '1e3', '-4');
    fc.assert(
      fc.property(count, count, text, text, text, (four, two, shelf, hardness, price) => {
        const plan = state({ four, two }, { shelf, hardness, price, injector: 'other', blend: 'softener' });
        expect(roundTrip(plan)).toEqual(plan);
      }),
      { seed: 65 },
    );
  });

  test('an untouched plan is an empty one', () => {
    expect(linkOfPlan(freshPlan(DATA), DATA)).toEqual([['m', '']]);
    expect(new Set(Object.values(FIELDS)).size).toBe(Object.keys(FIELDS).length);
  });

  test('strangers are left out, and long texts cut', () => {
    const link = new Map([
      ['m', 'four.5_gone.7_two.12'],
      ['c', 'nothing'],
      ['i', '../secret'],
      ['per', 'stone'],
      ['shelf', 'x'.repeat(500)],
    ]);
    const plan = planFromLink((name) => link.get(name) ?? null, DATA);
    expect(plan.baits).toEqual({ four: '5', two: '12' });
    expect(plan.fields.compound).toBe('medium');
    expect(plan.fields.injector).toBe('big');
    expect(plan.fields.per).toBe('gal');
    expect(plan.fields.shelf.length).toBe(40);
  });

  test('the only mold of a sheet starts with fifty baits', () => {
    expect(freshPlan({ ...DATA, molds: [FOUR] }).baits).toEqual({ four: '50' });
  });
});

describe('an answer', () => {
  test('is the session of its numbers, units read as people write them', () => {
    const { plan, problems } = planAnswer(
      state({ four: '100' }, { shelf: '1 qt', heel: '2 fl oz', old: '10', salt: '5' }),
      DATA,
    );
    expect(problems).toEqual({});
    const [medium] = DATA.compounds;
    expect(plan).toEqual(
      sessionPlan({
        orders: [{ mold: FOUR, baits: 100 }],
        density: medium!.density,
        capacity: toSI(4, '[foz_us]'),
        shelf: toSI(1, '[qt_us]'),
        heel: toSI(2, '[foz_us]'),
        remelt: 0.1,
        salt: 0.05,
        microballoons: 0,
      }),
    );
  });

  test('a pint and half a litre read as what they are', () => {
    const liquid = planAnswer(state({ four: '40' }), DATA).plan!.measured.liquid.high;
    const verdict = (shelf: string) => planAnswer(state({ four: '40' }, { shelf }), DATA).plan?.shelf;
    expect([verdict(`${liquid * 1e3} L`), verdict(`${(liquid / toSI(1, '[pt_us]')) * 0.5} pt`)]).toEqual([
      'enough',
      'short',
    ]);
  });

  test('price a gallon and price a litre differ by the gallon', () => {
    const cost = (per: string) =>
      planAnswer(state({ four: '40' }, { price: '20', per }), DATA).cost!.whole.value;
    expect(cost('L') / cost('gal')).toBeCloseTo(3.785411784, 9);
  });

  test('every mistake is told beside its field, and nothing is made up', () => {
    const { plan, problems } = planAnswer(
      state(
        { four: '2.5' },
        { shelf: '3', heel: 'a cup', old: '80', salt: 'some', glass: '-1', injector: 'other', price: '-2' },
      ),
      DATA,
    );
    expect(plan).toBeNull();
    expect(Object.keys(problems).sort()).toEqual(
      ['capacity', 'four', 'glass', 'heel', 'old', 'price', 'salt', 'shelf'].sort(),
    );
    expect(problems['shelf']).toContain('no unit');
  });

  test('a blend that cannot be is told, the rest is still answered', () => {
    const answer = planAnswer(state({ four: '4' }, { blend: 'firm', hardness: '80' }), DATA);
    expect(answer.problems['hardness']).toContain('between 40 and 60');
    expect(answer.blend).toBeNull();
    expect(answer.plan).not.toBeNull();
  });

  test('both liquids of a blend make up the liquid', () => {
    const { blend, plan } = planAnswer(state({ four: '100' }, { blend: 'firm', hardness: '50' }), DATA);
    expect(blend!.own.value + blend!.other.value).toBeCloseTo(plan!.measured.liquid.value, 12);
    expect(blend!.name).toBe('Firm');
  });

  test('without baits there is no plan and no complaint', () => {
    expect(planAnswer(state({}), DATA)).toEqual({ plan: null, blend: null, cost: null, problems: {} });
  });
});
