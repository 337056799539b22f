import { describe, expect, test } from 'vitest';
import type { Mesh, Vec2, Vec3 } from '../../../src/core/mesh/mesh.ts';
import { sectionArea } from '../../../src/core/section/moments.ts';
import { outlineOf, sectionAt, sectionsAlong, type Axis } from '../../../src/core/section/slice.ts';
import { box, mapped, meshOf, torus } from '../../support/solids.ts';

const AXES: readonly Axis[] = ['x', 'y', 'z'];
/** Height, then both coordinates in the plane. */
const PLACES: Readonly<Record<Axis, readonly [number, number, number]>> = {
  x: [0, 1, 2],
  y: [1, 0, 2],
  z: [2, 0, 1],
};

/** Where a plane cuts each triangle, the plain way: both ends, the solid to the left. */
function cuts({ positions, triangles }: Mesh, axis: Axis, at: number): [Vec2, Vec2][] {
  const [h, u, v] = PLACES[axis];
  const found: [Vec2, Vec2][] = [];
  for (let t = 0; t < triangles.length; t += 3) {
    const corners = [0, 1, 2].map((corner) =>
      [0, 1, 2].map((i) => positions[3 * triangles[t + corner]! + i]!),
    );
    const [a, b, c] = corners as [number[], number[], number[]];
    const ends = (
      [
        [a, b],
        [b, c],
        [c, a],
      ] as const
    )
      .filter(([from, to]) => from[h]! < at !== to[h]! < at)
      .map(([from, to]): Vec2 => {
        const share = (at - from[h]!) / (to[h]! - from[h]!);
        return [from[u]! + share * (to[u]! - from[u]!), from[v]! + share * (to[v]! - from[v]!)];
      });
    if (ends.length === 0) continue;
    const side = (i: number, j: number) =>
      (b[i]! - a[i]!) * (c[j]! - a[j]!) - (b[j]! - a[j]!) * (c[i]! - a[i]!);
    const normal = [side(1, 2), side(2, 0), side(0, 1)];
    // The way round an outline keeps the outside, where the normal points, on its right.
    const [from, to] = ends as [Vec2, Vec2];
    const forth = (to[0] - from[0]) * -normal[v]! + (to[1] - from[1]) * normal[u]! > 0;
    found.push(forth ? [from, to] : [to, from]);
  }
  return found;
}

const sorted = (pairs: readonly (readonly [Vec2, Vec2])[]) =>
  pairs
    .map((pair) =>
      pair
        .flat()
        .map((value) => value.toFixed(9))
        .join(' '),
    )
    .sort();

describe('a slanted ring: each section is the cuts of its triangles, joined end to end, inside to the left', () => {
  const slanted = mapped(torus(20, 6, 15, 9), ([x, y, z]): Vec3 => {
    const [turned, up] = [0.8 * y - 0.6 * z, 0.6 * y + 0.8 * z];
    return [0.9 * x + 0.2 * turned + 3, turned - 5, up + 0.3 * x];
  });
  test.each(AXES)('across %s', (axis) => {
    for (const at of [-15.7, -8.31, 0.123, 4.56, 9.89]) {
      const section = sectionAt(slanted, axis, at);
      const rings = outlineOf(section);
      expect(section.at).toBe(at);
      expect(section.rings[0]).toBe(0);
      expect(section.points.length).toBe(2 * section.rings.at(-1)!);
      const sides = rings.flatMap((ring) =>
        ring.map((point, i): [Vec2, Vec2] => [point, ring[(i + 1) % ring.length]!]),
      );
      expect(sorted(sides)).toEqual(sorted(cuts(slanted, axis, at)));
      expect(sides.length).toBeGreaterThan(2);
    }
  });

  test.each(AXES)('across %s many at once are the same as one at a time, however they are spaced', (axis) => {
    const stations = [-99, -25, -24.9, -20, -3, -3, -2.999, 0, 0.5, 1, 2, 4, 8, 16, 22, 500];
    expect(sectionsAlong(slanted, axis, stations)).toEqual(
      stations.map((at) => sectionAt(slanted, axis, at)),
    );
    expect(sectionsAlong(slanted, axis, [1.5, 1.5, 1.5])).toEqual(
      [1.5, 1.5, 1.5].map((at) => sectionAt(slanted, axis, at)),
    );
    expect(sectionsAlong(slanted, axis, [])).toEqual([]);
  });
});

