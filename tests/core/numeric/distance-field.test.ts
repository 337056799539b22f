import { expect, test } from 'vitest';
import fc from 'fast-check';
import { squaredDistances } from '../../../src/core/numeric/distance-field.ts';

const grid = fc
  .tuple(fc.integer({ min: 1, max: 7 }), fc.integer({ min: 1, max: 6 }), fc.integer({ min: 1, max: 5 }))
  .chain((counts) => {
    const cells = counts[0] * counts[1] * counts[2];
    return fc.tuple(
      fc.constant(counts),
      fc.uint8Array({ minLength: cells, maxLength: cells, max: 1 }).filter((seeds) => seeds.includes(1)),
    );
  });

test('each cell has the square of the way to the nearest seed, as found by looking at all of them', () => {
  fc.assert(
    fc.property(grid, ([[nx, ny, nz], seeds]) => {
      const place = (cell: number) => [cell % nx, Math.floor(cell / nx) % ny, Math.floor(cell / (nx * ny))];
      const field = squaredDistances([nx, ny, nz], seeds);
      for (let cell = 0; cell < seeds.length; cell++) {
        const [i, j, k] = place(cell) as [number, number, number];
        let least = Infinity;
        seeds.forEach((seed, other) => {
          const [a, b, c] = place(other) as [number, number, number];
          if (seed) least = Math.min(least, (i - a) ** 2 + (j - b) ** 2 + (k - c) ** 2);
        });
        expect(field[cell]).toBe(least);
      }
    }),
    { numRuns: 300, seed: 7 },
  );
});

test('a grid without seeds is far from any', () => {
  expect(Math.min(...squaredDistances([3, 2, 2], new Uint8Array(12)))).toBeGreaterThanOrEqual(1e12);
});
