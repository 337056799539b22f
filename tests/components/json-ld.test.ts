import { expect, test } from 'vitest';
import { CEFACT, jsonForScript, productOf, propertyValue } from '../../src/components/head/json-ld.ts';
import { band } from '../../src/core/quantity/band.ts';
import { printed } from '../../src/core/quantity/print.ts';
import { fakeFigure, fakeSheet } from '../support/fake-sheet.ts';

const POISON = '</script><img src=x onerror=alert(1)><!-- & \u2028\u2029 ]]>';

test('no text can end the script element, and every text comes back whole', () => {
  const written = jsonForScript({ name: POISON });
  expect(written).not.toMatch(/[<>&\u2028\u2029]/u);
  expect(JSON.parse(written)).toEqual({ name: POISON });
});

test('a property carries the very numbers that the page prints, with a coded unit', () => {
  const figure = fakeFigure('shot.total', 'Shot', 'mL', band(38.234, 36.61, 39.84));
  const shown = printed(figure, 'metric');
  expect(propertyValue(figure)).toEqual({
    '@type': 'PropertyValue',
    propertyID: 'shot.total',
    name: 'Shot',
    value: Number(shown.value),
    minValue: Number(shown.range?.low),
    maxValue: Number(shown.range?.high),
    unitCode: 'MLT',
    unitText: 'mL',
  });
});

test('a wait carries the code of the unit that it is read in', () => {
  const figure = fakeFigure('heat.demoldTime', 'Until you open it', 's', band(180, 90, 456));
  expect(propertyValue(figure)).toMatchObject({ value: 3, maxValue: 7.6, unitCode: 'MIN', unitText: 'min' });
});

test('a figure in a US unit is given in its metric one', () => {
  const figure = fakeFigure('bait.length', 'Length', '[in_i]', band(4));
  expect(propertyValue(figure)).toMatchObject({ value: 101.6, unitCode: 'MMT', unitText: 'mm' });
});

test('a figure below zero is a number too', () => {
  const figure = fakeFigure('float.lift', 'Lift', 'N', band(-3));
  expect(propertyValue(figure)).toMatchObject({ value: -3 });
});

test('a unit without a code is left out', () => {
  expect(CEFACT['{Shore00}']).toBeUndefined();
  expect(propertyValue(fakeFigure('compound.hardness', 'Hardness', '{Shore00}', band(32)))).toBeNull();
});

test('a price is offered where one is stated, and nowhere else', () => {
  const sheet = fakeSheet();
  expect(productOf(sheet, 'x').offers).toMatchObject({ price: '89.50', priceCurrency: 'USD' });
  const mold = { ...sheet.mold, listing: { inTheBox: [], photos: [] } };
  expect(jsonForScript(productOf({ ...sheet, mold }, 'x'))).not.toContain('offers');
});
