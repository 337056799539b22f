import { describe, expect, test } from 'vitest';
import { band } from '../../src/core/quantity/band.ts';
import { accepted, changeText, hasMoved, moveOf, publishedChanges } from '../../src/sheet/ledger.ts';
import { fakeFigure, fakeSheet } from '../support/fake-sheet.ts';

const sheet = fakeSheet();
const first = accepted(null, sheet, { date: '2026-04-01', note: 'First published.', amend: false });
const figure = (value: number, low = value, high = value) => ({
  label: 'Shot',
  unit: 'mL' as const,
  value,
  low,
  high,
});

/** The fake sheet with another whole shot and another clamping force. */
const changed = (shot: number) =>
  fakeSheet({
    figures: {
      ...sheet.figures,
      'shot.total': fakeFigure('shot.total', 'Whole shot, hot', 'mL', band(shot, shot - 1, shot + 1)),
    },
  });

describe('what counts as a move', () => {
  test('noise of sums does not, nor what no reader sees', () => {
    expect(hasMoved(figure(36), figure(36))).toBe(false);
    expect(hasMoved(figure(36), figure(36 * (1 + 1e-12)))).toBe(false);
    expect(hasMoved(figure(36), figure(36.004))).toBe(false);
    expect(hasMoved(figure(36.05), figure(36.05 * (1 + 1e-12)))).toBe(false);
  });

  test('another text in either unit system does, and so does another band or unit', () => {
    expect(hasMoved(figure(36), figure(36.1))).toBe(true);
    expect(hasMoved(figure(36, 34, 38), figure(36, 33, 38))).toBe(true);
    expect(hasMoved(figure(36), { ...figure(36), unit: 'cm3' })).toBe(true);
  });

  test('small drifts are held against the published number, so they add up to a move', () => {
    const steps = Array.from({ length: 40 }, (_, i) => figure(36 + 0.004 * (i + 1)));
    expect(steps.some((step) => hasMoved(figure(36), step))).toBe(true);
  });
});

describe('a ledger', () => {
  test('begins with a step that changes nothing, and holds every figure to twelve digits', () => {
    expect(first.entries).toEqual([
      { date: '2026-04-01', note: 'First published.', revision: 'b', changes: [] },
    ]);
    expect(Object.keys(first.figures)).toEqual(Object.keys(sheet.figures).sort());
    for (const { value } of Object.values(first.figures)) expect(Number(value.toPrecision(12))).toBe(value);
    expect(publishedChanges(first, sheet)).toEqual([]);
    expect(moveOf({ ...sheet, ledger: first })).toBeNull();
    expect(moveOf(sheet)).toEqual({ mold: 'capsule-4', first: true, changes: [] });
  });

  test('takes a change as a step, old and new', () => {
    const [change] = publishedChanges(first, changed(40));
    expect(change).toMatchObject({ key: 'shot.total', from: { value: 38.2 }, to: { value: 40 } });
    expect(changeText(change!.to, change!.unit)).toMatch(/fl oz.* \/ 40.0/u);
    const second = accepted(first, changed(40), { date: '2026-05-01', note: 'Larger.', amend: false });
    expect(second.entries.map(({ note }) => note)).toEqual(['First published.', 'Larger.']);
    expect(publishedChanges(second, changed(40))).toEqual([]);
  });

  test('an amended step replaces the last one and joins its changes', () => {
    const second = accepted(first, changed(40), { date: '2026-05-01', note: 'Larger.', amend: false });
    const third = accepted(second, changed(42), { date: '2026-05-02', note: 'Larger still.', amend: true });
    expect(third.entries.map(({ note }) => note)).toEqual(['First published.', 'Larger still.']);
    expect(third.entries.at(-1)?.changes).toMatchObject([{ from: { value: 38.2 }, to: { value: 42 } }]);
    const only = accepted(first, changed(40), { date: '2026-04-02', note: 'Anew.', amend: true });
    expect(only.entries).toEqual([{ date: '2026-04-02', note: 'Anew.', revision: 'b', changes: [] }]);
    const same = accepted(second, changed(42), { date: '', note: '', amend: true });
    expect(same.entries.at(-1)).toMatchObject({ date: '2026-05-01', note: 'Larger.' });
  });

  test('verdicts and figures that come or go are changes too', () => {
    const { 'shot.total': gone, ...rest } = sheet.figures;
    expect(gone).toBeDefined();
    const less = fakeSheet({ figures: rest, mold: { ...sheet.mold, status: 'retired' } });
    expect(publishedChanges(first, less)).toMatchObject([
      { key: 'fact.status', from: 'final', to: 'retired' },
      { key: 'shot.total', to: null },
    ]);
    expect(changeText(null, 'mL')).toBe('not there');
  });
});
