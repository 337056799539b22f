import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { meshBodies, windingNumber } from '../../../src/core/mesh/bodies.ts';
import { edgeTrouble, isClosedSurface } from '../../../src/core/mesh/edges.ts';
import {
  boxCentre,
  inertiaTensor,
  massProperties,
  meshBox,
  meshSize,
  momentsAbout,
} from '../../../src/core/mesh/mass-properties.ts';
import type { Mesh, Vec3 } from '../../../src/core/mesh/mesh.ts';
import { nearWelded } from '../../../src/core/mesh/near-weld.ts';
import { pointIndex } from '../../../src/core/mesh/weld.ts';
import { box, flipped, joined, meshOf } from '../../support/solids.ts';

// Each quick way against a plain one that looks at everything; seeds fixed.

const SEED = 7141;
const check = <T>(arbitrary: fc.Arbitrary<T>, holds: (value: T) => void, numRuns = 200) =>
  fc.assert(fc.property(arbitrary, holds), { seed: SEED, numRuns });

const whole = (max: number) => fc.integer({ min: -max, max });
const corner = fc.tuple(whole(9), whole(9), whole(9));
const AXES = [0, 1, 2] as const;

describe('a tetrahedron', () => {
  const tetrahedron = fc.tuple(corner, corner, corner, corner).map((points) => {
    const mesh = meshOf(points, [
      [0, 2, 1],
      [0, 1, 3],
      [0, 3, 2],
      [1, 2, 3],
    ]);
    const [a, b, c] = [1, 2, 3].map((k) => AXES.map((axis) => points[k]![axis] - points[0][axis])) as [
      number[],
      number[],
      number[],
    ];
    const minor = (i: number, j: number) => b[i]! * c[j]! - b[j]! * c[i]!;
    return { points, mesh, sixfold: a[0]! * minor(1, 2) + a[1]! * minor(2, 0) + a[2]! * minor(0, 1) };
  });
  const solid = tetrahedron.filter(({ sixfold }) => sixfold !== 0);
  const sum = (points: readonly Vec3[], of: (point: Vec3) => number) =>
    points.reduce((total, point) => total + of(point), 0);

  test('has a sixth of the box of its edges, a surface after Heron, its centre at the mean of its corners', () => {
    check(solid, ({ points, mesh, sixfold }) => {
      const { volume, surface, centroid, box: extent } = massProperties(mesh);
      expect(volume).toBeCloseTo(sixfold / 6, 9);
      const apart = (i: number, j: number) =>
        Math.hypot(...AXES.map((axis) => points[i]![axis] - points[j]![axis]));
      const heron = [
        [0, 1, 2],
        [0, 1, 3],
        [0, 2, 3],
        [1, 2, 3],
      ].map(([i, j, k]) => {
        const [p, q, r] = [apart(i!, j!), apart(j!, k!), apart(k!, i!)];
        return Math.sqrt(Math.max(0, (p + q + r) * (-p + q + r) * (p - q + r) * (p + q - r))) / 4;
      });
      expect(surface).toBeCloseTo(heron[0]! + heron[1]! + heron[2]! + heron[3]!, 5);
      for (const axis of AXES) {
        expect(centroid[axis]).toBeCloseTo(sum(points, (point) => point[axis]) / 4, 9);
        expect(extent.min[axis]).toBe(Math.min(...points.map((point) => point[axis])));
        expect(extent.max[axis]).toBe(Math.max(...points.map((point) => point[axis])));
      }
    });
  });

  // ∫x_i·x_j dV = V/20·(Σ p_i·p_j + Σ p_i·Σ p_j) over the four corners p, taken from any point: simplex quadrature.
  test('and second moments by those of its corners, about its centre and about any point', () => {
    check(fc.tuple(solid, corner), ([{ points, mesh, sixfold }, from]) => {
      const properties = massProperties(mesh);
      const about = (origin: Vec3) => {
        const at = (i: 0 | 1 | 2, j: 0 | 1 | 2) => {
          const part = (axis: 0 | 1 | 2) => sum(points, (point) => point[axis] - origin[axis]);
          const product = sum(points, (point) => (point[i] - origin[i]) * (point[j] - origin[j]));
          return expect.closeTo((sixfold / 120) * (product + part(i) * part(j)), 6) as number;
        };
        return { xx: at(0, 0), yy: at(1, 1), zz: at(2, 2), xy: at(0, 1), yz: at(1, 2), zx: at(2, 0) };
      };
      expect(properties.moments).toEqual(about(properties.centroid));
      expect(momentsAbout(properties, from)).toEqual(about(from));
    });
  });

  test('a closed surface winds around a point as often as its tetrahedra hold it', () => {
    check(fc.tuple(solid, corner), ([{ points, mesh, sixfold }, at]) => {
      const inside = AXES.map((axis) => sum(points, (point) => point[axis]) / 4) as unknown as Vec3;
      expect(windingNumber(mesh, inside)).toBeCloseTo(Math.sign(sixfold), 9);
      const { max } = meshBox(mesh);
      expect(windingNumber(mesh, [max[0] + 0.5 + Math.abs(at[0]), at[1], at[2]])).toBeCloseTo(0, 9);
    });
  });
});

