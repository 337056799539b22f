import { describe, expect, test } from 'vitest';
import type { Mesh, Vec3 } from '../../../src/core/mesh/mesh.ts';
import { boxTree, LEAF, SLAB_TRIANGLES } from '../../../src/core/section/box-tree.ts';
import { once } from '../../support/once.ts';
import { box, meshOf, torus } from '../../support/solids.ts';

const cornersOf = ({ positions, triangles }: Mesh, t: number): Vec3[] =>
  [0, 1, 2].map((corner) => {
    const row = 3 * triangles[3 * t + corner]!;
    return [positions[row]!, positions[row + 1]!, positions[row + 2]!];
  });

/** Least and greatest x, y, z of some points; inside out where there is none. */
const boundsOf = (points: readonly Vec3[]): number[] => [
  ...[0, 1, 2].map((axis) => Math.min(...points.map((point) => point[axis]!))),
  ...[0, 1, 2].map((axis) => Math.max(...points.map((point) => point[axis]!))),
];

/** Vector sum of the areas of triangles, doubled. */
const areaOf = (mesh: Mesh, members: readonly number[]): number[] => {
  const sums = [0, 0, 0];
  for (const t of members) {
    const [a, b, c] = cornersOf(mesh, t) as [Vec3, Vec3, Vec3];
    const [u, v] = [b, c].map((corner) => corner.map((value, axis) => value - a[axis]!)) as unknown as [
      Vec3,
      Vec3,
    ];
    sums.forEach((_, i) => {
      const [j, k] = [(i + 1) % 3, (i + 2) % 3] as [0 | 1 | 2, 0 | 1 | 2];
      sums[i] = sums[i]! + u[j] * v[k] - u[k] * v[j];
    });
  }
  return sums;
};

describe.each([
  ['a box, three lowest boxes and an empty one', box([1, 2, 3], [5, -1, 0.5]), 4],
  [
    'four triangles, one lowest box',
    { ...box([1, 1, 1]), triangles: box([1, 1, 1]).triangles.slice(0, 12) },
    1,
  ],
  ['five triangles, two', { ...box([1, 1, 1]), triangles: box([1, 1, 1]).triangles.slice(0, 15) }, 2],
  ['a ring of 240 triangles', torus(20, 5, 12, 10), 64],
] as const)('%s', (_, mesh, leaves) => {
  const tree = once(() => boxTree(mesh));
  const boxAt = (node: number) => [...tree().boxes.slice(6 * node, 6 * node + 6)];

  test('every triangle stands in one lowest box, which is its bounds', () => {
    expect(tree().leaves).toBe(leaves);
    expect(tree().mesh).toBe(mesh);
    expect([...tree().order].sort((a, b) => a - b)).toEqual(
      Array.from({ length: mesh.triangles.length / 3 }, (_, t) => t),
    );
    for (let leaf = 0; leaf < leaves; leaf++) {
      const members = [...tree().order.slice(LEAF * leaf, LEAF * leaf + LEAF)];
      expect(boxAt(leaves + leaf)).toEqual(boundsOf(members.flatMap((t) => cornersOf(mesh, t))));
    }
  });

  test('every other box is the bounds of its two children', () => {
    for (let node = 1; node < leaves; node++) {
      const [one, two] = [boxAt(2 * node), boxAt(2 * node + 1)];
      expect(boxAt(node)).toEqual(
        one.map((value, i) => (i < 3 ? Math.min(value, two[i]!) : Math.max(value, two[i]!))),
      );
    }
    expect(tree().boxes.length).toBe(12 * leaves);
  });

  test('slabs: each holds all triangles below its node, from side to side; one of too many is without end', () => {
    for (let node = 1; node < 2 * leaves; node++) {
      const depth = Math.floor(Math.log2(node));
      const size = (LEAF * leaves) / 2 ** depth;
      const members = [...tree().order].slice(size * (node - 2 ** depth)).slice(0, size);
      const [nx = 0, ny = 0, nz = 0, middle = 0, half = 0] = tree().faces.slabs.slice(5 * node, 5 * node + 5);
      if (size > SLAB_TRIANGLES || members.length === 0) {
        expect(half).toBe(Infinity);
        continue;
      }
      if (half === Infinity) {
        // The triangles of a closed piece face all ways and have no normal in common.
        expect(Math.hypot(...areaOf(mesh, members))).toBeLessThan(1e-12);
        continue;
      }
      expect(Math.hypot(nx, ny, nz)).toBeCloseTo(1, 12);
      const offsets = members
        .flatMap((t) => cornersOf(mesh, t))
        .map(([x = 0, y = 0, z = 0]) => nx * x + ny * y + nz * z - middle);
      expect(Math.max(...offsets)).toBeCloseTo(half, 12);
      expect(Math.min(...offsets)).toBeCloseTo(-half, 12);
    }
  });

  test('planes: each holds its triangle’s corners, its normal is a unit vector to the outside', () => {
    tree().order.forEach((t, i) => {
      const [nx, ny, nz, height] = tree().faces.planes.slice(4 * i, 4 * i + 4) as unknown as [
        number,
        number,
        number,
        number,
      ];
      const [a, b, c] = cornersOf(mesh, t) as [Vec3, Vec3, Vec3];
      expect(Math.hypot(nx, ny, nz)).toBeCloseTo(1, 12);
      for (const [x, y, z] of [a, b, c]) expect(nx * x + ny * y + nz * z - height).toBeCloseTo(0, 12);
      // Counter-clockwise from outside: the triple product of both edges and the normal is positive.
      const [u, v] = [0, 1].map((i) => [b, c][i]!.map((value, axis) => value - a[axis]!)) as [
        number[],
        number[],
      ];
      const turn =
        nx * (u[1]! * v[2]! - u[2]! * v[1]!) +
        ny * (u[2]! * v[0]! - u[0]! * v[2]!) +
        nz * (u[0]! * v[1]! - u[1]! * v[0]!);
      expect(turn).toBeGreaterThan(0);
    });
  });
});

