import { strToU8 } from 'fflate';
import { describe, expect, test, vi } from 'vitest';
import { MESH_LIMITS } from '../../../src/core/mesh/limits.ts';
import { meshVolume } from '../../../src/core/mesh/mass-properties.ts';
import type { Mesh, MeshFault } from '../../../src/core/mesh/mesh.ts';
import { readMesh } from '../../../src/core/mesh/read-mesh.ts';
import { box, binaryStl, flipped, joined, mapped, meshOf, torus, uvSphere } from '../../support/solids.ts';
import { faultOf, solidOf } from '../../support/read.ts';

// Every mesh here is written in mm; messages give places in mm, `at` is in metres.

const cube = box([10, 10, 10]);
const mm = (mesh: Mesh) => binaryStl(mesh, 1);
const read = (bytes: Uint8Array) => readMesh(bytes, { format: 'stl', unit: 'mm' });
const without = ({ positions, triangles }: Mesh, ...gone: number[]): Mesh => ({
  positions,
  triangles: triangles.filter((_, i) => !gone.includes(Math.floor(i / 3))),
});
const turned = (mesh: Mesh, triangle: number): Mesh => {
  const triangles = mesh.triangles.slice();
  triangles.set([triangles[3 * triangle + 1]!, triangles[3 * triangle]!], 3 * triangle);
  return { ...mesh, triangles };
};
const withFloat = (bytes: Uint8Array, offset: number, value: number) => {
  new DataView(bytes.buffer).setFloat32(offset, value, true);
  return bytes;
};

interface Case {
  readonly name: string;
  readonly bytes: Uint8Array;
  readonly kind: MeshFault['kind'];
  readonly message: string;
  readonly at?: MeshFault['at'];
}

