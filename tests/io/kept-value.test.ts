import { describe, expect, test } from 'vitest';
import { sha256 } from '../../src/io/digest.ts';
import { packed, unpacked, type Packed } from '../../src/io/kept-value.ts';

const large = () => ({ positions: Float64Array.from({ length: 5000 }, (_, i) => Math.sin(i)) });

const readBack = ({ bytes, apart }: Packed) =>
  unpacked(bytes, (digest) => apart.get(digest)!()).value as Record<string, unknown>;

describe('plain data comes back as it was', () => {
  test.each<[string, unknown]>([
    ['numbers that JSON has no word for', { a: Infinity, b: NaN, c: -0, d: undefined, e: null }],
    [
      'lists in lists, and lists of mixed things',
      [
        [1, 2],
        ['a', { b: [3] }],
        [null, [4]],
      ],
    ],
    ['maps and small typed arrays', { map: new Map([['a', 1]]), bytes: Uint8Array.of(1, 2) }],
    ['a property named like the prototype', JSON.parse('{"__proto__": {"a": [1]}, "b": 2}')],
  ])('%s', (_, value) => {
    expect(readBack(packed({ value }))['value']).toStrictEqual(value);
  });
});

describe('heavy objects', () => {
  test('stand by themselves, once for all that hold them, by the digest of their bytes', () => {
    const mesh = large();
    const { bytes, apart } = packed({ one: mesh, list: [mesh, { deep: mesh }] });
    expect(apart.size).toBe(1);
    for (const [digest, part] of apart) expect(sha256(part())).toBe(digest);
    expect(bytes.length).toBeLessThan(500);
    expect(readBack(packed({ one: mesh }))['one']).toStrictEqual(mesh);
  });

  test('have the same digest packed again, read back, or made anew of the same numbers', () => {
    const mesh = large();
    const digestOf = (value: unknown) => [...packed({ value }).apart.keys()];
    const first = digestOf(mesh);
    expect(digestOf(mesh)).toEqual(first);
    expect(digestOf(readBack(packed({ mesh }))['mesh'])).toEqual(first);
    expect(digestOf(large())).toEqual(first);
    // Also where they are not stored yet, as in another folder, their bytes can be had.
    for (const [digest, part] of packed({ again: mesh }).apart) expect(sha256(part())).toBe(digest);
  });
});