test('triangles run along a Morton curve of 1024 steps a side, those of one cell as they came', () => {
  // Triangles of 0.1 about the middles of seeded cells; one more spans the range, of 1023 along y and less along x and z.
  const draw = (i: number, most: number) => Math.floor((Math.abs(Math.sin(12.9898 * i)) * 43758.5453) % most);
  const cells = Array.from({ length: 200 }, (_, i): Vec3 => [
    draw(3 * i + 1, i % 4 === 0 ? 4 : 900),
    draw(3 * i + 2, i % 4 === 0 ? 4 : 1022),
    draw(3 * i + 3, i % 4 === 0 ? 4 : 500),
  ]);
  const least: Vec3 = [-40, 7, 300];
  const about = ([i, j, k]: Vec3): Vec3[] => {
    const [x, y, z] = [least[0] + i + 0.5, least[1] + j + 0.5, least[2] + k + 0.5];
    return [
      [x - 0.1, y, z],
      [x + 0.1, y - 0.1, z - 0.1],
      [x, y + 0.1, z + 0.1],
    ];
  };
  const span: Vec3[] = [
    least,
    [least[0], least[1] + 1023, least[2]],
    [least[0], least[1] + 1.5, least[2] + 1.5],
  ];
  const points = [...cells.flatMap(about), ...span];
  const mesh = meshOf(
    points,
    Array.from({ length: points.length / 3 }, (_, t): Vec3 => [3 * t, 3 * t + 1, 3 * t + 2]),
  );
  // Cell of the span's middle: (0, 1024.5 / 3, 0.5).
  const all = [...cells, [0, 341, 0] as const];
  /** Bits of z, y and x taken in turn, from the highest down. */
  const key = ([i, j, k]: Vec3): number => {
    let bits = '';
    for (let bit = 9; bit >= 0; bit--) for (const n of [k, j, i]) bits += (n >> bit) & 1;
    return Number.parseInt(bits, 2);
  };
  const expected = Array.from(all.keys()).sort((a, b) => key(all[a]!) - key(all[b]!) || a - b);
  expect([...boxTree(mesh).order]).toEqual(expected);
});

test('a triangle without an area has a plane of zeros; all of them in one point are kept in their order', () => {
  const flat = meshOf(
    [
      [1, 1, 1],
      [2, 2, 2],
      [3, 3, 3],
    ],
    [
      [0, 1, 2],
      [1, 1, 1],
    ],
  );
  expect([...boxTree(flat).faces.planes]).toEqual([0, 0, 0, 0, 0, 0, 0, 0]);
  const point = meshOf(
    [[4, 5, 6]],
    [
      [0, 0, 0],
      [0, 0, 0],
      [0, 0, 0],
    ],
  );
  expect([...boxTree(point).order]).toEqual([0, 1, 2]);
});

test('a mesh without triangles is refused', () => {
  expect(() => boxTree({ positions: new Float64Array(0), triangles: new Uint32Array(0) })).toThrow(
    'boxTree: wants at least one triangle, got none',
  );
});