test('inertia is density times the other two moments, products with their sign turned', () => {
  expect(inertiaTensor({ xx: 1, yy: 2, zz: 4, xy: 8, yz: 16, zx: 32 }, 3)).toEqual({
    xx: 18,
    yy: 15,
    zz: 9,
    xy: -24,
    yz: -48,
    zx: -96,
  });
});

test('the middle of a box is half-way along each axis', () => {
  expect(boxCentre({ min: [1, 2, 3], max: [5, 12, -3] })).toEqual([3, 7, 0]);
});

const soup = fc.array(fc.tuple(fc.nat(4), fc.nat(4), fc.nat(4)), { maxLength: 8 }).map((triangles) =>
  meshOf(
    Array.from({ length: 5 }, (_, i): Vec3 => [i, i * i, 0]),
    triangles,
  ),
);
/** Closed solids that share no point, some of them turned over, some with a triangle less, doubled or turned. */
const solids = fc
  .array(fc.tuple(fc.constantFrom('whole', 'flipped', 'open', 'doubled', 'turned'), fc.nat(11)), {
    maxLength: 3,
  })
  .map((pieces) =>
    joined(
      ...pieces.map(([kind, triangle], i) => {
        const mesh = box([1, 2, 3], [10 * i, 0, 0]);
        const one = mesh.triangles.slice(3 * triangle, 3 * triangle + 3);
        const rest = mesh.triangles.filter((_, k) => Math.floor(k / 3) !== triangle);
        const with_ = (...lists: readonly Uint32Array[]): Mesh => ({
          ...mesh,
          triangles: Uint32Array.from(lists.flatMap((list) => [...list])),
        });
        if (kind === 'flipped') return flipped(mesh);
        if (kind === 'open') return with_(rest);
        if (kind === 'doubled') return with_(mesh.triangles, one);
        return kind === 'turned' ? with_(rest, one.toReversed()) : mesh;
      }),
    ),
  );

/** For each edge, lower end first, how often it is run along upwards and downwards. */
function edgesOf({ triangles }: Mesh): Map<string, [number, number]> {
  const edges = new Map<string, [number, number]>();
  for (let t = 0; t < triangles.length; t += 3) {
    for (let k = 0; k < 3; k++) {
      const [from, to] = [triangles[t + k]!, triangles[t + ((k + 1) % 3)]!];
      const key = `${Math.min(from, to)} ${Math.max(from, to)}`;
      const uses = edges.get(key) ?? [0, 0];
      uses[from < to ? 0 : 1]++;
      edges.set(key, uses);
    }
  }
  return edges;
}

const usesTwice = ({ triangles }: Mesh): boolean =>
  Array.from(
    { length: triangles.length / 3 },
    (_, t) => new Set(triangles.slice(3 * t, 3 * t + 3)).size,
  ).some((size) => size < 3);