describe('corners on the plane', () => {
  /** A double pyramid of 4 corners, its tips at ±2. */
  const pyramid = meshOf(
    [
      [1, 0, 0],
      [0, 1, 0],
      [-1, 0, 0],
      [0, -1, 0],
      [0, 0, 2],
      [0, 0, -2],
    ],
    [0, 1, 2, 3].flatMap((i): Vec3[] => [
      [i, (i + 1) % 4, 4],
      [(i + 1) % 4, i, 5],
    ]),
  );
  test('all of them: a ring through each, once', () => {
    const ring = outlineOf(sectionAt(pyramid, 'z', 0));
    expect(ring).toHaveLength(1);
    expect(ring[0]!.map((point) => point.join(' ')).sort()).toEqual(['-1 0', '0 -1', '0 1', '1 0']);
    expect(sectionArea(sectionAt(pyramid, 'z', 0))).toBe(2);
  });
  test('a tip is no ring, nor is the edge of a roof', () => {
    expect(outlineOf(sectionAt(pyramid, 'z', 2))).toEqual([]);
    expect(outlineOf(sectionAt(pyramid, 'z', -2))).toEqual([]);
    const roof = mapped(box([3, 2, 1]), ([x, y, z]) => [x, z > 0.5 ? 1 : y, z]);
    expect(outlineOf(sectionAt(roof, 'z', 1))).toEqual([]);
    expect(sectionArea(sectionAt(roof, 'z', 0.5))).toBeCloseTo(3, 12);
  });
  test('two tips beside a ring leave the ring alone', () => {
    const beside = mapped(pyramid, ([x, y, z]) => [x + 10, y, z]);
    const mesh: Mesh = {
      positions: Float64Array.from([...beside.positions, ...box([1, 1, 9]).positions, ...pyramid.positions]),
      triangles: Uint32Array.from([
        ...beside.triangles,
        ...box([1, 1, 9]).triangles.map((corner) => corner + 6),
        ...pyramid.triangles.map((corner) => corner + 14),
      ]),
    };
    const section = sectionAt(mesh, 'z', 2);
    expect(section.rings.length).toBe(2);
    expect(sectionArea(section)).toBeCloseTo(1, 12);
  });
  test('a corner on the plane is taken to the last bit', () => {
    // Between −10¹⁶ and 1.25 the way to the end cannot be added up.
    const far = mapped(pyramid, ([x, y, z]) => [z < 0 ? -1e16 : x + 0.25, z < 0 ? -1e16 : y + 0.75, z]);
    const points = outlineOf(sectionAt(far, 'z', 0))[0]!;
    expect(points.map((point) => point.join(' ')).sort()).toEqual(
      [
        [1.25, 0.75],
        [0.25, 1.75],
        [-0.75, 0.75],
        [0.25, -0.25],
      ]
        .map((point) => point.join(' '))
        .sort(),
    );
  });
});

test('two boxes that share an edge are two rings', () => {
  // Corners 4 and 6 of the one are corners 0 and 2 … of the other: they meet along y at (1, ·, 1).
  const [one, other] = [box([1, 1, 1]), box([1, 1, 1], [1, 0, 1])];
  const points: Vec3[] = [];
  const numbers = [one, other].map(({ positions }) =>
    Array.from({ length: 8 }, (_, corner) => {
      const point = [...positions.slice(3 * corner, 3 * corner + 3)] as unknown as Vec3;
      const known = points.findIndex((other_) => other_.every((value, axis) => value === point[axis]));
      return known >= 0 ? known : points.push(point) - 1;
    }),
  );
  const mesh: Mesh = {
    positions: Float64Array.from(points.flat()),
    triangles: Uint32Array.from(
      [one, other].flatMap(({ triangles }, i) => Array.from(triangles, (corner) => numbers[i]![corner]!)),
    ),
  };
  expect(points).toHaveLength(14);
  expect(sectionArea(sectionAt(mesh, 'y', 0.5))).toBeCloseTo(2, 12);
  expect(sectionArea(sectionAt(mesh, 'x', 1.5))).toBeCloseTo(1, 12);
});

test('an open mesh is refused where it is open, and not elsewhere', () => {
  const block = box([1, 1, 1]);
  // Without the face at z = 0.
  const open = { positions: block.positions, triangles: block.triangles.slice(6) };
  expect(() => sectionsAlong(open, 'y', [0.5])).toThrow(
    'sectionsAlong: wants a closed mesh, got an open edge at y = 0.5',
  );
  expect(sectionArea(sectionAt(open, 'z', 0.5))).toBeCloseTo(1, 12);
});

test('stations that are not finite are refused wherever they stand', () => {
  const block = box([1, 1, 1]);
  for (const [stations, place] of [
    [[0, Infinity], 1],
    [[-Infinity, 0], 0],
    [[0, Number.NaN, 1], 1],
  ] as const)
    expect(() => sectionsAlong(block, 'x', stations)).toThrow(
      `sectionsAlong: wants finite rising stations, got ${stations[place]} at place ${place}`,
    );
});
