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
import { blendShare } from '../../../src/core/plan/blend.ts';
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

describe('what a link holds, worked by hand', () => {
  const read = (link: Record<string, string>, data = DATA) =>
    planFromLink((name) => link[name] ?? null, data);

  test('baits by mold, then every field that is not as in a fresh plan, by its short name', () => {
    const plan = state(
      { four: ' 12 ', two: '0', gone: ' ' },
      { compound: 'firm', heel: '2 fl oz', salt: '5', blend: 'softener', per: 'L', saltPer: 'kg' },
    );
    expect(linkOfPlan(plan, DATA)).toEqual([
      ['m', 'four.12'],
      ['c', 'firm'],
      ['heel', '2 fl oz'],
      ['salt', '5'],
      ['with', 'softener'],
      ['per', 'L'],
      ['sper', 'kg'],
    ]);
    expect(linkOfPlan(state({ four: '1'.repeat(50), two: ' 0 ' }), DATA)).toEqual([
      ['m', `four.${'1'.repeat(40)}`],
    ]);
    expect(linkOfPlan(state({ four: '1', two: '2' }), DATA)).toEqual([['m', 'four.1_two.2']]);
  });

  test('short names', () => {
    expect(FIELDS).toEqual({
      compound: 'c',
      injector: 'i',
      capacity: 'cap',
      shelf: 'shelf',
      heel: 'heel',
      old: 'old',
      salt: 'salt',
      glass: 'glass',
      blend: 'with',
      hardness: 'to',
      price: 'price',
      per: 'per',
      saltPrice: 'sp',
      saltPer: 'sper',
    });
  });

  test('a fresh plan', () => {
    expect(freshPlan(DATA)).toEqual({
      baits: {},
      fields: {
        compound: 'medium',
        injector: 'big',
        capacity: '',
        shelf: '',
        heel: '1 fl oz',
        old: '0',
        salt: '0',
        glass: '0',
        blend: '',
        hardness: '',
        price: '',
        per: 'gal',
        saltPrice: '',
        saltPer: 'lb',
      },
    });
    expect(freshPlan({ ...DATA, molds: [] }).baits).toEqual({});
  });

  test('counts may have points in them, and are cut at forty signs', () => {
    expect(read({ m: 'four.2.5.1' }).baits).toEqual({ four: '2.5.1' });
    expect(read({ m: `four.${'7'.repeat(60)}` }).baits).toEqual({ four: '7'.repeat(40) });
    expect(read({ m: 'four' }).baits).toEqual({ four: '' });
  });

  test('a link that names no baits has none; one without the name has those of a fresh plan', () => {
    const only = { ...DATA, molds: [FOUR] };
    expect(read({ m: '' }, only).baits).toEqual({});
    expect(read({}, only).baits).toEqual({ four: '50' });
    expect(read({}).baits).toEqual({});
    expect(read({}).fields).toEqual(freshPlan(DATA).fields);
  });

  // Left: taken; right: as in a fresh plan.
  test.each([
    ['c', 'compound', ['medium', 'firm'], ['softener', '', 'big'], 'medium'],
    ['with', 'blend', ['medium', 'firm', 'softener', ''], ['other', 'gone'], ''],
    ['i', 'injector', ['big', 'small', 'other'], ['firm', '', 'softener'], 'big'],
    ['per', 'per', ['pt', 'qt', 'gal', 'L'], ['kg', 'lb', '', 'mL'], 'gal'],
    ['sper', 'saltPer', ['lb', 'kg'], ['L', 'oz', ''], 'lb'],
    ['to', 'hardness', ['45', 'soft', ''], [], ''],
  ] as const)('%s', (name, field, taken, refused, fresh) => {
    for (const value of taken) expect(read({ [name]: value }).fields[field]).toBe(value);
    for (const value of refused) expect(read({ [name]: value }).fields[field]).toBe(fresh);
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

describe('fields, one at a time', () => {
  const fresh = { four: '40' };
  const answer = (fields: Partial<PlanState['fields']>, baits: Record<string, string> = fresh) =>
    planAnswer(state(baits, fields), DATA);
  const problem = (field: keyof PlanState['fields'], text: string, also: Partial<PlanState['fields']> = {}) =>
    answer({ ...also, [field]: text }).problems[field];

  test.each([
    ['old', 50],
    ['salt', 40],
    ['glass', 10],
  ] as const)('%s: a number from 0 to %i; left empty it is 0', (field, most) => {
    const wanted = `wants a number from 0 to ${most}`;
    expect(['0', `${most}`, ' 5 ', '', '  '].map((text) => problem(field, text))).toEqual(
      Array(5).fill(undefined),
    );
    expect([`${most + 0.1}`, '-0.1', 'much'].map((text) => problem(field, text))).toEqual(
      Array(3).fill(wanted),
    );
    expect(answer({ [field]: '' }).plan).toEqual(answer({ [field]: '0' }).plan);
    expect(answer({ [field]: 'much' })).toMatchObject({ plan: null, blend: null, cost: null });
  });

  test('each share goes where it belongs', () => {
    const { plan } = answer({ old: '20', salt: '10', glass: '5' });
    const { raw, heated } = plan!.balance;
    expect(raw.value / heated.value).toBeCloseTo(0.8, 12);
    expect(plan!.measured.salt.value / raw.value).toBeCloseTo(0.1, 12);
    expect(plan!.measured.microballoons.value / raw.value).toBeCloseTo(0.05, 12);
  });

  test('heel and shelf: volumes of 0 or more; no heel is none, no shelf says nothing', () => {
    expect(answer({ heel: '' }).plan!.balance.heel.value).toBe(0);
    expect(answer({ heel: '0 mL' }).plan!.balance.heel.value).toBe(0);
    // Nominal density times the heel.
    expect(answer({ heel: '100 mL' }).plan!.balance.heel.value).toBeCloseTo(0.104, 12);
    expect(answer({ shelf: ' ' }).plan!.shelf).toBeNull();
    expect(answer({ shelf: '0 L' }).plan!.shelf).toBe('short');
    for (const field of ['heel', 'shelf'] as const) {
      expect(problem(field, '-1 mL')).toBe('wants 0 or more');
      expect(problem(field, '1 kg')).toContain('is not a unit of volume');
      expect(answer({ [field]: '-1 mL' }).plan).toBeNull();
    }
  });

  test('baits: whole numbers up to 100 000; none and 0 are no order', () => {
    const wanted = 'wants a whole number of baits, at most 100 000';
    const told = (text: string) => answer({}, { four: text }).problems['four'];
    expect(['1', '100000', ' 12 ', '0', '', ' '].map(told)).toEqual(Array(6).fill(undefined));
    expect(['100001', '-1', '2.5', 'ten'].map(told)).toEqual(Array(4).fill(wanted));
    const orders = (baits: Record<string, string>) =>
      answer({}, baits).plan?.molds.map(({ id, baits: n }) => [id, n]);
    expect(orders({ two: '3', four: '0' })).toEqual([['two', 3]]);
    expect(orders({ two: '3', four: '8' })).toEqual([
      ['four', 8],
      ['two', 3],
    ]);
    expect(orders({ four: '0' })).toBeUndefined();
    expect(answer({}, { four: '8', two: 'x' }).plan).toBeNull();
  });

  test('injector: one of the list, or the reader’s own with its volume', () => {
    const filling = (fields: Partial<PlanState['fields']>) => answer(fields).plan?.molds[0]?.perFilling;
    // 30 mL with a tenth to spare are 33 mL; 4 fl oz are 118.3 mL, 1 fl oz 29.6 mL.
    expect(filling({ injector: 'big' })).toBe(3);
    expect(filling({ injector: 'small' })).toBe(0);
    expect(filling({ injector: 'other', capacity: '70 mL' })).toBe(2);
    expect(filling({ injector: 'big', capacity: '70 mL' })).toBe(3);
    const wanted = 'wants the volume of one stroke, like 5 fl oz';
    const own = (capacity: string) => problem('capacity', capacity, { injector: 'other' });
    expect(['', ' ', '0 mL'].map(own)).toEqual([wanted, wanted, wanted]);
    // The first thing that is wrong is told.
    expect(own('-1 mL')).toBe('wants 0 or more');
    expect(own('5')).toContain('no unit');
    const nothing = { plan: null, blend: null, cost: null, problems: {} };
    expect(answer({ injector: 'gone' })).toEqual(nothing);
    expect(answer({ compound: 'gone' })).toEqual(nothing);
  });

  test.each([
    ['pt', 473.176473e-6],
    ['qt', 946.352946e-6],
    ['gal', 3785.411784e-6],
    ['L', 1e-3],
  ])('a price a %s is one for %d m³', (per, volume) => {
    const { cost, plan } = answer({ price: '8', per });
    expect(cost!.whole.value).toBeCloseTo((8 / volume) * plan!.measured.liquid.value, 9);
    expect(cost!.each.value).toBeCloseTo(cost!.whole.value / 40, 12);
  });

  test.each([
    ['lb', 0.45359237],
    ['kg', 1],
  ])('salt at a price a %s: one for %d kg', (saltPer, mass) => {
    const without = answer({ salt: '10', price: '8' }).cost!.whole.value;
    const { cost, plan } = answer({ salt: '10', price: '8', saltPrice: '3', saltPer });
    expect(cost!.whole.value - without).toBeCloseTo((3 / mass) * plan!.measured.salt.value, 9);
  });

  test('prices: numbers up to a million; none is none, in a unit that does not exist neither', () => {
    const wanted = 'wants a number from 0 to 1000000';
    for (const field of ['price', 'saltPrice'] as const) {
      expect(['0', '1000000', '', ' '].map((text) => problem(field, text))).toEqual(Array(4).fill(undefined));
      expect(['-1', '1000001', 'dear'].map((text) => problem(field, text))).toEqual([wanted, wanted, wanted]);
    }
    expect(answer({ price: '' }).cost).toBeNull();
    expect(answer({ price: '0' }).cost!.whole.value).toBe(0);
    expect(answer({ price: '8', per: 'kg' }).cost).toBeNull();
    expect(answer({ saltPrice: '8' }).cost).toBeNull();
  });
});

describe('blends', () => {
  const answer = (fields: Partial<PlanState['fields']>, baits: Record<string, string> = { four: '100' }) =>
    planAnswer(state(baits, fields), DATA);

  test('with another compound: share by hardness, liquids at opposite ends', () => {
    const { blend, plan } = answer({ blend: 'firm', hardness: '50' });
    const share = blendShare(40, 60, 50);
    const { liquid } = plan!.measured;
    expect(blend!.share).toEqual(share);
    expect(blend!.name).toBe('Firm');
    expect(blend!.other).toEqual({
      value: liquid.value * share.value,
      low: liquid.low * share.low,
      high: liquid.high * share.high,
    });
    // Least of the one goes with most of the other.
    expect(blend!.own).toEqual({
      value: liquid.value * (1 - share.value),
      low: liquid.low * (1 - share.high),
      high: liquid.high * (1 - share.low),
    });
  });

  test('with softener', () => {
    const { blend, problems } = answer({ blend: 'softener', hardness: '30' });
    expect(blend!.share).toEqual(blendShare(40, 'softener', 30));
    expect(blend!.name).toBe('Softener (plain plasticiser)');
    expect(problems).toEqual({});
  });

  test('none is asked for without a second, or without a hardness', () => {
    for (const fields of [{ blend: '', hardness: '50' }, { blend: 'firm', hardness: ' ' }, {}])
      expect([answer(fields).blend, answer(fields).problems]).toEqual([null, {}]);
  });

  test.each([
    [{ blend: 'firm', hardness: '61' }, 'wants a Shore 00 between 40 and 60: these two reach no other'],
    [{ blend: 'firm', hardness: '39' }, 'wants a Shore 00 between 40 and 60: these two reach no other'],
    [{ blend: 'softener', hardness: '41' }, 'wants a Shore 00 between 0 and 40: these two reach no other'],
    [{ blend: 'medium', hardness: '40' }, 'wants a Shore 00 between 40 and 40: these two reach no other'],
    [{ blend: 'firm', hardness: '99' }, 'wants a number from 0 to 98'],
    [{ blend: 'firm', hardness: '-1' }, 'wants a number from 0 to 98'],
    [{ blend: 'firm', hardness: 'soft' }, 'wants a number from 0 to 98'],
  ])('%j is told, with baits and without', (fields, wanted) => {
    for (const baits of [{ four: '100' }, {}] as Record<string, string>[]) {
      const { blend, problems, plan } = answer(fields, baits);
      expect(blend).toBeNull();
      expect(problems).toEqual({ hardness: wanted });
      expect(plan === null).toBe(!('four' in baits));
    }
  });

  test('a second compound that does not exist reaches nothing', () => {
    expect(answer({ blend: 'gone', hardness: '50' }).problems['hardness']).toContain(
      'these two reach no other',
    );
  });
});
