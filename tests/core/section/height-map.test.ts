import { describe, expect, test } from 'vitest';
import { boxTree } from '../../../src/core/section/box-tree.ts';
import { heightMap, ballMap } from '../../../src/core/section/height-map.ts';
import { stretchesInside } from '../../../src/core/section/inside.ts';
import { ballAbout } from '../../../src/core/section/thickness.ts';
import { once } from '../../support/once.ts';
import { box, ellipsoid, joined } from '../../support/solids.ts';

describe('a plate of 5 by 3 and 1 high, from (10, 20, −2)', () => {
  const tree = once(() => boxTree(box([5, 3, 1], [10, 20, -2])));
  test('in cells of 1: all of them full', () => {
    const full = (value: number) => new Float64Array(15).fill(value);
    const map = ballMap(tree(), 1).map;
    expect(map).toEqual({
      nx: 5,
      ny: 3,
      x0: 10.5,
      y0: 20.5,
      cell: 1,
      height: full(1),
      bottom: full(-2),
      top: full(-1),
      thickness: expect.anything() as unknown,
    });
    for (const thickness of map.thickness) expect(Math.abs(thickness - 1)).toBeLessThan(1e-3);
  });

  test('in cells that do not tile it: one more, about the middle of the plan', () => {
    const { nx, ny, x0, y0, height } = ballMap(tree(), 2).map;
    expect([nx, ny, x0, y0]).toEqual([3, 2, 10.5, 20.5]);
    expect([...height]).toEqual([1, 1, 1, 1, 1, 1]);
    // Six of 0.9 along x, from 10.25 on; four along y, from 20.15.
    const fine = ballMap(tree(), 0.9).map;
    expect([fine.nx, fine.ny, fine.height.length]).toEqual([6, 4, 24]);
    expect(fine.x0).toBeCloseTo(12.5 - 2.5 * 0.9, 12);
    expect(fine.y0).toBeCloseTo(21.5 - 1.5 * 0.9, 12);
  });

  test('of rows by the four: empty ones beside it, about the middle of the plan', () => {
    const { nx, ny, x0, y0, height } = heightMap(tree(), 1, new Float64Array(), 4);
    expect([nx, ny, x0, y0]).toEqual([5, 4, 10.5, 20]);
    // Middles at y = 20, 21, 22 and 23: the first lies on the edge, the last beyond or on the other.
    expect([...height.subarray(5, 15)]).toEqual(Array(10).fill(1));
  });

  test.each([0, -1, NaN])('a pitch of %d is refused', (pitch) => {
    expect(() => ballMap(tree(), pitch)).toThrow(
      /^heightMap: wants a pitch above 0 that gives up to 1000000 cells, got/u,
    );
  });
  test('more than a million cells are refused', () => {
    expect(() => ballMap(tree(), 0.0031)).toThrow(
      `heightMap: wants a pitch above 0 that gives up to 1000000 cells, got 0.0031 m for ${1613 * 968}`,
    );
  });
});

test('two decks: heights add up, from the lowest bottom to the highest top; nothing beside them', () => {
  const decks = joined(box([2, 2, 1]), box([1, 2, 2], [1, 0, 5]), box([1, 1, 1], [3, 0, 0]));
  const { nx, ny, height, bottom, top, thickness } = ballMap(boxTree(decks), 1).map;
  expect([nx, ny]).toEqual([4, 2]);
  expect([...height]).toEqual([1, 3, 0, 1, 1, 3, 0, 0]);
  expect([...bottom]).toEqual(Array(8).fill(0));
  expect([...top]).toEqual([1, 7, 0, 1, 1, 7, 0, 0]);
  expect([...thickness].map((value) => value > 0)).toEqual([
    true,
    true,
    false,
    true,
    true,
    true,
    false,
    false,
  ]);
});

describe('balls about columns', () => {
  const about = (tree: ReturnType<typeof boxTree>, cell: number) => {
    const { nx, ny, x0, y0 } = ballMap(tree, cell).map;
    return Array.from({ length: nx * ny }, (_, place) => {
      const [x, y] = [x0 + (place % nx) * cell, y0 + Math.floor(place / nx) * cell];
      return stretchesInside(tree, x, y).map(([low, high]) => ballAbout(tree, [x, y, (low + high) / 2]));
    }).flat();
  };
  const rows = (balls: Float64Array) =>
    Array.from({ length: balls.length / 4 }, (_, k) => [...balls.subarray(4 * k, 4 * k + 4)]);
  const sorted = (list: number[][]) =>
    list.map((row) => row.map((value) => value.toFixed(4)).join(' ')).sort();

  test('of a solid that is no mirror image: one a column, row by row', () => {
    const tree = boxTree(joined(ellipsoid([6, 4, 1.5], 12, 16), box([2, 2, 0.5], [7, 1, 0])));
    const wanted = about(tree, 0.5).map(({ thickness, at }) => [thickness, ...at]);
    expect(rows(ballMap(tree, 0.5).balls)).toEqual(wanted);
  });

  test.each([0.5, 0.47])('of a mirrored one: those of the upper half and their images (pitch %d)', (cell) => {
    const tree = boxTree(ellipsoid([6, 4, 1.5], 12, 16));
    const balls = rows(ballMap(tree, cell).balls);
    expect(sorted(balls.map(([size, x, y, z]) => [size!, x!, 0 - y!, z!]))).toEqual(sorted(balls));
    const upper = ([, , y]: number[]) => y! > 0.3;
    const wanted = about(tree, cell).map(({ thickness, at }) => [thickness, ...at]);
    expect(balls).toHaveLength(wanted.length);
    expect(sorted(balls.filter(upper))).toEqual(sorted(wanted.filter(upper)));
  });
});

test('thickness of a cell is the largest ball about a column that reaches over its middle', () => {
  const tree = boxTree(joined(ellipsoid([6, 4, 1.5], 12, 16), box([2, 2, 0.5], [7, 1, 0])));
  const { nx, ny, x0, y0, cell, thickness } = ballMap(tree, 0.5).map;
  const middle = (place: number) => [x0 + (place % nx) * cell, y0 + Math.floor(place / nx) * cell] as const;
  const balls = Array.from({ length: nx * ny }, (_, place) => {
    const [x, y] = middle(place);
    return stretchesInside(tree, x, y).map(([low, high]) => ballAbout(tree, [x, y, (low + high) / 2]));
  }).flat();
  thickness.forEach((got, place) => {
    const [x, y] = middle(place);
    const over = balls.filter(
      ({ thickness: size, at }) => Math.hypot(x - at[0], y - at[1]) <= (size / 2) * (1 + 1e-6),
    );
    expect(got).toBe(Math.max(0, ...over.map((ball) => ball.thickness)));
  });
});
