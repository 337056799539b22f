import { describe, expect, test } from 'vitest';
import { windingNumber } from '../../../src/core/mesh/bodies.ts';
import { edgeTrouble, isClosedSurface } from '../../../src/core/mesh/edges.ts';
import { nearWelded } from '../../../src/core/mesh/near-weld.ts';
import { pointIndex } from '../../../src/core/mesh/weld.ts';
import { box, flipped, meshOf, spindle, torus, turned } from '../../support/solids.ts';

describe('an index of points', () => {
  test('gives equal points one number however many come, expected or not', () => {
    for (const expected of [1, 5000]) {
      const index = pointIndex(expected);
      const numbers = () =>
        Array.from({ length: 5000 }, (_, i) => index.numberOf(i % 17, Math.floor(i / 17) * 0.1, -i));
      expect(numbers()).toEqual([...Array(5000).keys()]);
      expect(numbers()).toEqual([...Array(5000).keys()]);
      expect(index.points().length).toBe(15000);
    }
  });

  test('knows points apart that differ in the last bit', () => {
    const index = pointIndex(4);
    expect(index.numberOf(1, 1, 1)).toBe(0);
    expect(index.numberOf(1 + Number.EPSILON, 1, 1)).toBe(1);
    expect(index.numberOf(1, 1, 1 - Number.EPSILON / 2)).toBe(2);
  });

  test('takes -0 for 0 and stores 0', () => {
    const index = pointIndex(1);
    expect(index.numberOf(-0, 0, -0)).toBe(0);
    expect(index.numberOf(0, -0, 0)).toBe(0);
    expect([...index.points()].every((value) => Object.is(value, 0))).toBe(true);
  });

  test('is not fooled by points whose skew projection is the same', () => {
    const index = pointIndex(1);
    // Tiny against huge: the sum forgets the tiny one.
    expect(index.numberOf(1e30, 1, 0)).toBe(0);
    expect(index.numberOf(1e30, 2, 0)).toBe(1);
    expect(index.numberOf(1e30, 1, 0)).toBe(0);
  });
});

describe('joining near points', () => {
  const row = (...xs: number[]) =>
    meshOf(
      xs.map((x) => [x, 0, 0]),
      [[0, 1, xs.length - 1]],
    );

  test('joins what is in reach across the walls of its grid, and nothing else', () => {
    for (let step = 0; step < 40; step++) {
      const start = 1 + step * 0.013;
      const { joined, mesh } = nearWelded(row(0, start, start + 0.0999), 0.1);
      expect(joined).toBe(1);
      expect([...mesh.triangles]).toEqual([0, 1, 1]);
      expect(nearWelded(row(0, start, start + 0.1001), 0.1).joined).toBe(0);
    }
  });

  test('does not creep along a chain', () => {
    const { mesh } = nearWelded(row(0, 0.09, 0.18, 0.27, 0.36), 0.1);
    expect([...mesh.positions].filter((_, i) => i % 3 === 0)).toEqual([0, 0.18, 0.36]);
  });

  test('wants a tolerance', () => {
    expect(() => nearWelded(row(0, 1), 0)).toThrow('nearWelded: wants tolerance positive and finite, got 0');
  });
});

describe('edges', () => {
  test('a closed surface is one, turned over too; with a triangle less it is not', () => {
    for (const mesh of [box([1, 1, 1]), torus(3, 1, 12, 8)]) {
      expect(isClosedSurface(mesh)).toBe(true);
      expect(isClosedSurface(flipped(mesh))).toBe(true);
      expect(isClosedSurface({ ...mesh, triangles: mesh.triangles.slice(3) })).toBe(false);
    }
  });

  test('each kind of trouble is counted', () => {
    const cube = box([1, 1, 1]);
    const doubled = { ...cube, triangles: Uint32Array.from([...cube.triangles, ...cube.triangles]) };
    expect(isClosedSurface(doubled)).toBe(false);
    expect(edgeTrouble(doubled).crowded.count).toBe(18);
    expect(edgeTrouble({ ...cube, triangles: cube.triangles.slice(3) }).open.count).toBe(3);
    const [a, b, ...rest] = cube.triangles;
    expect(edgeTrouble({ ...cube, triangles: Uint32Array.from([b!, a!, ...rest]) }).opposed.count).toBe(3);
    expect(edgeTrouble(cube)).toMatchObject({
      open: { count: 0 },
      crowded: { count: 0 },
      opposed: { count: 0 },
    });
  });

  test('a fan of 200 000 triangles about one point is looked through in linear time', () => {
    const segments = 100_000;
    const fan = turned(
      [
        [0, 0],
        [1, 1],
        [2, 0],
      ],
      segments,
    );
    const start = performance.now();
    expect(isClosedSurface(fan)).toBe(true);
    // Lists at the hub would take 10^10 steps, minutes; 4·10^5 look-ups take milliseconds.
    expect(performance.now() - start).toBeLessThan(5000);
  });
});

test('a closed surface winds once around what is inside, and not around what is outside', () => {
  const mesh = spindle(10, (share) => 4 * share * (1 - share), 12, 12);
  expect(windingNumber(mesh, [5, 0.3, -0.2])).toBeCloseTo(1, 12);
  expect(windingNumber(mesh, [5, 2, 0])).toBeCloseTo(0, 12);
  expect(windingNumber(flipped(mesh), [5, 0, 0.1])).toBeCloseTo(-1, 12);
});