// The place is the middle of the first edge in trouble, edges taken by the order in which the file brings their ends;
// box() brings bottom, top and the sides in turn.
const CORPUS: readonly Case[] = [
  {
    name: 'a cube with a triangle missing',
    bytes: mm(without(cube, 3)),
    kind: 'open',
    message: 'open edge near x 5.00, y 5.00, z 10.00 mm; 3 open edges; close the surface and export a solid',
    at: [0.005, 0.005, 0.01],
  },
  {
    name: 'a cube with a face missing',
    bytes: mm(without(cube, 2, 3)),
    kind: 'open',
    message: 'open edge near x 5.00, y 0.00, z 10.00 mm; 4 open edges; close the surface and export a solid',
  },
  {
    name: 'a single triangle',
    bytes: mm(
      meshOf(
        [
          [0, 0, 0],
          [4, 0, 0],
          [0, 4, 0],
        ],
        [[0, 1, 2]],
      ),
    ),
    kind: 'open',
    message: 'open edge near x 2.00, y 0.00, z 0.00 mm; 3 open edges; close the surface and export a solid',
  },
  {
    name: 'a corner 0.01 mm off, which is too far to join',
    bytes: withFloat(mm(cube), 84 + 12, 0.01),
    kind: 'open',
    message: 'open edge near x 0.00, y 5.00, z 0.00 mm; 4 open edges; close the surface and export a solid',
  },
  {
    name: 'a cube with one triangle turned over',
    bytes: mm(turned(cube, 0)),
    kind: 'inconsistent',
    message:
      'triangles face opposite ways across the edge near x 0.00, y 5.00, z 0.00 mm; 3 such edges; make the normals agree and export again',
  },
  {
    name: 'a cube with a triangle twice',
    bytes: mm({
      ...cube,
      triangles: Uint32Array.from([...cube.triangles, ...cube.triangles.subarray(0, 3)]),
    }),
    kind: 'inconsistent',
    message:
      'edge near x 0.00, y 5.00, z 0.00 mm belongs to more than two triangles; 3 such edges; join the parts into one solid',
  },
  {
    name: 'two cubes that share an edge',
    bytes: mm(joined(cube, box([10, 10, 10], [10, 10, 0]))),
    kind: 'inconsistent',
    message:
      'edge near x 10.00, y 10.00, z 5.00 mm belongs to more than two triangles; 1 such edge; join the parts into one solid',
  },
  {
    name: 'a cube inside out',
    bytes: mm(flipped(cube)),
    kind: 'inverted',
    message:
      'the whole surface faces inwards, seen first near x 0.00, y 0.00, z 0.00 mm; flip the normals in the CAD export',
  },
  {
    name: 'two cubes apart',
    bytes: mm(joined(cube, box([2, 2, 2], [20, 0, 0]))),
    kind: 'several bodies',
    message: '2 separate bodies; the second begins near x 20.00, y 0.00, z 0.00 mm; join them or export one',
  },
  {
    name: 'a cube and, beside it, a cube inside out',
    bytes: mm(joined(cube, flipped(box([2, 2, 2], [20, 0, 0])))),
    kind: 'inverted',
    message:
      'the separate piece near x 20.00, y 0.00, z 0.00 mm faces inwards and lies outside the body; remove it',
  },
  {
    name: 'a cube and a sheet of two faces',
    bytes: mm(
      joined(
        cube,
        meshOf(
          [
            [20, 0, 0],
            [24, 0, 0],
            [20, 4, 0],
          ],
          [
            [0, 1, 2],
            [0, 2, 1],
          ],
        ),
      ),
    ),
    kind: 'degenerate',
    message: 'the piece near x 20.00, y 0.00, z 0.00 mm encloses no volume; remove it or give it thickness',
  },
  {
    name: 'a box pressed flat',
    bytes: mm(mapped(cube, ([x, y]) => [x, y, 0])),
    kind: 'inconsistent',
    message:
      'edge near x 5.00, y 5.00, z 0.00 mm belongs to more than two triangles; 1 such edge; join the parts into one solid',
  },
  {
    name: 'all corners in one point',
    bytes: mm(mapped(cube, () => [1, 2, 3])),
    kind: 'degenerate',
    message: 'no triangle of the mesh has any area',
  },
  {
    name: 'a corner that is not a number',
    bytes: withFloat(mm(cube), 84 + 50 * 4 + 12, NaN),
    kind: 'not finite',
    message: 'triangle 5 has a coordinate that is not a number; export the file again',
  },
  {
    name: 'an infinite corner',
    bytes: withFloat(mm(cube), 84 + 50 * 11 + 40, -Infinity),
    kind: 'not finite',
    message: 'triangle 12 has a coordinate that is not a number; export the file again',
  },
  {
    name: 'a corner beyond all reason',
    bytes: withFloat(mm(cube), 84 + 12, 3e38),
    kind: 'limit',
    message: 'a corner lies more than 1000 km from the origin; check the unit and the file',
  },
  {
    name: 'no triangles',
    bytes: mm({ ...cube, triangles: new Uint32Array() }),
    kind: 'format',
    message: 'the file holds no triangles; export the solid again',
  },
  {
    name: 'a file cut short',
    bytes: mm(cube).subarray(0, 500),
    kind: 'format',
    message:
      'the STL file states 12 triangles, which take 684 bytes, but has 500: it is cut short; export it again',
  },
  {
    name: 'a file with bytes behind its end',
    bytes: Uint8Array.from([...mm(cube), 0]),
    kind: 'format',
    message:
      'the STL file states 12 triangles, which take 684 bytes, but has 685: it has bytes that do not belong to it; export it again',
  },
  {
    name: 'a count of four thousand million triangles',
    bytes: mm(cube).map((byte, i) => (i >= 80 && i < 84 ? 255 : byte)),
    kind: 'format',
    message:
      'the STL file states 4294967295 triangles, which take 214748364834 bytes, but has 684: it is cut short; export it again',
  },
  {
    name: 'a header and nothing else',
    bytes: new Uint8Array(20),
    kind: 'format',
    message: 'this is no STL file: 20 bytes are fewer than its header has; export it again',
  },
  {
    name: 'an empty file',
    bytes: new Uint8Array(),
    kind: 'format',
    message: 'the file is empty; export it again',
  },
  {
    name: 'a web page',
    bytes: strToU8(`<!doctype html><title>Sign in</title>${'<p>Please sign in</p>'.repeat(10)}`),
    kind: 'format',
    message: 'this is no STL file: it is text that does not begin with "solid"; export it again',
  },
];

