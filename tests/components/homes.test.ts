import { expect, test } from 'vitest';
import { partAnchor, PARTS, SHORT_NAMES, sheetAnchors } from '../../src/components/anchors.ts';
import { figureOf, figuresByHome } from '../../src/components/figure/homes.ts';
import { band } from '../../src/core/quantity/band.ts';
import { fakeFigure, fakeSheet } from '../support/fake-sheet.ts';

test('every figure can be opened in exactly one place', () => {
  const sheet = fakeSheet();
  const [fill] = sheet.features;
  const strange = fakeFigure('brand-new.thing', 'New', 'mm', band(1));
  const figures = {
    ...sheet.figures,
    [strange.key]: strange,
    ...(fill && { [fill.reachCold.key]: fill.reachCold }),
  };
  const homes = figuresByHome({ ...sheet, figures });
  const placed = Object.values(homes)
    .flat()
    .map(({ key }) => key);
  expect(new Set(placed).size).toBe(placed.length);
  expect(placed).not.toContain(fill?.reachCold.key);
  expect([...placed].sort()).toEqual(
    Object.keys(figures)
      .filter((key) => key !== fill?.reachCold.key)
      .sort(),
  );
  expect(homes.other).toContain(strange);
});

test('a missing figure is named', () => {
  expect(() => figureOf(fakeSheet(), 'bait.wings')).toThrow(
    new RangeError('capsule-4: the sheet has no figure "bait.wings"'),
  );
});

test('one anchor never stands for two things', () => {
  const sheet = fakeSheet();
  expect(sheetAnchors(sheet)).toContain('hot-liquid');
  const [answer] = sheet.answers;
  const answers = answer ? [{ ...answer, key: 'hot-liquid' }] : [];
  expect(() => sheetAnchors({ ...sheet, answers })).toThrow(/unique anchors, got twice: hot-liquid/u);
});

test('parts keep their anchors apart from stored keys', () => {
  expect(Object.keys(SHORT_NAMES)).toEqual(Object.keys(PARTS));
  const stored = new Set(sheetAnchors(fakeSheet()));
  for (const part of Object.keys(PARTS) as (keyof typeof PARTS)[])
    expect(stored.has(partAnchor(part))).toBe(false);
});
