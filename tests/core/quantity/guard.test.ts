import { describe, expect, test } from 'vitest';
import {
  between,
  need,
  needNonNegative,
  needPositive,
  positive,
  rising,
} from '../../../src/core/quantity/guard.ts';

test('what holds passes, what does not is refused in one form', () => {
  expect(() => need(true, 'f', 'a', 1)).not.toThrow();
  expect(() => need(false, 'f: x', 'a whole number', 1.5)).toThrow(
    new RangeError('f: x: wants a whole number, got 1.5'),
  );
  expect(() => need(false, 'f', 'a list', null)).toThrow('f: wants a list, got null');
});

describe('takes', () => {
  test('numbers above 0, which it hands back', () => {
    expect(positive('f', 5e-324)).toBe(5e-324);
    expect(() => needPositive('f', { a: 1, b: 1e300 })).not.toThrow();
  });
  test('0 and more', () => {
    expect(() => needNonNegative('f', { a: 0, b: 3 })).not.toThrow();
  });
  test('both ends of an interval', () => {
    expect([1, 1.5, 2].map((value) => between('f', value, 1, 2))).toEqual([1, 1.5, 2]);
  });
  test('values that rise, of any sign', () => {
    expect(() => rising('f', [-2, -1, 0, 3])).not.toThrow();
    expect(() => rising('f', [7])).not.toThrow();
  });
});

describe('refuses', () => {
  const finite = 'a finite number above 0';
  test.each<[string, () => unknown, string]>([
    ['0 where it has to be above', () => positive('f', 0), `f: wants ${finite}, got 0`],
    ['below 0', () => positive('f', -1), `f: wants ${finite}, got -1`],
    ['an endless number', () => positive('f', Infinity), `f: wants ${finite}, got Infinity`],
    ['none', () => positive('f', NaN), `f: wants ${finite}, got NaN`],
    ['the second of two', () => needPositive('f', { a: 1, b: 0 }), `f: b: wants ${finite}, got 0`],
    [
      'below 0 where 0 is the least',
      () => needNonNegative('f', { a: 0, b: -1e-300 }),
      'f: b: wants a finite number of 0 or more, got -1e-300',
    ],
    [
      'an endless number where 0 is the least',
      () => needNonNegative('f', { a: Infinity }),
      'f: a: wants a finite number of 0 or more, got Infinity',
    ],
    ['below an interval', () => between('f', 0.9, 1, 2), 'f: wants a number from 1 to 2, got 0.9'],
    ['above an interval', () => between('f', 2.1, 1, 2), 'f: wants a number from 1 to 2, got 2.1'],
    [
      'an endless end',
      () => between('f', Infinity, 1, Infinity),
      'f: wants a number from 1 to Infinity, got Infinity',
    ],
    ['two alike', () => rising('f', [1, 1]), 'f: wants finite rising values, got 1, 1'],
    ['a fall', () => rising('f', [1, 3, 2]), 'f: wants finite rising values, got 1, 3, 2'],
    ['one that is none', () => rising('f', [NaN]), 'f: wants finite rising values, got NaN'],
    ['an endless rise', () => rising('f', [1, Infinity]), 'f: wants finite rising values, got 1, Infinity'],
  ])('%s', (_, call, message) => {
    expect(call).toThrow(message);
  });
});
