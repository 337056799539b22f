import { expect, test } from 'vitest';
import { sha256 } from '../../src/io/digest.ts';
import { fallsTo, shardOf } from '../../src/site/analysis/shard.ts';

test.each([
  ['1/1', { index: 1, count: 1 }],
  ['3/16', { index: 3, count: 16 }],
  ['0/3', undefined],
  ['4/3', undefined],
  ['1/0', undefined],
  ['1/5000', undefined],
  ['1.5/3', undefined],
  [' 1/3', undefined],
])('%s', (text, shard) => {
  expect(shardOf(text)).toEqual(shard);
});

test('16 parts: every piece in one of them, none with more than 1.3 times its share of 10 000', () => {
  const addresses = Array.from({ length: 10_000 }, (_, i) => sha256(String(i)));
  const sizes = Array.from({ length: 16 }, (_, i) => {
    const shard = { index: i + 1, count: 16 };
    return addresses.filter((address) => fallsTo(shard, { address })).length;
  });
  expect(sizes.reduce((sum, size) => sum + size, 0)).toBe(10_000);
  expect(Math.max(...sizes)).toBeLessThan((1.3 * 10_000) / 16);
});
