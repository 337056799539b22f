import fc from 'fast-check';
import { expect, test } from 'vitest';
import { massProperties, meshSurface, meshVolume } from '../../../src/core/mesh/mass-properties.ts';
import type { Mesh, Vec3 } from '../../../src/core/mesh/mesh.ts';
import { determinant, placedMesh, scaledMesh } from '../../../src/core/mesh/placement.ts';
import type { Matrix3 } from '../../../src/core/mesh/placement.ts';
import { readMesh } from '../../../src/core/mesh/read-mesh.ts';
import { isMeshFault } from '../../../src/core/mesh/result.ts';
import { binaryStl, superellipsoid } from '../../support/solids.ts';

const SEED = 20260419;

const size = fc.double({ min: 0.001, max: 0.2, noNaN: true });
const solid = fc
  .tuple(size, size, size, fc.double({ min: 1.5, max: 6, noNaN: true }), fc.integer({ min: 3, max: 12 }))
  .map(([a, b, c, n, bands]) => superellipsoid([a, b, c], n, bands, 2 * bands));
const angle = fc.double({ min: -Math.PI, max: Math.PI, noNaN: true });

const agree = (value: number, expected: number, relative: number) =>
  expect(Math.abs(value - expected)).toBeLessThanOrEqual(relative * Math.abs(expected));

/** Rows of the matrix that turns about x, then y, then z. */
function turn([a, b, c]: Vec3): Matrix3 {
  const [ca, sa, cb, sb, cc, sc] = [a, b, c].flatMap((one) => [Math.cos(one), Math.sin(one)]) as [
    number,
    number,
    number,
    number,
    number,
    number,
  ];
  return [
    [cb * cc, cc * sa * sb - ca * sc, ca * cc * sb + sa * sc],
    [cb * sc, ca * cc + sa * sb * sc, ca * sb * sc - cc * sa],
    [-sb, cb * sa, ca * cb],
  ];
}

const check = <T extends [unknown, ...unknown[]]>(
  arbitraries: { [K in keyof T]: fc.Arbitrary<T[K]> },
  holds: (...values: T) => void,
) => fc.assert(fc.property(...arbitraries, holds), { seed: SEED, numRuns: 60 });

test(`volume grows with the cube and surface with the square of the scale (seed ${SEED})`, () => {
  check([solid, fc.double({ min: 1e-6, max: 1e6, noNaN: true })], (mesh: Mesh, factor: number) => {
    const scaled = scaledMesh(mesh, factor);
    agree(meshVolume(scaled), meshVolume(mesh) * factor ** 3, 1e-12);
    agree(meshSurface(scaled), meshSurface(mesh) * factor ** 2, 1e-12);
  });
});

test(`a turn and a shift change neither volume nor surface and carry the centroid along (seed ${SEED})`, () => {
  const shift = fc.double({ min: -5, max: 5, noNaN: true });
  check(
    [solid, fc.tuple(angle, angle, angle), fc.tuple(shift, shift, shift)],
    (mesh: Mesh, angles: Vec3, offset: Vec3) => {
      const rows = turn(angles);
      const [before, after] = [massProperties(mesh), massProperties(placedMesh(mesh, rows, offset))];
      // Five metres away a coordinate keeps 1e-15 m: 1e-12 of the smallest solid.
      agree(after.volume, before.volume, 1e-10);
      agree(after.surface, before.surface, 1e-10);
      const { moments: m } = before;
      const { moments: k } = after;
      agree(k.xx + k.yy + k.zz, m.xx + m.yy + m.zz, 1e-9);
      rows.forEach((row, axis) => {
        const carried =
          row[0] * before.centroid[0] +
          row[1] * before.centroid[1] +
          row[2] * before.centroid[2] +
          offset[axis]!;
        expect(Math.abs(after.centroid[axis]! - carried)).toBeLessThan(1e-12);
      });
    },
  );
});

test(`a mirror image faces outwards and holds the same volume (seed ${SEED})`, () => {
  check([solid, fc.constantFrom(0, 1, 2)], (mesh: Mesh, axis: number) => {
    const rows = [0, 1, 2].map((row) =>
      [0, 1, 2].map((col) => (row !== col ? 0 : row === axis ? -1 : 1)),
    ) as unknown as Matrix3;
    expect(determinant(rows)).toBe(-1);
    agree(meshVolume(placedMesh(mesh, rows)), meshVolume(mesh), 1e-12);
  });
});

/** Records of a binary STL in another order, each begun at another corner. */
function shuffled(bytes: Uint8Array, order: readonly number[]): Uint8Array {
  const out = bytes.slice();
  order.forEach((from, to) => {
    const record = bytes.subarray(84 + 50 * from, 134 + 50 * from);
    const first = from % 3;
    for (let k = 0; k < 3; k++) {
      const corner = 12 + 12 * ((k + first) % 3);
      out.set(record.subarray(corner, corner + 12), 84 + 50 * to + 12 + 12 * k);
    }
  });
  return out;
}

test(`the order of triangles in a file changes nothing (seed ${SEED})`, () => {
  const withOrder = solid.chain((mesh) => {
    const count = mesh.triangles.length / 3;
    const all = Array.from({ length: count }, (_, i) => i);
    return fc.tuple(fc.constant(mesh), fc.shuffledSubarray(all, { minLength: count, maxLength: count }));
  });
  check([withOrder], ([mesh, order]: [Mesh, number[]]) => {
    const bytes = binaryStl(mesh);
    const [plain, mixed] = [bytes, shuffled(bytes, order)].map((file) => {
      const read = readMesh(file, { format: 'stl', unit: 'mm' });
      if (isMeshFault(read)) throw new Error(read.message);
      return { read, properties: massProperties(read.mesh) };
    });
    expect(mixed!.read.mesh.positions.length).toBe(plain!.read.mesh.positions.length);
    expect(mixed!.properties.box).toEqual(plain!.properties.box);
    agree(mixed!.properties.volume, plain!.properties.volume, 1e-12);
    agree(mixed!.properties.surface, plain!.properties.surface, 1e-12);
  });
});

test(`stretching one axis by half halves the volume (seed ${SEED})`, () => {
  check([solid], (mesh: Mesh) => {
    const half = mesh.positions.map((value, i) => (i % 3 === 0 ? value / 2 : value));
    agree(meshVolume({ ...mesh, positions: half }), meshVolume(mesh) / 2, 1e-12);
  });
});

test('a flattening matrix and a factor of zero are refused', () => {
  const mesh = superellipsoid([1, 1, 1], 2, 3, 6);
  const flat: Matrix3 = [
    [1, 0, 0],
    [0, 1, 0],
    [0, 0, 0],
  ];
  expect(() => placedMesh(mesh, flat)).toThrow(
    'placedMesh: wants an invertible matrix and a finite offset, got determinant 0',
  );
  expect(() => scaledMesh(mesh, 0)).toThrow('scaledMesh: wants factor positive and finite, got 0');
});
