import { describe, expect, test } from 'vitest';
import type { Vec2 } from '../../../src/core/mesh/mesh.ts';
import { chained, type Piece } from '../../../src/core/section/line-chains.ts';

/** A piece between two vertices that lie at (number, 0), or from or to a place between vertices. */
const piece = (from: number | null, to: number | null, ends?: [Vec2, Vec2]): Piece => ({
  from,
  to,
  ends: ends ?? [
    [from ?? 0, 0],
    [to ?? 0, 0],
  ],
});
const line = (...xs: number[]): Vec2[] => xs.map((x) => [x, 0]);

describe('pieces are joined at the vertices they share', () => {
  test.each<[string, Piece[], Vec2[][]]>([
    ['in order', [piece(1, 2), piece(2, 4), piece(4, 7)], [line(1, 2, 4, 7)]],
    ['the middle one first', [piece(2, 4), piece(1, 2), piece(4, 7)], [line(1, 2, 4, 7)]],
    ['each turned round', [piece(2, 1), piece(4, 2), piece(7, 4)], [line(7, 4, 2, 1)]],
    ['some turned round', [piece(2, 4), piece(2, 1), piece(7, 4)], [line(1, 2, 4, 7)]],
    ['apart', [piece(1, 2), piece(4, 7)], [line(4, 7), line(1, 2)]],
    ['from vertex 0 on', [piece(0, 1), piece(3, 0)], [line(3, 0, 1)]],
  ])('%s', (_, pieces, lines) => {
    expect(chained(pieces, 0)).toEqual(lines);
  });

  test('a ring comes back to where it begins', () => {
    const corners: Vec2[] = [
      [0, 0],
      [4, 0],
      [4, 3],
    ];
    const side = (from: number, to: number) => piece(from, to, [corners[from]!, corners[to]!]);
    expect(chained([side(0, 1), side(1, 2), side(2, 0)], 0)).toEqual([[...corners, corners[0]]]);
  });

  test('where three meet all lines end', () => {
    expect(chained([piece(1, 2), piece(2, 4), piece(2, 7), piece(7, 9)], 0)).toEqual([
      line(2, 7, 9),
      line(2, 4),
      line(1, 2),
    ]);
  });

  test('an end between vertices joins nothing', () => {
    const open: Vec2[] = line(1, 3);
    const [ahead, behind] = [
      piece(1, null, [open[0]!, open[1]!]),
      piece(null, 8, [
        [3, 0],
        [8, 0],
      ]),
    ];
    expect(chained([behind, ahead, piece(0, 1)], 0)).toEqual([line(3, 8), line(0, 1, 3)]);
  });
});

describe('lines shorter than the least are left out', () => {
  // 3-4-5 and 6-8-10: as long as their legs say.
  const slanted = [
    piece(1, 2, [
      [0, 0],
      [3, 4],
    ]),
    piece(2, 3, [
      [3, 4],
      [9, 12],
    ]),
    piece(5, 6, [
      [2, 2],
      [2, 16.5],
    ]),
  ];
  test.each([
    [14.5, 2],
    [14.6, 1],
    [15, 1],
    [15.1, 0],
  ])('%d leaves %i of 15 and 14.5', (least, count) => {
    expect(chained(slanted, least)).toHaveLength(count);
  });
  test('the longest comes first', () => {
    expect(chained(slanted.toReversed(), 0).map((found) => found.length)).toEqual([3, 2]);
  });
});

test('nothing gives nothing', () => {
  expect(chained([], 0)).toEqual([]);
});
