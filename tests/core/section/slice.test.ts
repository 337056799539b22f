import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { meshVolume } from '../../../src/core/mesh/mass-properties.ts';
import { sectionArea, sectionMoments } from '../../../src/core/section/moments.ts';
import { outlineOf, sectionAt, sectionsAlong, type Axis } from '../../../src/core/section/slice.ts';
import {
  box,
  ellipsoid,
  flipped,
  frustum,
  joined,
  mapped,
  torus,
  uvSphere,
  wedge,
} from '../../support/solids.ts';

const AXES = ['x', 'y', 'z'] as const;
const relative = (a: number, b: number) => Math.abs(a / b - 1);

/** Area of a regular polygon of `count` sides on a circle: n/2·R²·sin(2π/n). */
const polygonArea = (radius: number, count: number) =>
  (count / 2) * radius ** 2 * Math.sin((2 * Math.PI) / count);

function integrated(
  mesh: Parameters<typeof sectionsAlong>[0],
  axis: Axis,
  from: number,
  to: number,
  count: number,
) {
  const pitch = (to - from) / count;
  const stations = Array.from({ length: count }, (_, i) => from + (i + 0.5) * pitch);
  return sectionsAlong(mesh, axis, stations).reduce((sum, section) => sum + sectionArea(section) * pitch, 0);
}

describe('sections of a box', () => {
  const block = box([1, 2, 3]);
  test.each([
    ['x', 6],
    ['y', 3],
    ['z', 2],
  ] as const)('across %s have area %d and turn counter-clockwise', (axis, area) => {
    const section = sectionAt(block, axis, 0.4);
    expect(outlineOf(section)).toHaveLength(1);
    expect(sectionArea(section)).toBeCloseTo(area, 12);
  });
  test('corners on the plane count as above: nothing at the low face, all of it at the high one', () => {
    for (const [axis, size, area] of [
      ['x', 1, 6],
      ['y', 2, 3],
      ['z', 3, 2],
    ] as const) {
      expect(sectionArea(sectionAt(block, axis, 0))).toBe(0);
      expect(outlineOf(sectionAt(block, axis, 0))).toHaveLength(0);
      expect(sectionArea(sectionAt(block, axis, size))).toBeCloseTo(area, 12);
    }
  });
  test('beside it are empty', () => {
    expect(outlineOf(sectionAt(block, 'x', -1))).toEqual([]);
    expect(outlineOf(sectionAt(block, 'x', 4))).toEqual([]);
  });
});

test('a plane through rows of vertices gives the polygon they lie on', () => {
  // cos(π/2) is not quite 0 in doubles: put the middle row on the plane.
  const ball = mapped(uvSphere(1, 16, 24), ([x, y, z]) => [Math.round(x * 1e12) / 1e12, y, z]);
  expect(relative(sectionArea(sectionAt(ball, 'x', 0)), polygonArea(1, 24))).toBeLessThan(1e-12);
  expect(outlineOf(sectionAt(ball, 'x', 0))[0]).toHaveLength(24);
});

test('a ring cut across its axis has an outer ring and a hole, of opposite sense', () => {
  const section = sectionAt(torus(20, 5, 90, 40), 'z', 0);
  const areas = outlineOf(section).map((ring) =>
    sectionArea({ at: 0, points: Float64Array.from(ring.flat()), rings: Uint32Array.of(0, ring.length) }),
  );
  expect(areas).toHaveLength(2);
  expect(relative(Math.max(...areas), polygonArea(25, 90))).toBeLessThan(1e-12);
  expect(relative(-Math.min(...areas), polygonArea(15, 90))).toBeLessThan(1e-12);
});

test('a ring cut through its axis gives two rings of the same sense', () => {
  const section = sectionAt(torus(20, 5, 90, 40), 'y', 0);
  expect(outlineOf(section)).toHaveLength(2);
  expect(relative(sectionArea(section), 2 * polygonArea(5, 40))).toBeLessThan(1e-12);
});