describe('edges, by a list of all of them', () => {
  test.each([
    ['any triangles', soup],
    ['solids, whole and broken', solids],
  ])('%s: closed where each edge is run along once each way', (_, meshes) => {
    check(
      meshes,
      (mesh) => {
        const closed = [...edgesOf(mesh).values()].every(([up, down]) => up === 1 && down === 1);
        expect(isClosedSurface(mesh)).toBe(closed && !usesTwice(mesh));
      },
      600,
    );
  });

  test.each([
    ['any triangles', soup],
    ['solids, whole and broken', solids],
  ])('%s: trouble is counted by kind, its first edge the lowest', (_, meshes) => {
    check(
      meshes.filter((mesh) => !usesTwice(mesh)),
      (mesh) => {
        const edges = [...edgesOf(mesh)]
          .map(([key, uses]) => ({ ends: key.split(' ').map(Number), uses }))
          .sort((a, b) => a.ends[0]! - b.ends[0]! || a.ends[1]! - b.ends[1]!);
        const group = (belongs: (up: number, down: number) => boolean) => {
          const those = edges.filter(({ uses: [up, down] }) => belongs(up, down));
          return { count: those.length, first: those[0]?.ends ?? [0, 0] };
        };
        expect(edgeTrouble(mesh)).toEqual({
          open: group((up, down) => up + down === 1),
          crowded: group((up, down) => up + down > 2),
          opposed: group((up, down) => up + down === 2 && up !== 1),
        });
      },
    );
  });
});

describe('bodies, by spreading over shared corners', () => {
  test('each corner bears the lowest number of its piece; pieces have their triangles, their volume and its sign', () => {
    const pieces = fc.tuple(fc.nat(99), fc.array(fc.boolean(), { minLength: 1, maxLength: 4 }));
    check(pieces, ([shuffle, turned]) => {
      const apart = joined(
        ...turned.map((turn, i) => {
          const cube = box([1, 2, 3 + i], [10 * i, -i, 2 * i]);
          return turn ? flipped(cube) : cube;
        }),
      );
      // Numbers of corners and the order of triangles mixed over all pieces.
      const points = apart.positions.length / 3;
      const numbers = [...Array(points).keys()].sort(
        (a, b) => ((a * 37 + shuffle) % 101) - ((b * 37 + shuffle) % 101),
      );
      const positions = new Float64Array(apart.positions.length);
      numbers.forEach((to, from) => positions.set(apart.positions.subarray(3 * from, 3 * from + 3), 3 * to));
      const triangles = [...Array(apart.triangles.length / 3).keys()]
        .sort((a, b) => ((a * 53 + shuffle) % 103) - ((b * 53 + shuffle) % 103))
        .flatMap((t) => [0, 1, 2].map((k) => numbers[apart.triangles[3 * t + k]!]!));
      const mesh = { positions, triangles: Uint32Array.from(triangles) };

      const lowest = [...Array(points).keys()];
      for (let changed = true; changed;) {
        changed = false;
        for (let t = 0; t < triangles.length; t += 3) {
          const three = triangles.slice(t, t + 3);
          const least = Math.min(...three.map((vertex) => lowest[vertex]!));
          for (const vertex of three) {
            if (lowest[vertex] !== least) [lowest[vertex], changed] = [least, true];
          }
        }
      }
      const { bodies, rootOf, flat } = meshBodies(mesh, [3, -2, 5]);
      expect([...rootOf]).toEqual(lowest);
      expect(flat).toBe(0);
      const expected = turned
        .map((turn, i) => ({
          vertex: lowest[numbers[8 * i]!]!,
          triangles: 12,
          volume: expect.closeTo((turn ? -1 : 1) * 2 * (3 + i), 9) as number,
        }))
        .sort((a, b) => a.vertex - b.vertex);
      expect(bodies).toEqual(expected);
    });
  });

  test('triangles without area are counted, and only those', () => {
    const flat: readonly Vec3[] = [
      [0, 1, 2],
      [0, 1, 3],
      [0, 1, 4],
      [0, 3, 5],
    ];
    // Corners on a line and off it along y and along z: a normal of one axis alone is area enough.
    const points: Vec3[] = [
      [0, 0, 0],
      [1, 0, 0],
      [2, 0, 0],
      [0, 1, 0],
      [0, 0, 1],
      [0, 0, 2],
    ];
    const { flat: count, rootOf } = meshBodies(meshOf(points, flat), [0, 0, 0]);
    expect(count).toBe(1);
    // Each corner of a triangle joins its piece, the first as the second and the third.
    expect([...rootOf]).toEqual([0, 0, 0, 0, 0, 0]);
  });

  test('of a mesh of two, only the triangles that count wind', () => {
    const two = joined(box([2, 2, 2]), box([4, 4, 4], [-1, -1, -1]));
    expect(windingNumber(two, [1, 1, 1])).toBeCloseTo(2, 12);
    expect(windingNumber(two, [1, 1, 1], (vertex) => vertex < 8)).toBeCloseTo(1, 12);
  });
});

