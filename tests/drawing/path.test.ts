import fc from 'fast-check';
import { expect, test } from 'vitest';
import { hatching, hatchSpacing } from '../../src/drawing/hatch.ts';
import { pathData, simplified, simplifiedRing } from '../../src/drawing/path.ts';
import type { Point } from '../../src/drawing/picture.ts';

const circle = (radius: number, count: number): Point[] =>
  Array.from({ length: count }, (_, step) => {
    const angle = (2 * Math.PI * step) / count;
    return [radius * Math.cos(angle), radius * Math.sin(angle)];
  });

/** Points of path data with absolute M and relative l, read by the grammar of SVG. */
function readBack(data: string): Point[][] {
  return [...data.matchAll(/M([^Mz]*)z?/gu)].map(([, body = '']) => {
    const [start = '', steps = ''] = body.split('l');
    const numbers = (text: string) => (text.match(/-?(?:\d+\.\d+|\.\d+|\d+)/gu) ?? []).map(Number);
    const [x = 0, y = 0] = numbers(start);
    const run: Point[] = [[x, y]];
    const moves = numbers(steps);
    for (let index = 0; index < moves.length; index += 2) {
      const [px, py] = run.at(-1)!;
      run.push([px + moves[index]!, py + moves[index + 1]!]);
    }
    return run;
  });
}

test('path data keeps every point to 0.005 mm, without drift', () => {
  const coordinate = fc.double({ min: -300, max: 300, noNaN: true });
  fc.assert(
    fc.property(fc.array(fc.tuple(coordinate, coordinate), { minLength: 2, maxLength: 60 }), (points) => {
      const [back] = readBack(pathData([points], false));
      let next = 0;
      // Points that round to the same hundredth are written once.
      return points.every(([x, y]) => {
        while (next < back!.length && Math.hypot(back![next]![0] - x, back![next]![1] - y) > 0.0072) next++;
        return next < back!.length;
      });
    }),
    { seed: 5 },
  );
});

test('numbers are packed as the grammar allows', () => {
  expect(
    pathData(
      [
        [
          [0, 0],
          [0.5, 0.25],
          [0.4, 1.25],
          [3.4, 1.75],
        ],
      ],
      true,
    ),
  ).toBe('M0 0l.5.25-.1 1 3 .5z');
});

test('a simplified circle stays within the tolerance and keeps few points', () => {
  // Sagitta of a chord of a circle, r·(1 − cos(π/n)): 0.02 mm on 20 mm needs 71 chords or fewer points than 2·71.
  const ring = simplifiedRing(circle(20, 2000), 0.02);
  expect(ring.length).toBeLessThanOrEqual(142);
  for (let index = 0; index < ring.length; index++) {
    const [a, b] = [ring[index]!, ring[(index + 1) % ring.length]!];
    const middle = Math.hypot((a[0] + b[0]) / 2, (a[1] + b[1]) / 2);
    expect(20 - middle).toBeLessThanOrEqual(0.02 + 1e-4);
  }
});

test('a straight line keeps its ends only', () => {
  expect(
    simplified(
      Array.from({ length: 50 }, (_, x): Point => [x, 2 * x]),
      0.001,
    ),
  ).toEqual([
    [0, 0],
    [49, 98],
  ]);
});

test('hatching of a disc: 45°, evenly apart, as long in all as area over spacing', () => {
  const [radius, spacing] = [15, 1];
  for (const [lean, slope] of [
    ['right', -1],
    ['left', 1],
  ] as const) {
    const strokes = hatching([circle(radius, 720)], spacing, lean);
    let total = 0;
    for (const [from, to] of strokes) {
      total += Math.hypot(to![0] - from![0], to![1] - from![1]);
      expect((to![1] - from![1]) / (to![0] - from![0])).toBeCloseTo(slope, 6);
    }
    expect(Math.abs((total * spacing) / (Math.PI * radius ** 2) - 1)).toBeLessThan(0.02);
  }
});

test('hatching leaves a hole open', () => {
  const strokes = hatching([circle(10, 360), circle(6, 360).reverse()], 0.8, 'right');
  for (const [from, to] of strokes) {
    const middle = Math.hypot((from![0] + to![0]) / 2, (from![1] + to![1]) / 2);
    expect(middle).toBeGreaterThan(5.9);
  }
});

test('hatching is never closer than 0.7 mm', () => {
  for (const size of [0, 1, 5, 20, 200]) expect(hatchSpacing(size)).toBeGreaterThanOrEqual(0.7);
});
