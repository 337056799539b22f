import { expect, test } from 'vitest';
import { area, bounds, joined, label, labelRect, moved, overlap } from '../../src/drawing/picture.ts';
import { collisions, readSvg, struckThrough } from './checks.ts';

const word = (x: number, y: number) => label({ text: 'tail', at: [x, y], size: 3.5 });

test('the collision check finds labels that cover one another, and only those', () => {
  expect(collisions(joined([word(10, 10), word(11, 11)]))).toEqual(['tail / tail']);
  expect(collisions(joined([word(10, 10), word(40, 10), word(10, 20)]))).toEqual([]);
});

test('the strike check finds an outline through a label, also between its points', () => {
  const ring = area('visible', 'none', [
    [
      [0, 9],
      [100, 9],
      [100, 90],
      [0, 90],
    ],
  ]);
  expect(struckThrough(joined([ring, word(50, 10)]))).toEqual(['tail']);
  expect(struckThrough(joined([ring, word(50, 50)]))).toEqual([]);
});

test('a strict XML reader refuses what is not well-formed', () => {
  expect(() => readSvg('<svg><title>a</svg>')).toThrow();
});

test('a turned label covers the same area on its side', () => {
  const [level] = word(0, 0).labels;
  const flat = labelRect(level!);
  const turned = labelRect({ ...level!, turned: true });
  expect(turned.bottom - turned.top).toBeCloseTo(flat.right - flat.left, 9);
  expect(turned.right - turned.left).toBeCloseTo(flat.bottom - flat.top, 9);
});

test('rectangles that only touch do not overlap', () => {
  const unit = { left: 0, top: 0, right: 1, bottom: 1 };
  expect(overlap(unit, { ...unit, left: 1, right: 2 })).toBe(false);
  expect(overlap(unit, { ...unit, left: 0.9, right: 2 })).toBe(true);
});

test('moving a picture moves its bounds', () => {
  const box = bounds(word(5, 5));
  const there = bounds(moved(word(5, 5), 3, -2));
  expect(there.left - box.left).toBeCloseTo(3, 9);
  expect(there.top - box.top).toBeCloseTo(-2, 9);
});
