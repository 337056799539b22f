import { describe, expect, test } from 'vitest';
import { innerEdges } from '../../src/drawing/inner-edges.ts';
import type { Point } from '../../src/drawing/picture.ts';

// A view 40 mm by 20 mm at 1:1; lines across it, from rim to rim.
const VIEW = { factor: 1 };
const OUTLINE: Point[][] = [
  [
    [0, -10],
    [40, -10],
    [40, 10],
    [0, 10],
  ],
];
const across = (mm: number, reach = 10) =>
  [
    [mm / 1000, -reach / 1000],
    [mm / 1000, reach / 1000],
  ] as const;
const seen = (grooves: number[], ridges: number[] = []) => ({
  contours: [],
  grooves: grooves.map((x) => across(x)),
  ridges: ridges.map((x) => across(x)),
});
const runs = (line: string, picture: ReturnType<typeof innerEdges>) =>
  picture.paths.filter((path) => path.line === line).flatMap((path) => path.runs);
const places = (picture: ReturnType<typeof innerEdges>) =>
  runs('visibleEdge', picture).map(([start]) => Number(start![0].toFixed(6)));

describe('narrow lines', () => {
  test('end 0.8 mm from the outline', () => {
    const [run] = runs('visibleEdge', innerEdges(seen([20]), OUTLINE, VIEW));
    const ys = run!.map(([, y]) => y);
    // Lines are looked at every 0.2 mm.
    expect(Math.max(...ys)).toBeLessThanOrEqual(9.2);
    expect(Math.max(...ys)).toBeGreaterThanOrEqual(9);
    expect(Math.min(...ys)).toBeGreaterThanOrEqual(-9.2);
  });

  test('keep 0.7 mm apart: grooves go before ridges', () => {
    expect(places(innerEdges(seen([20, 24], [20.5, 22, 24.6]), OUTLINE, VIEW))).toEqual([20, 24, 22]);
  });

  test('at half the size fewer find room', () => {
    const all = [20, 21, 22, 23];
    expect(places(innerEdges(seen(all), OUTLINE, VIEW))).toEqual(all);
    expect(places(innerEdges(seen(all), OUTLINE, { factor: 0.5 }))).toEqual([10, 11]);
  });

  test('that cross are both drawn', () => {
    const along = [
      [0.005, 0],
      [0.035, 0],
    ] as const;
    const picture = innerEdges({ contours: [], ridges: [along], grooves: [across(20)] }, OUTLINE, VIEW);
    expect(runs('visibleEdge', picture).length).toBe(2);
  });

  test('a speck is left out', () => {
    const speck = across(20, 0.6);
    expect(
      runs('visibleEdge', innerEdges({ contours: [], ridges: [speck], grooves: [] }, OUTLINE, VIEW)),
    ).toEqual([]);
  });
});

test('contours are wide, as the outline, and ridges beside them give way', () => {
  const picture = innerEdges({ contours: [across(20)], ridges: [across(20.3)], grooves: [] }, OUTLINE, VIEW);
  expect(runs('visible', picture).length).toBe(1);
  expect(runs('visibleEdge', picture)).toEqual([]);
});
