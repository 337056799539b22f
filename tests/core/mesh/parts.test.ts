import { describe, expect, test } from 'vitest';
import { fileSizeFault, MESH_LIMITS, triangleLimitFault } from '../../../src/core/mesh/limits.ts';
import type { Vec3 } from '../../../src/core/mesh/mesh.ts';
import { placedMesh, scaledMesh, type Matrix3 } from '../../../src/core/mesh/placement.ts';
import { polygonFan } from '../../../src/core/mesh/polygon.ts';
import { meshFormat, readMesh } from '../../../src/core/mesh/read-mesh.ts';
import { counted, isMeshFault, meshFaultAt } from '../../../src/core/mesh/result.ts';
import { statedLengthFault } from '../../../src/core/mesh/stated-length.ts';
import { numberOf, textScanner } from '../../../src/core/mesh/text.ts';
import { meshOf } from '../../support/solids.ts';

describe('a polygon cut into a fan', () => {
  // An L whose inner corner, 2, and outer corner, 5, see all of it; 0, 1, 3 and 4 do not.
  const notched = [
    [8, 0],
    [8, 4],
    [4, 4],
    [4, 8],
    [0, 8],
    [0, 0],
  ] as const;
  const square = [
    [0, 0],
    [1, 0],
    [1, 1],
    [0, 1],
  ] as const;
  const PLANES: readonly (readonly [string, (x: number, y: number) => Vec3])[] = [
    ['z = 3', (x, y) => [x, y, 3]],
    ['z = 3 from below', (x, y) => [-x, y, 3]],
    ['x = −1', (x, y) => [-1, x, y]],
    ['y = 7', (x, y) => [y, 7, x]],
    ['a slope', (x, y) => [x + y, x - y, 2 * x + 5]],
  ];

  test.each(PLANES)('in %s: from a corner that sees all of it', (_, at) => {
    const points = notched.map(([x, y]) => at(x, y)).flat();
    expect(polygonFan([0, 1, 2, 3, 4, 5], points)).toEqual([2, 3, 4, 2, 4, 5, 2, 5, 0, 2, 0, 1]);
    expect(polygonFan([5, 4, 3, 2, 1, 0], points)).toEqual([5, 4, 3, 5, 3, 2, 5, 2, 1, 5, 1, 0]);
  });

  test('numbers of corners, not their order in the list of points, decide', () => {
    const points = [9, 9, 9, ...square.toReversed().flatMap(([x, y]) => [x, y, 0])];
    expect(polygonFan([4, 3, 2, 1], points)).toEqual([4, 3, 2, 4, 2, 1]);
    const triangle = [7, 8, 9];
    expect(polygonFan(triangle, [])).toBe(triangle);
  });

  // One corner of a unit square lifted by h: the plane after Newell has two corners h/4 above and two h/4 below it, the
  // diagonal is √2: a thousandth of it is reached at h = 2·√2/1000 = 0.00283.
  test.each([
    [0.0028, [0, 1, 2, 0, 2, 3]],
    [0.00286, 'not flat'],
    [-0.0028, [0, 1, 2, 0, 2, 3]],
    [-0.00286, 'not flat'],
  ])('a corner lifted by %f', (lift, expected) => {
    for (const [size, from] of [
      [1, 0],
      [8, -50],
    ] as const) {
      const points = square.flatMap(([x, y], i) => [from + size * x, size * y, i === 2 ? size * lift : 0]);
      expect(polygonFan([0, 1, 2, 3], points)).toEqual(expected);
    }
  });

  test('corners on one line are cut, a polygon with two notches has no corner to cut from', () => {
    const line = [0, 1, 2, 3].flatMap((x) => [x, 2 * x, 0]);
    expect(polygonFan([0, 1, 2, 3], line)).toEqual([0, 1, 2, 0, 2, 3]);
    const zigzag = [
      [0, 0],
      [3, 0],
      [3, 3],
      [6, 3],
      [6, 6],
      [2, 6],
      [2, 1],
      [0, 1],
    ];
    expect(
      polygonFan(
        [0, 1, 2, 3, 4, 5, 6, 7],
        zigzag.flatMap(([x, y]) => [x!, y!, 0]),
      ),
    ).toBe('concave');
  });
});

