import { expect, test } from 'vitest';
import { askable, find } from '../../src/answer/question.ts';
import { message, replies } from '../../src/answer/reply.ts';
import { fakeSheet } from '../support/fake-sheet.ts';

const lines = [
  { key: 'shoot-cold', title: 'Can I shoot it cold?', words: ['cold', 'first shots'] },
  { key: 'bubbles', title: 'I get bubbles. Why?', words: ['bubbles', 'air'] },
  { key: 'clamping', title: 'How do I clamp it and hold it?', words: ['clamp'] },
];
const keys = (query: string) => find(query, lines).map(({ key }) => key);

test('no words: every line in its own order', () => {
  expect(keys('')).toEqual(['shoot-cold', 'bubbles', 'clamping']);
  expect(keys(' ?! ')).toEqual(['shoot-cold', 'bubbles', 'clamping']);
});

test('words find their line; misspelt ones count only where nothing else answers', () => {
  expect(keys('cold')).toEqual(['shoot-cold']);
  expect(keys('Can I do the FIRST shots?')).toEqual(['shoot-cold']);
  expect(keys('bubles')).toEqual(['bubbles']);
  expect(keys('bub')).toEqual(['bubbles']);
  expect(keys('cold bubbles')).toEqual([]);
  expect(keys('xylophone')).toEqual([]);
});

test('a sheet is asked by its questions and its faults', () => {
  const asked = askable(fakeSheet());
  expect(asked.map(({ key }) => key)).toEqual(['cold', 'how-much', 'fault-short-shot']);
  expect(asked.at(-1)?.title).toBe('Short shot: the tail ends early.');
});

test('a reply carries its text, its sheet with the revision, and its address', () => {
  const sheet = fakeSheet();
  const [cold, , fault] = replies(sheet);
  expect(cold?.text.split('\n')).toEqual([
    sheet.answers[0]?.short,
    'Capsule 4, four cavities, TT-CAP-4, revision B of 2026-03-14',
    'https://molds.example.com/molds/capsule-4/#cold',
  ]);
  expect(fault?.text.split('\n')[0]).toBe(
    'Short shot: likeliest causes first. The mold is cold: Warm it. Too little plastic: Draw more.',
  );
  expect(message(sheet, 'cold', '330\u00a0°F')).toMatch(/^330 °F\n/u);
});