describe('moments', () => {
  test('of a rectangle: b·h, middle, h·b³/12, b·h³/12', () => {
    const found = sectionMoments(sectionAt(box([4, 2, 6], [10, 5, -1]), 'x', 12));
    expect(found.area).toBeCloseTo(12, 12);
    expect(found.perimeter).toBeCloseTo(16, 12);
    expect(found.centroid[0]).toBeCloseTo(6, 12);
    expect(found.centroid[1]).toBeCloseTo(2, 12);
    expect(found.uu).toBeCloseTo((6 * 2 ** 3) / 12, 10);
    expect(found.vv).toBeCloseTo((2 * 6 ** 3) / 12, 10);
    expect(found.uv).toBeCloseTo(0, 10);
  });
  test('of a right triangle: bases b, h give −b²h²/72 about its centroid', () => {
    const half = mapped(wedge(3, 1, 4), ([x, y, z]) => [x, y, z + (2 * x) / 3]);
    const found = sectionMoments(sectionAt(half, 'y', 0.5));
    expect(found.area).toBeCloseTo(6, 12);
    expect(found.uu).toBeCloseTo((4 * 3 ** 3) / 36, 10);
    expect(found.vv).toBeCloseTo((3 * 4 ** 3) / 36, 10);
    expect(Math.abs(found.uv)).toBeCloseTo((3 ** 2 * 4 ** 2) / 72, 10);
  });
  test('of an ellipse approach π·a·b, π·a³·b/4', () => {
    const found = sectionMoments(sectionAt(ellipsoid([5, 3, 2], 8, 720), 'x', 0));
    expect(relative(found.area, Math.PI * 6)).toBeLessThan(2e-5);
    expect(relative(found.uu, (Math.PI * 3 ** 3 * 2) / 4)).toBeLessThan(5e-5);
    expect(relative(found.vv, (Math.PI * 2 ** 3 * 3) / 4)).toBeLessThan(5e-5);
  });
  test('of nothing are zero', () => {
    expect(sectionMoments(sectionAt(box([1, 1, 1]), 'x', 5)).area).toBe(0);
  });
});

describe('sections integrate to the volume', () => {
  test('exactly for a wedge, whose areas are linear', () => {
    const mesh = wedge(10, 5, 2);
    expect(relative(integrated(mesh, 'x', 0, 10, 7), meshVolume(mesh))).toBeLessThan(1e-12);
  });
  test.each(AXES)('with an error that falls fourfold when stations double, across %s', (axis) => {
    const mesh = frustum(2, 5, 8, 48);
    const [from, to] = axis === 'x' ? [0, 8] : [-5, 5];
    // Bounds of y and z fall between vertices of the rim; the area near them is tiny.
    const errors = [40, 160, 640].map((count) =>
      Math.abs(integrated(mesh, axis, from, to, count) / meshVolume(mesh) - 1),
    );
    expect(errors[1]!).toBeLessThan(errors[0]! / 4);
    expect(errors[2]!).toBeLessThan(errors[1]! / 4);
    expect(errors[2]!).toBeLessThan(2e-5);
  });
});

test('seeded: area does not hang on the order of triangles, and moves with the mesh', () => {
  const mesh = torus(20, 5, 40, 16);
  const reference = sectionArea(sectionAt(mesh, 'x', 3.7));
  fc.assert(
    fc.property(
      fc.integer({ min: 1, max: 1e6 }),
      fc.double({ min: -50, max: 50, noNaN: true }),
      (step, shift) => {
        const count = mesh.triangles.length / 3;
        const order = Array.from({ length: count }, (_, i) => i).sort(
          (a, b) => ((a * step) % 9973) - ((b * step) % 9973),
        );
        const triangles = Uint32Array.from(
          order.flatMap((t) => [...mesh.triangles.subarray(3 * t, 3 * t + 3)]),
        );
        const moved = mapped({ positions: mesh.positions, triangles }, ([x, y, z]) => [x + shift, y, z]);
        expect(relative(sectionArea(sectionAt(moved, 'x', 3.7 + shift)), reference)).toBeLessThan(1e-10);
      },
    ),
    { seed: 11, numRuns: 30 },
  );
});

test('two bodies give two rings, an inverted one a clockwise ring', () => {
  const pair = joined(box([1, 1, 1]), box([1, 1, 1], [0, 3, 0]));
  expect(sectionArea(sectionAt(pair, 'x', 0.5))).toBeCloseTo(2, 12);
  expect(sectionArea(sectionAt(flipped(box([1, 1, 1])), 'x', 0.5))).toBeCloseTo(-1, 12);
});

describe('refuses', () => {
  const block = box([1, 1, 1]);
  test('an open mesh', () => {
    const open = { positions: block.positions, triangles: block.triangles.slice(6) };
    expect(() => sectionAt(open, 'x', 0.5)).toThrow(
      'sectionsAlong: wants a closed mesh, got an open edge at x = 0.5',
    );
  });
  test('stations that fall or are not numbers', () => {
    expect(() => sectionsAlong(block, 'x', [0.5, 0.4])).toThrow(
      'sectionsAlong: wants finite rising stations, got 0.4 at place 1',
    );
    expect(() => sectionsAlong(block, 'x', [Number.NaN])).toThrow(
      'sectionsAlong: wants finite rising stations, got NaN at place 0',
    );
  });
});