describe('placing a mesh', () => {
  const mesh = meshOf(
    [
      [1, 0, 0],
      [0, 1, 0],
      [0, 0, 1],
      [1, 2, 3],
    ],
    [
      [0, 1, 2],
      [1, 3, 2],
    ],
  );
  const rows: Matrix3 = [
    [1, 2, 3],
    [4, 5, 6],
    [7, 8, 10],
  ];

  // Determinant −3 by Sarrus: the columns, then their sum weighted 1, 2, 3; each triangle turned over.
  test('rows of the matrix times points, then the offset; a mirror turns the triangles over', () => {
    const placed = placedMesh(mesh, rows, [100, 200, 300]);
    expect([...placed.positions]).toEqual([101, 204, 307, 102, 205, 308, 103, 206, 310, 114, 232, 353]);
    expect([...placed.triangles]).toEqual([0, 2, 1, 1, 2, 3]);
    const kept = placedMesh(mesh, [rows[1], rows[0], rows[2]]);
    expect([...kept.positions]).toEqual([4, 1, 7, 5, 2, 8, 6, 3, 10, 32, 14, 53]);
    expect(kept.triangles).toBe(mesh.triangles);
  });

  test.each([
    ['a matrix that flattens', [rows[0], rows[0], rows[2]] as Matrix3, [0, 0, 0] as Vec3],
    ['a matrix that is none', [[NaN, 0, 0], rows[1], rows[2]] as Matrix3, [0, 0, 0] as Vec3],
    ['an offset without end', rows, [0, Infinity, 0] as Vec3],
  ])('refuses %s', (_, matrix, offset) => {
    expect(() => placedMesh(mesh, matrix, offset)).toThrow(
      'placedMesh: wants an invertible matrix and a finite offset, got determinant',
    );
  });

  test('a scale is taken about the origin, and has to be one', () => {
    expect([...scaledMesh(mesh, 2).positions]).toEqual([2, 0, 0, 0, 2, 0, 0, 0, 2, 2, 4, 6]);
    for (const factor of [0, -1, NaN, Infinity]) {
      expect(() => scaledMesh(mesh, factor)).toThrow(
        `scaledMesh: wants factor positive and finite, got ${factor}`,
      );
    }
  });
});

describe('words of a text', () => {
  test('are parted by anything up to a space, and know their line', () => {
    const scanner = textScanner('\n a!\tb\r\nc d\n\n~e');
    const word = () => [scanner.next(), scanner.line()];
    expect([word(), word(), word(), word(), word(), word()]).toEqual([
      ['a!', 2],
      ['b', 2],
      ['c', 3],
      ['d', 3],
      ['~e', 5],
      ['', 5],
    ]);
  });

  test('a line is skipped to its end, the last one to the end of the text', () => {
    const scanner = textScanner('a b\nc d');
    scanner.next();
    scanner.skipLine();
    expect(scanner.next()).toBe('c');
    scanner.skipLine();
    expect(scanner.next()).toBe('');
    expect(textScanner('a').line()).toBe(1);
  });

  test.each([
    ['1', 1],
    ['-1.5e-2', -0.015],
    ['+2.', 2],
    ['.5E1', 5],
    ['', NaN],
    ['x', NaN],
    ['1,5', NaN],
    ['0x10', NaN],
    ['0X10', NaN],
    ['0b1', NaN],
    ['0B1', NaN],
    ['0o7', NaN],
    ['0O7', NaN],
  ])('"%s" is the number %f', (word, value) => {
    expect(numberOf(word)).toBe(value);
  });
});

