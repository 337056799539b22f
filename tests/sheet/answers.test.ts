import { beforeAll, describe, expect, test } from 'vitest';
import { askable, find } from '../../src/answer/question.ts';
import { SIGNAL } from '../../src/styles/tokens.ts';
import { demo, sheetNamed } from '../support/demo.ts';

/** Anchors that have been published: a link in an old message must still lead to its answer. */
const QUESTIONS = [
  'shoot-cold',
  'how-much-plastic',
  'which-injector',
  'how-hot',
  'how-many-baits',
  'short-tips',
  'deeper-vents',
  'flash',
  'bubbles-and-dents',
  'when-to-open',
  'safe-to-touch',
  'clamping',
  'safety-gear',
  'which-plastisol',
  'two-colours',
  'remelting',
  'float-or-sink',
  'which-hook',
  'bait-weight',
  'cleaning',
  'which-mold',
  'which-revision',
  'shipping-weight',
];
const FAULTS = [
  'short-shot',
  'flash',
  'bubbles',
  'dents',
  'sunken-sprue',
  'sticking',
  'tearing',
  'haze',
  'yellowing',
].map((name) => `fault-${name}`);
const CAUTIONS = [
  'clamp-first',
  'data-sheet-first',
  'fire',
  'hot-block',
  'hot-plastisol',
  'no-water',
  'overheating',
  'wait-to-open',
];

let all: Awaited<ReturnType<typeof demo>>;
beforeAll(async () => {
  all = await demo();
}, 240_000);

const words = (text: string) => text.split(/\s+/u).filter(Boolean).length;
/** Pairs of units of which one never stands without the other. */
const PAIRS = [
  ['°F', '°C'],
  ['fl oz', 'mL'],
  ['lbf', 'N'],
  ['lb', 'kg'],
] as const;

describe('every mold', () => {
  test('answers all 23 questions under their old anchors, within 60 words each', () => {
    for (const { id, answers } of all.sheets) {
      expect(answers.map(({ key }) => key)).toEqual(QUESTIONS);
      for (const { key, short } of answers) expect([id, key, words(short) <= 60]).toEqual([id, key, true]);
    }
  });

  test('says every quantity in both unit systems', () => {
    for (const { id, answers, faults, injectors } of all.sheets) {
      // The name of an injector is its maker's own.
      const own = (text: string) =>
        injectors.reduce(
          (rest, { injector: { name } }) => rest.replaceAll(new RegExp(name, 'giu'), ''),
          text,
        );
      const texts = [
        ...answers.flatMap(({ short, long }) => [short, ...long]),
        ...faults.flatMap(({ causes }) => causes.flatMap(({ why, cure }) => [why, cure])),
      ];
      for (const text of texts)
        for (const [us, metric] of PAIRS) {
          const has = (unit: string) => new RegExp(`\\d[^\\d]{0,2}${unit}(?![a-zA-Z])`, 'u').test(own(text));
          expect([id, text, has(us)]).toEqual([id, text, has(metric)]);
        }
    }
  });

  test('gives the sides of a block in a unit with equal decimals', () => {
    for (const { id, answers } of all.sheets) {
      const short = answers.find(({ key }) => key === 'shipping-weight')?.short ?? '';
      const sides = [...short.matchAll(/([\d.]+) × ([\d.]+) × ([\d.]+)/gu)];
      expect([id, sides.length]).toEqual([id, 2]);
      for (const [, ...three] of sides)
        expect([short, new Set(three.map((one) => one.split('.')[1]?.length)).size]).toEqual([short, 1]);
    }
  });

  test('keeps apart the names of other molds, which have commas in them', () => {
    const short = sheetNamed(all, 'osier-grub-6').answers.find(({ key }) => key === 'which-mold')?.short;
    expect(short).toContain(
      'Osier Grub, one cavity; Osier Grub, two cavities; Osier Grub tails, four cavities',
    );
  });

  test('names causes for nine faults, and only figures that it has', () => {
    for (const { id, faults, answers, figures } of all.sheets) {
      expect(faults.map(({ key }) => key)).toEqual(FAULTS);
      for (const { causes } of faults) expect(causes.length).toBeGreaterThanOrEqual(3);
      for (const { key, figures: named } of [...faults, ...answers])
        expect([id, key, named.filter((name) => !figures[name])]).toEqual([id, key, []]);
    }
  });

  test('keeps its cautions, a hot-liquid burn never below a warning', () => {
    for (const { id, cautions } of all.sheets) {
      expect(cautions.map(({ key }) => key)).toEqual(expect.arrayContaining(CAUTIONS));
      const order = Object.keys(SIGNAL);
      const burn = cautions.find(({ key }) => key === 'hot-plastisol');
      expect([id, order.indexOf(burn?.signal ?? 'NOTICE') <= order.indexOf('WARNING')]).toEqual([id, true]);
      for (const { avoid, consequence } of cautions) {
        expect(avoid.length).toBeGreaterThan(0);
        expect(consequence.length).toBeGreaterThan(20);
      }
    }
  });
});

test('the order of causes follows the figures of the mold', () => {
  const first = (id: string) =>
    sheetNamed(all, id).faults.find(({ key }) => key === 'fault-short-shot')?.causes[0]?.cause;
  expect(first('osier-grub-6')).toBe('The mold is cold');
  expect(first('cobble-stick-3')).not.toBe('The mold is cold');
});

// The words in which customers ask, and the answer that they are after.
test.each([
  ['cold', 'shoot-cold'],
  ['first shots', 'shoot-cold'],
  ['short tips', 'short-tips'],
  ['how many from a gallon', 'how-many-baits'],
  ['temperature', 'how-hot'],
  ['bubbles', 'bubbles-and-dents'],
  ['floats', 'float-or-sink'],
  ['hook size', 'which-hook'],
  ['deeper vents', 'deeper-vents'],
  ['fumes', 'safety-gear'],
  ['remelt', 'remelting'],
  ['swirl', 'two-colours'],
  ['injecter', 'which-injector'],
  ['flsh', 'flash'],
  ['sunken', 'bubbles-and-dents'],
  ['yellow', 'fault-yellowing'],
  ['sticks', 'fault-sticking'],
  ['newest', 'which-revision'],
  ['postage', 'shipping-weight'],
  ['toggle', 'clamping'],
])('"%s" leads to %s', (query, key) => {
  expect(find(query, askable(sheetNamed(all, 'osier-grub-6')))[0]?.key).toBe(key);
});
