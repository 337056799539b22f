import { describe, expect, test } from 'vitest';
import { band } from '../../../src/core/quantity/band.ts';
import { figure, figureInput, type FigureWords } from '../../../src/core/quantity/figure.ts';

const words: FigureWords = {
  key: 'shot.total',
  label: 'Shot, hot',
  unit: 'mL',
  basis: 'Cavities and channels.',
  sources: [{ title: 'definition', kind: 'published' }],
};

describe('a figure', () => {
  test('keeps its words and shows its SI band in its own unit', () => {
    const full = {
      ...words,
      formula: 'V = a·b·c',
      inputs: [figureInput('length', band(0.0254), '[in_i]')],
    };
    expect(figure(full, band(18e-6, 16e-6, 21e-6))).toEqual({
      ...full,
      value: expect.closeTo(18, 9),
      low: expect.closeTo(16, 9),
      high: expect.closeTo(21, 9),
    });
  });
  test('a stated number has no formula and no inputs', () => {
    expect(figure(words, band(1e-6))).toMatchObject({ formula: '', inputs: [] });
  });
});

test('an input is shown in the unit it is read in: 25, 20 and 30 °C', () => {
  expect(figureInput('pour temperature', band(298.15, 293.15, 303.15), 'Cel')).toEqual({
    name: 'pour temperature',
    unit: 'Cel',
    value: expect.closeTo(25, 9),
    low: expect.closeTo(20, 9),
    high: expect.closeTo(30, 9),
  });
});
