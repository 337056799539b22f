import { expect, test } from 'vitest';
import { coarsened } from '../../../../src/core/fill/grid/coarsened.ts';
import { cutCavity } from '../../../../src/core/fill/grid/cavity.ts';
import { bait, mapOf } from './maps.ts';

test('a strip of even height keeps height, place and volume', () => {
  const map = mapOf({ nx: 8, ny: 4, cell: 1e-3 }, () => 2e-3);
  const coarse = coarsened({ map, gate: [0, 8, 16, 24] });
  expect(coarse.map).toMatchObject({ nx: 4, ny: 2, cell: 2e-3 });
  expect([...coarse.map.height]).toEqual(Array.from({ length: 8 }, () => 2e-3));
  expect(coarse.map.x0).toBeCloseTo(1e-3, 12);
  expect(coarse.map.y0).toBeCloseTo(-1e-3, 12);
  expect(coarse.gate).toEqual([0, 4]);
});

test('a wedge takes the mean of four heights', () => {
  const map = mapOf({ nx: 4, ny: 2, cell: 1e-3 }, (x) => x);
  const { height } = coarsened({ map, gate: [0] }).map;
  expect(height[0]).toBeCloseTo(1e-3, 12);
  expect(height[1]).toBeCloseTo(3e-3, 12);
});

test('a block with one cell of cavity is none, and a gate into it is dropped', () => {
  const map = mapOf({ nx: 4, ny: 2, cell: 1e-3 }, (x, y) => (x > 2e-3 || (x < 1e-3 && y < 0) ? 1e-3 : 0));
  const coarse = coarsened({ map, gate: [0, 2] });
  expect([...coarse.map.height]).toEqual([0, 1e-3]);
  expect(coarse.gate).toEqual([1]);
});

test('the volume of a bait changes by what its rim loses, a few per cent', () => {
  const map = bait(0.5e-3);
  const volume = (of: typeof map, gate: number) =>
    cutCavity(of, [gate]).volume.reduce((sum, one) => sum + one, 0);
  const nose = map.height.findIndex((height, place) => height > 0 && place % map.nx === 4);
  const coarse = coarsened({ map, gate: [nose] });
  expect(Math.abs(volume(coarse.map, coarse.gate[0]!) / volume(map, nose) - 1)).toBeLessThan(0.04);
});

test('a pitch that is not positive is refused', () => {
  const map = { ...mapOf({ nx: 2, ny: 2, cell: 1e-3 }, () => 1e-3), cell: 0 };
  expect(() => coarsened({ map, gate: [] })).toThrow('coarsened: cell: wants');
});
