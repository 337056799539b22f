import { expect, test } from 'vitest';
import { filterMarks, filtersOf, ORDERS } from '../../src/components/browse/filters.ts';
import { groupsOf } from '../../src/components/browse/groups.ts';
import { browseStyles, compareStyles } from '../../src/components/browse/styles.ts';
import { band } from '../../src/core/quantity/band.ts';
import type { Sheet } from '../../src/sheet/sheet.ts';
import { fakeFigure, fakeSheet } from '../support/fake-sheet.ts';

function long(): Sheet {
  const sheet = fakeSheet({ id: 'capsule-2' });
  return {
    ...sheet,
    bait: { ...sheet.bait, family: 'lizard' },
    mold: { ...sheet.mold, cavities: sheet.mold.cavities.slice(0, 2) },
    figures: { ...sheet.figures, 'bait.length': fakeFigure('bait.length', 'Length', 'mm', band(150)) },
    verdicts: { ...sheet.verdicts, cold: { code: 'fills cold', sentence: '' } },
  };
}

test('filters know the sheets, and one with nothing to choose is left out', () => {
  const sheets = [fakeSheet(), long()];
  const filters = filtersOf(sheets);
  expect(filters.map(({ name }) => name)).not.toContain('injector');
  const marks = filterMarks(long(), filters);
  expect(marks).toMatchObject({
    'data-length': 'long',
    'data-family': 'lizard',
    'data-cavities': 'two',
    'data-cold': 'cold likely',
  });
  for (const { name, choices } of filters) {
    const values = new Set(choices.map(({ value }) => value));
    for (const sheet of sheets)
      for (const value of (filterMarks(sheet, filters)[`data-${name}`] ?? '').split(' ').filter(Boolean))
        expect([name, values.has(value)]).toEqual([name, true]);
  }
});

test('a mold that makes the tail alone is found under the rig of a tail, not under those of the whole bait', () => {
  const tail: Sheet = { ...long(), rigNames: ['tail on a jig'] };
  const filters = filtersOf([fakeSheet(), tail]);
  expect(filterMarks(tail, filters)['data-rig']).toBe('tail-on-a-jig');
  const choices = filters.find(({ name }) => name === 'rig')?.choices.map(({ label }) => label);
  expect(choices).toEqual(expect.arrayContaining(['tail on a jig', ...fakeSheet().rigNames]));
});

test('the rules hide what does not match and put every sheet in its place', () => {
  const sheets = [fakeSheet(), long()];
  const rules = browseStyles(sheets).split('\n');
  expect(rules).toContain(
    '.narrowing:has(#f-family option[value="lizard"]:checked)~.molds>li:not([data-family~="lizard"]){display:none}',
  );
  const longest = rules.indexOf('.narrowing:has(#f-sort option[value="longest"]:checked)~.molds{');
  expect(rules.slice(longest + 1, longest + 4)).toEqual([
    '#at-capsule-2{order:0}',
    '#at-capsule-4{order:1}',
    '}',
  ]);
  expect(rules.filter((rule) => rule.includes('order:'))).toHaveLength(ORDERS.length * sheets.length);
});

test('once some molds are picked to be compared, only those stay; many are picked by family', () => {
  const few = [fakeSheet(), long()];
  const many = Array.from({ length: 25 }, (_, i) => ({ ...(i < 20 ? fakeSheet() : long()), id: `m-${i}` }));
  const keep = '.narrowing:has(#pick-capsule-2:checked)~.table .of-capsule-2{display:table-cell}';
  expect(compareStyles(few).split('\n')).toEqual([
    '.narrowing:has(.pick :checked)~.table .of{display:none}',
    keep.replaceAll('capsule-2', 'capsule-4'),
    keep,
    '',
  ]);
  expect(groupsOf(few)).toEqual([{ name: 'Molds to keep', members: few }]);
  expect(groupsOf(many).map(({ name, members }) => [name, members.length])).toEqual([
    ['curl-tail grub', 20],
    ['lizard', 5],
  ]);
});
