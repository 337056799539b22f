import { expect, test } from 'vitest';
import { drawnOf, type DrawnLayout } from '../../src/components/sheet/drawings.ts';
import type { Sheet } from '../../src/sheet/sheet.ts';
import { addressed, addressOf } from '../../src/site/analysis/work.ts';

test('a sheet has the address that it was read from; one from elsewhere has none', () => {
  const sheet = { id: 'osier-grub-4' } as Sheet;
  expect(() => addressOf(sheet)).toThrow('addressOf: wants a sheet of the store, got osier-grub-4');
  expect(addressed(sheet, 'abc')).toBe(sheet);
  expect(addressOf(sheet)).toBe('abc');
  expect(() => addressOf({ ...sheet })).toThrow('wants a sheet of the store');
});

test('a drawing that a sheet has not is asked for by name', () => {
  const [wide, compact] = ['wide', 'compact'].map((title) => ({ title }) as DrawnLayout);
  const drawn = { sheets: { bait: { wide: wide!, compact: compact! } }, rigs: {} };
  expect(drawnOf(drawn, 'bait', 'compact')).toBe(compact);
  expect(() => drawnOf(drawn, 'fill-adverse', 'wide')).toThrow('drawnOf: this sheet has no "fill-adverse"');
  expect(() => drawnOf(undefined, 'bait', 'wide')).toThrow('this sheet has no "bait"');
});