describe('places and counts in messages', () => {
  const place = (x: number, unit: 'mm' | 'um' = 'mm') =>
    meshFaultAt('open', 'near {place};', [x, 1.005, -2], unit);

  test('are printed in the unit of the file, and given in metres', () => {
    expect(place(-0.004)).toEqual({
      kind: 'open',
      message: 'near x 0.00, y 1.00, z -2.00 mm;',
      at: [-0.004 * 0.001, 1.005 * 0.001, -2 * 0.001],
    });
    expect(place(-0.006, 'um').message).toBe('near x -0.01, y 1.00, z -2.00 µm;');
    expect(place(999_999).message).toContain('x 999999.00,');
    expect(place(-999_999).message).toContain('x -999999.00,');
    expect(place(1e6).message).toContain('x 1.000e+6,');
    expect(place(-1e6).message).toContain('x -1.000e+6,');
  });

  test('one edge, two edges', () => {
    expect([0, 1, 2].map((count) => counted(count, 'edge'))).toEqual(['0 edges', '1 edge', '2 edges']);
  });

  test('a fault has a kind and a message', () => {
    expect([{ kind: 'open', message: 'x' }, { kind: 'open' }, { message: 'x' }, {}].map(isMeshFault)).toEqual(
      [true, false, false, false],
    );
  });

  test('limits are named with what came', () => {
    expect(fileSizeFault(150 * 2 ** 20)).toEqual({
      kind: 'limit',
      message: 'the file has 150.0 MB, the limit is 100 MB; export a coarser mesh',
    });
    expect(triangleLimitFault(MESH_LIMITS.triangles + 1)).toEqual({
      kind: 'limit',
      message:
        'the mesh has at least 2000001 triangles, the limit is 2000000; export it with a coarser tolerance',
    });
  });
});

describe('a stated length', () => {
  const message = (measured: number, stated: number, unit: 'm' | 'mm' = 'm', unitInFile?: boolean) =>
    statedLengthFault({ measured, stated, unit, ...(unitInFile === undefined ? {} : { unitInFile }) })
      ?.message;

  test.each([
    [2, 1, 'measures 2 m, 2 times the stated 1 m; correct the stated length or the file'],
    [1.99, 1, 'measures 1.99 m, 99 % more than the stated 1 m; correct the stated length or the file'],
    [1, 2, 'measures 1 m, 1/2 of the stated 2 m; correct the stated length or the file'],
    [1.02, 2, 'measures 1.02 m, 49 % less than the stated 2 m; correct the stated length or the file'],
    [0.97, 1, 'measures 0.97 m, 3 % less than the stated 1 m; correct the stated length or the file'],
  ])('measured %f m, stated %f m', (measured, stated, expected) => {
    expect(message(measured, stated)).toBe(expected);
  });

  test('feet and microns are named only where the file itself states its unit', () => {
    expect(message(1, 0.3048)).toBe(
      'measures 1 m, 3.28 times the stated 0.3048 m; correct the stated length or the file',
    );
    expect(message(1, 0.3048, 'm', false)).toBe(message(1, 0.3048));
    expect(message(1, 0.3048, 'm', true)).toBe(
      'measures 1 m, 3.28 times the stated 0.3048 m: the file is in ft; export it again with the unit ft',
    );
    expect(message(1, 0.001, 'mm', true)).toBe(
      'measures 1000 mm, 1000 times the stated 1 mm: the file is in um; export it again with the unit um',
    );
  });

  test.each([0, -1, NaN, Infinity])('%d is no length', (length) => {
    expect(() => message(length, 1)).toThrow(
      `statedLengthFault: wants measured positive and finite, got ${length}`,
    );
    expect(() => message(1, length)).toThrow(
      `statedLengthFault: wants stated positive and finite, got ${length}`,
    );
  });
});

describe('the format that a name announces', () => {
  test.each([
    ['a.stl', { format: 'stl' }],
    ['a.b.OBJ', { format: 'obj' }],
    ['.3mf', { format: '3mf' }],
  ])('%s', (name, format) => {
    expect(meshFormat(name)).toEqual(format);
  });

  test.each([
    ['grub', ''],
    ['a.stl/grub', ''],
    ['a.stl\\grub', ''],
    ['grub.', ''],
    ['grub.stlx', 'stlx'],
    [`grub.${'x'.repeat(30)}`, 'x'.repeat(20)],
  ])('%s is none', (name, ending) => {
    expect(meshFormat(name)).toEqual({
      kind: 'format',
      message: `"${ending}" is no mesh format that is read; export STL (with its unit stated), 3MF or OBJ`,
    });
  });

  test.each(['stl', 'obj', '3mf'] as const)('an empty %s file is refused before anything else', (format) => {
    expect(readMesh(new Uint8Array(), { format })).toEqual({
      kind: 'format',
      message: 'the file is empty; export it again',
    });
  });

  test('an OBJ file carries no unit either', () => {
    expect(readMesh(new Uint8Array(1), { format: 'obj' })).toMatchObject({
      kind: 'unit',
      message: 'an OBJ file carries no unit; state the one it was exported in, for example "unit: mm"',
    });
  });
});
