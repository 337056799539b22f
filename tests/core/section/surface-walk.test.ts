import { describe, expect, test } from 'vitest';
import type { Vec3 } from '../../../src/core/mesh/mesh.ts';
import { nextCorner, turnBeyond, walkedMesh } from '../../../src/core/section/surface-walk.ts';
import { once } from '../../support/once.ts';
import { BEFORE, foldedBar } from '../../support/folded-bar.ts';
import { mapped, meshOf, torus } from '../../support/solids.ts';

const MM = 1e-3;
const LIMITS = { gap: 1 * MM, reach: 4 * MM };
const DEGREE = Math.PI / 180;

describe('a mesh to walk on', () => {
  const mesh = torus(20, 5, 7, 5);
  const walked = once(() => walkedMesh(mesh));
  const { positions: p, triangles } = mesh;
  const ends = (edge: number) => [triangles[edge]!, triangles[nextCorner(edge)]!] as const;

  test('corners of a triangle follow one another', () => {
    expect([0, 1, 2, 3, 4, 5].map(nextCorner)).toEqual([1, 2, 0, 4, 5, 3]);
  });

  test('opposite half edges join the same vertices the other way round', () => {
    expect(walked().positions).toBe(p);
    expect(walked().triangles).toBe(triangles);
    for (let edge = 0; edge < triangles.length; edge++) {
      const other = walked().opposite[edge]!;
      expect(ends(other)).toEqual([ends(edge)[1], ends(edge)[0]]);
      expect(walked().opposite[other]).toBe(edge);
    }
  });

  test('normals: of unit length, square to both sides, away from the circle in the middle of the tube', () => {
    for (let t = 0; t < triangles.length; t += 3) {
      const at = (corner: number) => [0, 1, 2].map((axis) => p[3 * triangles[t + corner]! + axis]!);
      const [a, b, c] = [at(0), at(1), at(2)];
      const normal = [...walked().normals.slice(t, t + 3)];
      const dot = (u: number[], v: number[]) => u.reduce((sum, value, axis) => sum + value * v[axis]!, 0);
      const less = (u: number[], v: number[]) => u.map((value, axis) => value - v[axis]!);
      expect(dot(normal, normal)).toBeCloseTo(1, 12);
      expect(dot(normal, less(b, a))).toBeCloseTo(0, 9);
      expect(dot(normal, less(c, a))).toBeCloseTo(0, 9);
      const middle = a.map((_, axis) => (a[axis]! + b[axis]! + c[axis]!) / 3);
      const ring = 20 / Math.hypot(middle[0]!, middle[1]!);
      expect(dot(normal, less(middle, [middle[0]! * ring, middle[1]! * ring, 0]))).toBeGreaterThan(0);
    }
  });

  test('an edge without another side has none, one of three faces pairs two of them', () => {
    const points: Vec3[] = [
      [0, 0, 0],
      [1, 0, 0],
      [0, 1, 0],
      [0, 0, 1],
      [0, -1, 0],
    ];
    expect([...walkedMesh(meshOf(points, [[0, 1, 2]])).opposite]).toEqual([-1, -1, -1]);
    // Edge 0 → 1 twice, 1 → 0 once.
    const fan = walkedMesh(
      meshOf(points, [
        [0, 1, 2],
        [0, 1, 3],
        [1, 0, 4],
      ]),
    ).opposite;
    const paired = [...fan.keys()].filter((edge) => fan[edge]! >= 0);
    expect(paired).toEqual([fan[6], 6]);
    expect([0, 3]).toContain(fan[6]);
  });

  test('a triangle without an area has a normal of zeros', () => {
    const flat = meshOf(
      [
        [0, 0, 0],
        [1, 1, 1],
        [2, 2, 2],
      ],
      [[0, 1, 2]],
    );
    expect([...walkedMesh(flat).normals]).toEqual([0, 0, 0]);
  });
});

