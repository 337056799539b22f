import { need } from '../quantity/guard.ts';

const SIZE = /^(\d{1,2})(\/0)?$/u;

/**
 * Place of a hook size in the order from small to large.
 *
 * @param size - mark as written: `4`, `1`, `3/0`
 * @returns index [1]: −4, −1, 3; it orders sizes and carries no millimetres
 * @throws {RangeError} when the mark is not a size
 *
 * Cost: constant.
 * Source: trade convention, from memory; there is no dimensional standard for hooks.
 */
export function hookIndex(size: string): number {
  const match = SIZE.exec(size);
  const number = Number(match?.[1]);
  need(number >= 1, 'hookIndex', 'a size like 4, 1 or 3/0', size);
  return match![2] === undefined ? -number : number;
}