test.each(CORPUS)('$name is refused in one sentence', ({ bytes, kind, message, at }) => {
  const fault = faultOf(read(bytes));
  expect({ kind: fault.kind, message: fault.message }).toEqual({ kind, message });
  if (at) expect(fault.at).toEqual(at);
});

test('places are given in the unit of the file', () => {
  const fault = faultOf(readMesh(mm(without(cube, 3)), { format: 'stl', unit: 'in' }));
  expect(fault.message).toContain('near x 5.00, y 5.00, z 10.00 in;');
  expect(fault.at![2]).toBeCloseTo(0.254, 12);
});

describe('what is certain is repaired, and said', () => {
  test('a hairline gap is joined', () => {
    const solid = solidOf(read(withFloat(mm(cube), 84 + 12, 1e-5)));
    expect(solid.repairs).toEqual(['1 point closer than 0.00017 mm to another joined']);
    expect(solid.mesh.positions.length).toBe(24);
    expect(Math.abs(meshVolume(solid.mesh) / 1e-6 - 1)).toBeLessThan(2e-6);
  });

  test('a triangle that uses a point twice is dropped', () => {
    const extra = { ...cube, triangles: Uint32Array.from([...cube.triangles, 0, 0, 1, 5, 7, 7]) };
    const solid = solidOf(read(mm(extra)));
    expect(solid.repairs).toEqual(['2 triangles without area dropped']);
    expect(solid.triangles).toBe(12);
  });

  test('a triangle without area that holds the surface together is kept', () => {
    // The top face's diagonal gets a point on it, which one side meets through a flat triangle.
    const points = [...Array(8).keys()].map(
      (i) => [...cube.positions.subarray(3 * i, 3 * i + 3)] as [number, number, number],
    );
    const faces = [...Array(12).keys()].map(
      (i) => [...cube.triangles.subarray(3 * i, 3 * i + 3)] as [number, number, number],
    );
    const split = meshOf(
      [...points, [5, 5, 10]],
      [...faces.slice(0, 2), [4, 5, 8], [5, 7, 8], [4, 8, 7], faces[3]!, ...faces.slice(4)],
    );
    const solid = solidOf(read(mm(split)));
    expect(solid.repairs).toEqual(['1 triangle without area kept, since the surface would open without']);
    expect(meshVolume(solid.mesh)).toBeCloseTo(1e-6, 15);
  });

  test('a closed void inside is kept and taken off the volume', () => {
    const hollow = joined(cube, flipped(box([2, 2, 2], [4, 4, 4])));
    const solid = solidOf(read(mm(hollow)));
    expect(solid.repairs).toEqual(['1 closed void inside the body kept']);
    expect(Math.abs(meshVolume(solid.mesh) / 992e-9 - 1)).toBeLessThan(1e-12);
  });

  test('a sound file needs no repair', () => {
    for (const mesh of [cube, uvSphere(5, 16, 32), torus(10, 3, 32, 16)])
      expect(solidOf(read(mm(mesh))).repairs).toEqual([]);
  });
});

describe('limits', () => {
  // Files of a hundred megabytes, on a busy machine.
  vi.setConfig({ testTimeout: 30_000 });

  const claimed = (count: number) => {
    const bytes = new Uint8Array(84 + 50 * count);
    new DataView(bytes.buffer).setUint32(80, count, true);
    return bytes;
  };

  test('two million triangles are looked at, one more is not', () => {
    expect(faultOf(read(claimed(MESH_LIMITS.triangles - 1))).kind).toBe('degenerate');
    expect(faultOf(read(claimed(MESH_LIMITS.triangles))).kind).toBe('degenerate');
    expect(faultOf(read(claimed(MESH_LIMITS.triangles + 1))).kind).toBe('limit');
  });

  test('a hundred megabytes are looked at, one byte more is not', () => {
    const bytes = new Uint8Array(MESH_LIMITS.bytes + 1);
    expect(faultOf(read(bytes.subarray(0, MESH_LIMITS.bytes - 1))).kind).toBe('format');
    expect(faultOf(read(bytes.subarray(0, MESH_LIMITS.bytes))).kind).toBe('format');
    expect(faultOf(read(bytes))).toEqual({
      kind: 'limit',
      message: 'the file has 100.0 MB, the limit is 100 MB; export a coarser mesh',
    });
  });
});
