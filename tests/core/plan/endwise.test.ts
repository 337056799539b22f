import { describe, expect, test } from 'vitest';
import { endwise, sum, times } from '../../../src/core/plan/endwise.ts';
import { band } from '../../../src/core/quantity/band.ts';

describe('end by end', () => {
  test('each number comes from its own end', () => {
    expect(endwise((end) => ({ value: 2, low: 1, high: 4 })[end])).toEqual({ value: 2, low: 1, high: 4 });
  });
  test('a low above the nominal, or a high below it, is the nominal', () => {
    expect(endwise((end) => ({ value: 2, low: 3, high: 1 })[end])).toEqual({ value: 2, low: 2, high: 2 });
  });
  test('a number that is not finite is refused', () => {
    expect(() => endwise(() => NaN)).toThrow(RangeError);
  });
  test('sums and products', () => {
    expect(sum([band(2, 1, 4), band(30, 20, 50)])).toEqual({ value: 32, low: 21, high: 54 });
    expect(sum([])).toEqual({ value: 0, low: 0, high: 0 });
    expect(times(band(2, 1, 4), 3)).toEqual({ value: 6, low: 3, high: 12 });
  });
});
