import { expect, test } from 'vitest';
import { baitCardFacts, cardFacts } from '../../src/card/facts.ts';
import type { Figure } from '../../src/core/quantity/figure.ts';
import type { UnitCode } from '../../src/core/quantity/units.ts';
import type { Sheet } from '../../src/sheet/sheet.ts';
import { grub } from '../drawing/shapes.ts';

const figure = (key: string, unit: UnitCode, value: number, low = value, high = value): Figure => ({
  key,
  label: key,
  unit,
  value,
  low,
  high,
  basis: '',
  formula: '',
  inputs: [],
  sources: [],
});

/** The part of a sheet that a card reads. */
function sheet(units: 'us' | 'metric', without?: string): Sheet {
  const figures = [
    figure('bait.length', 'mm', 127),
    // 1 US fl oz is 29.5735295625 mL (NIST SP 811): 59.147 mL are 2 fl oz.
    figure('shot.total', 'mL', 59.147059125, 55, 65),
    // 165 °C is 329 °F, 175 °C is 347 °F.
    figure('pour.low', 'Cel', 165, 160, 170),
    figure('pour.high', 'Cel', 175, 173, 177),
  ].filter(({ key }) => key !== without);
  return {
    id: 'grub-4',
    title: 'Grub, four cavities',
    shop: { name: 'Thistledown Tooling', units, invented: true },
    mold: { stock: 'TT-GRUB-4', cavities: [{}, {}, {}, {}] },
    revision: { id: 'c' },
    geometry: grub(),
    figures: Object.fromEntries(figures.map((one) => [one.key, one])),
    verdicts: { cold: { code: 'warm it first', sentence: '' } },
  } as unknown as Sheet;
}

test('a US shop: inches, fluid ounces and Fahrenheit first, the other units below', () => {
  const facts = cardFacts(sheet('us'));
  expect(facts.detail).toBe('4 cavities · rev. C');
  // The band is 0.34 fl oz wide: a step of at most a quarter of it takes two decimals.
  expect(facts.figures.map(({ value }) => value)).toEqual([
    '5.000 in',
    '2.00 fl oz',
    '329 to 347 °F',
    'Warm it first',
  ]);
  expect(facts.figures[0]?.note.replace('\u00a0', ' ')).toBe('127.0 mm');
  expect(facts.figures[2]?.note).toBe('165 to 175 °C');
});

test('a metric shop: millimetres and Celsius first', () => {
  const facts = cardFacts(sheet('metric'));
  expect(facts.figures.map(({ value }) => value)).toEqual([
    '127.0 mm',
    '59 mL',
    '165 to 175 °C',
    'Warm it first',
  ]);
});

test('a banded figure never stands without its band', () => {
  const [, shot] = cardFacts(sheet('metric')).figures;
  expect(shot?.note).toBe('55 to 65 mL');
});

test('a sheet without a figure that the card needs is refused by name', () => {
  expect(() => cardFacts(sheet('us', 'shot.total'))).toThrow(
    'cardFacts: wants the figure shot.total on sheet grub-4, got none',
  );
});

test('the card of a bait tells of the bait and of how many molds make it', () => {
  const mold = sheet('us');
  const facts = baitCardFacts({
    ...mold,
    bait: { ...mold.bait, name: 'Grub', family: 'curl-tail grub' },
    siblings: [mold.mold],
    bestHook: null,
    figures: { ...mold.figures, 'bait.mass': figure('bait.mass', 'g', 7, 6, 8) },
    verdicts: { ...mold.verdicts, float: { code: 'sinks', sentence: '' } },
  });
  expect([facts.name, facts.stock, facts.detail]).toEqual(['Grub', 'Curl-tail grub', '2 molds · rev. C']);
  expect(facts.figures.map(({ value }) => value)).toEqual(['5.000 in', '0.25 oz', 'none listed', 'Sinks']);
});
