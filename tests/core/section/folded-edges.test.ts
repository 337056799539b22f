import { describe, expect, test } from 'vitest';
import type { Mesh, Vec3 } from '../../../src/core/mesh/mesh.ts';
import { foldedEdges, foldedMesh } from '../../../src/core/section/folded-edges.ts';
import { BEFORE, foldedBar } from '../../support/folded-bar.ts';
import { box, mapped, meshOf } from '../../support/solids.ts';

const STEPS = 5;
const MM = 1e-3;

/** Which folds of a bar are creases, and of what kind; all steps of a fold must agree. */
function creases(folds: readonly number[], gaps: readonly number[]): string {
  const { mesh, around } = foldedBar(folds, gaps, { steps: STEPS });
  const found = foldedEdges(foldedMesh(mesh), [0, 0, 1]).filter(({ kind }) => kind !== 'contour');
  const foldOf = (vertex: number) => ((vertex - 1) % around) - BEFORE;
  for (const { from, to } of found) expect(foldOf(from)).toBe(foldOf(to));
  return folds
    .map((_, fold) => {
      const own = found.filter(({ from }) => foldOf(from) === fold);
      expect([0, STEPS]).toContain(own.length);
      return own.length === 0 ? '-' : own[0]!.kind;
    })
    .join(' ');
}

describe('what is a crease', () => {
  test.each<[string, number[], number[], string]>([
    ['a fold of 31°', [31], [], 'ridge'],
    ['a fold of 29° is none', [29], [], '-'],
    ['one of 31° the other way is a groove', [-31], [], 'groove'],
    ['one of −29° is none', [-29], [], '-'],
    ['two of 16° half a millimetre apart: they share the turn', [16, 16], [0.5 * MM], 'ridge ridge'],
    ['two of −16°', [-16, -16], [0.5 * MM], 'groove groove'],
    ['two of 16° farther apart than 1 mm belong to none', [16, 16], [1.05 * MM], '- -'],
    // 32° on a radius of 1.8 mm are 1.005 mm.
    ['two of 16° 0.98 mm apart', [16, 16], [0.98 * MM], 'ridge ridge'],
    ['three of 12°: the middle one stands for them', [12, 12, 12], [0.4 * MM, 0.4 * MM], '- ridge -'],
    // 36° on a radius of 1.8 mm are 1.13 mm.
    ['three of 12° over 1.1 mm', [12, 12, 12], [0.55 * MM, 0.55 * MM], '- ridge -'],
    ['three of 12° over 1.2 mm: too round', [12, 12, 12], [0.6 * MM, 0.6 * MM], '- - -'],
    ['both of 20° and 22.9° are the middle', [20, 22.9], [0.1 * MM], 'ridge ridge'],
    ['of 20° and 23.1°, more than 1.15 of it, the larger is', [20, 23.1], [0.1 * MM], '- ridge'],
    // 105° in all, more than 100°.
    ['three of 35° within half a millimetre', [35, 35, 35], [0.24 * MM, 0.24 * MM], '- ridge -'],
    ['three of 35° over more than that are a round', [35, 35, 35], [0.26 * MM, 0.26 * MM], '- - -'],
    ['three of 33°, not 100°, may take more', [33, 33, 33], [0.3 * MM, 0.3 * MM], '- ridge -'],
    [
      'five of 8.5°: the middle one',
      [8.5, 8.5, 8.5, 8.5, 8.5],
      Array(4).fill(0.2 * MM) as number[],
      '- - ridge - -',
    ],
    [
      'five of 7.5°: no fold of 8°',
      [7.5, 7.5, 7.5, 7.5, 7.5],
      Array(4).fill(0.2 * MM) as number[],
      '- - - - -',
    ],
    // Ripples below 0.035 rad = 2.005° are not counted.
    ['14.5°, 2.1° and 14.5° make 31.1°', [14.5, 2.1, 14.5], [0.2 * MM, 0.2 * MM], 'ridge - ridge'],
    ['14.5°, 1.9° and 14.5° make 29°', [14.5, 1.9, 14.5], [0.2 * MM, 0.2 * MM], '- - -'],
    ['a fold the other way between two ends both', [16, -3, 16], [0.2 * MM, 0.2 * MM], '- - -'],
    ['a ripple the other way does not', [16, -1.9, 16], [0.2 * MM, 0.2 * MM], 'ridge - ridge'],
    ['a step: ridge and groove', [40, -40], [0.5 * MM], 'ridge groove'],
  ])('%s', (_, folds, gaps, expected) => {
    expect(creases(folds, gaps)).toBe(expected);
  });
});

describe('a box', () => {
  const size: Vec3 = [3, 2, 1];
  const edges = (mesh: Mesh) =>
    foldedEdges(foldedMesh(mesh), [0, 0, 1]).map(({ from, to, kind, outwards }) => {
      const at = (vertex: number) =>
        [...mesh.positions.slice(3 * vertex, 3 * vertex + 3)].map((v) => +v.toFixed(9));
      return { ends: [at(from), at(to)].map((point) => point.join(' ')).sort(), kind, outwards };
    });

  test('seen from above has the four edges of its top for a contour, half-way between top and wall', () => {
    const half = Math.SQRT1_2;
    const close = (x: number, y: number) => [
      expect.closeTo(x, 12),
      expect.closeTo(y, 12),
      expect.closeTo(half, 12),
    ];
    const found = edges(box(size)).sort((a, b) => a.ends.join().localeCompare(b.ends.join()));
    expect(found).toEqual([
      { ends: ['0 0 1', '0 2 1'], kind: 'contour', outwards: close(-half, 0) },
      { ends: ['0 0 1', '3 0 1'], kind: 'contour', outwards: close(0, -half) },
      { ends: ['0 2 1', '3 2 1'], kind: 'contour', outwards: close(0, half) },
      { ends: ['3 0 1', '3 2 1'], kind: 'contour', outwards: close(half, 0) },
    ]);
  });

  test('widened towards its foot shows four ridges down its corners too, and the edges of its foot', () => {
    const tent = mapped(box(size), ([x, y, z]) => [x + (x - 1.5) * (1 - z), y + (y - 1) * (1 - z), z]);
    const kinds = edges(tent)
      .map(({ kind }) => kind)
      .sort();
    // Its top and its corners fold sharply; at its foot the walls meet a bottom that looks away.
    expect(kinds).toEqual([...Array<string>(4).fill('contour'), ...Array<string>(8).fill('ridge')]);
  });

  test('what looks away is left out: upside down it is the same', () => {
    const over = mapped(box(size), ([x, y, z]) => [x, -y, -z]);
    expect(edges(over).map(({ kind }) => kind)).toEqual(Array(4).fill('contour'));
  });
});

test('an edge without another side is left out, whichever way its face looks', () => {
  const points: Vec3[] = [
    [0, 0, 0],
    [1, 0, 0],
    [0, 1, 0],
  ];
  expect(foldedEdges(foldedMesh(meshOf(points, [[0, 2, 1]])), [0, 0, 1])).toEqual([]);
  expect(foldedEdges(foldedMesh(meshOf(points, [[0, 1, 2]])), [0, 0, 1])).toEqual([]);
});

test('outwards is a unit vector', () => {
  const { mesh } = foldedBar([40, -50, 35], [2 * MM, 3 * MM]);
  for (const { outwards } of foldedEdges(foldedMesh(mesh), [0, 0, 1]))
    expect(Math.hypot(...outwards)).toBeCloseTo(1, 12);
});