describe('joining near points', () => {
  const cloud = fc.array(fc.tuple(whole(6), whole(6), whole(6)), { minLength: 3, maxLength: 30 });

  test.each([1, 2, 5])(
    'within %f: each point goes to a kept one in reach, and no two of those are in reach',
    (reach) => {
      check(
        cloud,
        (points) => {
          // A triangle for each point tells where it went.
          const given = meshOf(
            points.map(([x, y, z]): Vec3 => [x + 100, y - 50, z]),
            points.map((_, i): Vec3 => [i, i, i]),
          );
          const { mesh, joined: count } = nearWelded(given, reach);
          const at = ({ positions }: Mesh, i: number) => [...positions.subarray(3 * i, 3 * i + 3)];
          const apart = (a: number[], b: number[]) => Math.hypot(a[0]! - b[0]!, a[1]! - b[1]!, a[2]! - b[2]!);
          const kept = Array.from({ length: mesh.positions.length / 3 }, (_, k) => at(mesh, k));
          const went = points.map((_, i) => mesh.triangles[3 * i]!);
          expect(count).toBe(points.length - kept.length);
          expect(Math.max(...went.map((k, i) => apart(at(given, i), kept[k]!)))).toBeLessThanOrEqual(reach);
          const gaps = kept.flatMap((one, i) => kept.slice(0, i).map((other) => apart(one, other)));
          expect(Math.min(Infinity, ...gaps)).toBeGreaterThan(reach);
          // Kept points keep their order: each is the first of those that went to it.
          const first = kept.map((_, k) => went.indexOf(k));
          expect(first).toEqual([...first].sort((a, b) => a - b));
          expect(first.map((i) => at(given, i))).toEqual(kept);
        },
        100,
      );
    },
  );

  test.each([0, -1, NaN, Infinity])('a reach of %d is none', (reach) => {
    expect(() => nearWelded(box([1, 1, 1]), reach)).toThrow(
      `nearWelded: wants tolerance positive and finite, got ${reach}`,
    );
  });
});

describe('an index of points, by a list of all of them', () => {
  test.each([false, true])('numbers in the order of first appearance, of 32-bit numbers: %s', (single) => {
    const points = fc.array(fc.tuple(whole(3), whole(3), whole(3)), { maxLength: 200 });
    check(points, (given) => {
      const index = pointIndex(1, single);
      const seen: string[] = [];
      for (const [x, y, z] of given) {
        const key = `${x + 0} ${y + 0} ${z + 0}`;
        expect(index.find(x, y, z)).toBe(seen.indexOf(key));
        if (!seen.includes(key)) seen.push(key);
        expect(index.numberOf(x, y, z)).toBe(seen.indexOf(key));
      }
      expect([...index.points()]).toEqual(seen.flatMap((key) => key.split(' ').map(Number)));
    });
  });
});

test('volume and surface of many solids in one mesh add up', () => {
  const { volume, surface } = meshSize(joined(box([1, 2, 3]), box([2, 2, 2], [5, 5, 5])));
  expect(volume).toBeCloseTo(14, 12);
  expect(surface).toBeCloseTo(22 + 24, 12);
});