/** Turn and way beyond one fold of a bar, going on towards the later folds (`on`) or back. */
function beyond(
  folds: number[],
  gaps: number[],
  fold: number,
  way: 'on' | 'back',
  sense: 1 | -1 = 1,
  limits = LIMITS,
) {
  const { mesh, around } = foldedBar(folds, gaps, { length: 0.03, steps: 3 });
  // Turned about two axes, so that nothing runs along one.
  const [c, s] = [Math.cos(0.7), Math.sin(0.7)];
  const walked = walkedMesh(
    mapped(mesh, ([x, y, z]): Vec3 => {
      const [u, v] = [c * x - s * y, s * x + c * y];
      return [u, c * v - s * z, s * v + c * z];
    }),
  );
  const vertex = 1 + around + BEFORE + fold;
  const onFold = Array.from(walked.triangles.keys()).filter((edge) => {
    const ends = [walked.triangles[edge]!, walked.triangles[nextCorner(edge)]!];
    return ends.includes(vertex) && ends.includes(vertex + around);
  });
  // The third corner of the triangle lies on the later fold or on the earlier one.
  const edge = onFold.find((one) => {
    const third = walked.triangles[nextCorner(nextCorner(one))]!;
    return ((third - vertex + 10 * around) % around === 1) === (way === 'on');
  })!;
  return turnBeyond(walked, edge, sense, limits);
}

describe('how far a surface turns on', () => {
  test.each<[string, Parameters<typeof beyond>, turn: number, way: number]>([
    ['flat', [[20], [], 0, 'on'], 0, 0],
    ['one more fold', [[20, 15], [0.3 * MM], 0, 'on'], 15, 0.3 * MM],
    ['the same fold from its other side', [[20, 15], [0.3 * MM], 1, 'back'], 20, 0.3 * MM],
    ['nothing before the first', [[20, 15], [0.3 * MM], 0, 'back'], 0, 0],
    [
      'three, the way is that to the last',
      [[20, 15, 10, 5], [0.3 * MM, 0.4 * MM, 0.5 * MM], 0, 'on'],
      30,
      1.2 * MM,
    ],
    ['two before and none beyond', [[20, 15, 10], [0.3 * MM, 0.4 * MM], 2, 'back'], 35, 0.7 * MM],
    ['one beyond a gap is not met', [[20, 15, 10], [0.3 * MM, 1.01 * MM], 0, 'on'], 15, 0.3 * MM],
    ['one just within the gap is', [[20, 15, 10], [0.3 * MM, 0.99 * MM], 0, 'on'], 25, 1.29 * MM],
    [
      'a turn the other way ends it',
      [[20, 15, -10, 15], [0.3 * MM, 0.3 * MM, 0.3 * MM], 0, 'on'],
      15,
      0.3 * MM,
    ],
    [
      'a ripple the other way is passed over',
      [[20, 15, -1.9, 15], [0.3 * MM, 0.3 * MM, 0.3 * MM], 0, 'on'],
      30,
      0.9 * MM,
    ],
    ['a ripple the same way is not counted', [[20, 1.9, 15], [0.3 * MM, 0.3 * MM], 0, 'on'], 15, 0.6 * MM],
    ['concave folds, followed as such', [[-20, -15, -10], [0.3 * MM, 0.3 * MM], 0, 'on', -1], 25, 0.6 * MM],
    ['concave folds end a convex walk', [[20, -15, 10], [0.3 * MM, 0.3 * MM], 0, 'on'], 0, 0],
    ['convex folds end a concave walk', [[-20, 15], [0.3 * MM], 0, 'on', -1], 0, 0],
  ])('%s', (_, args, turn, way) => {
    const got = beyond(...args);
    expect(got.turn / DEGREE).toBeCloseTo(turn, 6);
    expect(got.way / MM).toBeCloseTo(way / MM, 6);
  });

  test('what still turns when the reach is walked turns without end', () => {
    const folds = [10, 10, 10, 10, 10, 10];
    const gaps = Array(5).fill(0.9 * MM) as number[];
    // Fifth fold at 4.5 mm.
    expect(beyond(folds, gaps, 0, 'on')).toEqual({ turn: Infinity, way: expect.closeTo(3.6 * MM, 9) });
    expect(beyond(folds, gaps, 1, 'on').turn / DEGREE).toBeCloseTo(40, 6);
    expect(beyond(folds, gaps, 0, 'on', 1, { gap: MM, reach: 5 * MM }).turn / DEGREE).toBeCloseTo(50, 6);
  });

  test('an edge of the mesh ends it', () => {
    // A strip of two triangles: beyond its far side is nothing.
    const strip = meshOf(
      [
        [0, 0, 0],
        [1, 0, 0],
        [1, 0.001, 0],
        [0, 0.001, 0],
      ],
      [
        [0, 1, 2],
        [0, 2, 3],
      ],
    );
    expect(turnBeyond(walkedMesh(strip), 0, 1, { gap: 1, reach: 2 })).toEqual({ turn: 0, way: 0 });
  });
});
