import { band, type Band } from '../quantity/band.ts';

/** One of the three numbers of a band. */
export type End = keyof Band;

/**
 * A band made end by end: its low from all lows, its high from all highs, so that sums stay exact at every end.
 *
 * @param at - the number at one end, any unit
 * @returns the band in the unit of `at`; never out of order
 * @throws {RangeError} when a number is not finite
 *
 * Cost: three calls.
 * Source: definition.
 */
export function endwise(at: (end: End) => number): Band {
  const [value, low, high] = [at('value'), at('low'), at('high')];
  return band(value, Math.min(low, value), Math.max(high, value));
}

/**
 * Sum of bands, end by end.
 *
 * @param bands - all in one unit, any
 * @returns the sum in that unit
 *
 * Cost: linear in the bands.
 * Source: definition.
 */
export function sum(bands: readonly Band[]): Band {
  return endwise((end) => bands.reduce((total, one) => total + one[end], 0));
}

/**
 * A band times a number, end by end.
 *
 * @param one - the band, any unit
 * @param factor - 0 or more [1]
 * @returns the product in the unit of `one`
 *
 * Cost: constant.
 * Source: definition.
 */
export function times(one: Band, factor: number): Band {
  return endwise((end) => one[end] * factor);
}
