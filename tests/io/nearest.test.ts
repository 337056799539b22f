import { expect, test } from 'vitest';
import { editDistance } from '../../src/core/text/edit-distance.ts';
import { nearest, suggestion } from '../../src/io/nearest.ts';

// Counts by hand: letters added, dropped or changed, neighbours swapped.
test.each([
  ['', '', 0],
  ['gape', 'gape', 0],
  ['gap', 'gape', 1],
  ['titel', 'title', 1],
  ['kitten', 'sitting', 3],
  ['', 'abc', 3],
])('%s to %s takes %i edits', (a, b, edits) => {
  expect(editDistance(a, b)).toBe(edits);
  expect(editDistance(b, a)).toBe(edits);
});

test('the nearest word wins, a far one is not offered', () => {
  expect(nearest('pistn', ['capacity', 'piston', 'position'])).toBe('piston');
  expect(nearest('Piston', ['piston'])).toBe('piston');
  expect(nearest('xyz', ['capacity', 'piston'])).toBeUndefined();
});

test('a suggestion lists what there is, but never endlessly', () => {
  expect(suggestion('pistn', ['piston', 'name'], 'known keys')).toBe(
    'did you mean "piston"? known keys: piston, name',
  );
  expect(suggestion('xyz', ['a'], 'known keys')).toBe('choose from known keys: a');
  expect(suggestion('x', [], 'hooks')).toBe('there are no hooks yet; add one or take this out');
  const many = Array.from({ length: 50 }, (_, i) => `bait-${i}`);
  expect(suggestion('zzzzzzzz', many, 'baits')).toMatch(/bait-11, …$/u);
});
