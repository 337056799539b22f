import { strToU8 } from 'fflate';
import { expect, test } from 'vitest';
import { massProperties, meshVolume } from '../../../src/core/mesh/mass-properties.ts';
import { readMesh } from '../../../src/core/mesh/read-mesh.ts';
import { obj } from '../../support/mesh-files.ts';
import { faultOf, solidOf } from '../../support/read.ts';
import { torus } from '../../support/solids.ts';

const read = (text: string) => readMesh(strToU8(text), { format: 'obj', unit: 'mm' });

const POINTS = ['0 0 0', '10 0 0', '10 10 0', '0 10 0', '0 0 10', '10 0 10', '10 10 10', '0 10 10'].map(
  (point) => `v ${point}`,
);
const QUADS = ['4 3 2 1', '5 6 7 8', '1 2 6 5', '2 3 7 6', '3 4 8 7', '4 1 5 8'].map((face) => `f ${face}`);
const CUBE = [...POINTS, ...QUADS].join('\n');

const volumeOf = (text: string) => meshVolume(solidOf(read(text)).mesh);

test('quads are cut into triangles', () => {
  expect(volumeOf(CUBE)).toBeCloseTo(1e-6, 15);
  expect(solidOf(read(CUBE)).triangles).toBe(12);
});

test('textures, normals, groups, materials, comments, colours and long lines change nothing', () => {
  const dressed = [
    '# a cube',
    'mtllib cube.mtl',
    'o cube',
    ...POINTS.map((point) => `${point} 0.5 0.5 0.5 # grey`),
    'vt 0 0',
    'vn 0 0 1',
    's off',
    'usemtl clay',
    'g sides',
    ...QUADS.map((face) => face.replaceAll(/(\d+)/gu, '$1/1/1')).map((face) => face.replace(' ', ' \\\n ')),
  ].join('\r\n');
  expect(volumeOf(dressed)).toBeCloseTo(1e-6, 15);
});

test('negative numbers count back from the last point', () => {
  const backwards = CUBE.replace(/f .*/gu, (face) =>
    face.replaceAll(/\d/gu, (digit) => String(Number(digit) - 9)),
  );
  expect(volumeOf(backwards)).toBeCloseTo(1e-6, 15);
});

test('points that no face uses do not stretch the box', () => {
  const solid = solidOf(
    read(
      `v 999 999 999\n${CUBE.replaceAll(/f .*/gu, (face) => face.replaceAll(/\d/gu, (d) => String(Number(d) + 1)))}`,
    ),
  );
  expect(massProperties(solid.mesh).box).toEqual({ min: [0, 0, 0], max: [0.01, 0.01, 0.01] });
});

test('points written twice are welded, and said', () => {
  const soup = QUADS.map((face) =>
    face
      .slice(2)
      .split(' ')
      .map((n) => POINTS[Number(n) - 1])
      .join('\n'),
  ).join('\n');
  const faces = QUADS.map((_, i) => `f ${[1, 2, 3, 4].map((k) => 4 * i + k).join(' ')}`).join('\n');
  const solid = solidOf(read(`${soup}\n${faces}`));
  expect(solid.repairs).toEqual(['16 duplicate points welded']);
  expect(solid.mesh.positions.length / 3).toBe(8);
});

test('a polygon with a notch is cut from a corner that sees all of it', () => {
  // An L of area 8·4 + 4·4 = 48; its tips do not see each other, its inner corner sees all of it.
  const outline = [
    [0, 0],
    [8, 0],
    [8, 4],
    [4, 4],
    [4, 8],
    [0, 8],
  ] as const;
  const points = [0, 2].flatMap((z) => outline.map(([x, y]) => `v ${x} ${y} ${z}`));
  const sides = outline.map((_, i) => `f ${i + 1} ${((i + 1) % 6) + 1} ${((i + 1) % 6) + 7} ${i + 7}`);
  const text = [...points, 'f 6 5 4 3 2 1', 'f 7 8 9 10 11 12', ...sides].join('\n');
  expect(volumeOf(text)).toBeCloseTo(48 * 2 * 1e-9, 15);
});

test.each([
  [
    'a point that is no point',
    CUBE.replace('v 10 0 0', 'v 10 x 0'),
    'not finite',
    'line 2: "v 10 x 0" is not a point; export the file again',
  ],
  [
    'a point with two coordinates',
    CUBE.replace('v 10 0 0', 'v 10 0'),
    'not finite',
    'line 2: "v 10 0" is not a point; export the file again',
  ],
  [
    'a face before its points',
    `f 1 2 3\n${CUBE}`,
    'index',
    'line 1: face corner "1" names no point before it; export the file again',
  ],
  [
    'a corner number of zero',
    CUBE.replace('f 4 3 2 1', 'f 4 3 2 0'),
    'index',
    'line 9: face corner "0" names no point before it; export the file again',
  ],
  [
    'a corner number too high',
    CUBE.replace('f 4 3 2 1', 'f 4 3 2 9'),
    'index',
    'line 9: face corner "9" names no point before it; export the file again',
  ],
  [
    'a corner number too far back',
    CUBE.replace('f 4 3 2 1', 'f 4 3 2 -9'),
    'index',
    'line 9: face corner "-9" names no point before it; export the file again',
  ],
  [
    'a corner number with a fraction',
    CUBE.replace('f 4 3 2 1', 'f 4 3 2 1.5'),
    'index',
    'line 9: face corner "1.5" names no point before it; export the file again',
  ],
  [
    'a face of two corners',
    CUBE.replace('f 4 3 2 1', 'f 4 3'),
    'format',
    'line 9: a face has 2 corners and needs 3; export the file again',
  ],
  [
    'a twisted quad',
    CUBE.replace('v 10 10 10', 'v 10 10 11'),
    'format',
    'line 10: a face of 4 corners is not flat; export the solid as triangles',
  ],
  [
    'a free-form surface',
    `${CUBE}\ncstype bezier`,
    'format',
    'line 15: "cstype" belongs to a free-form surface; export the solid as triangles',
  ],
  [
    'a word that is no statement',
    `hello\n${CUBE}`,
    'format',
    'line 1: "hello" is no OBJ statement; export the file again',
  ],
  ['points and no faces', POINTS.join('\n'), 'format', 'the file holds no triangles; export the solid again'],
  [
    'five faces of six',
    CUBE.replace('f 4 3 2 1', ''),
    'open',
    'open edge near x 5.00, y 0.00, z 0.00 mm; 4 open edges; close the surface and export a solid',
  ],
] as const)('%s is refused with its line', (_, text, kind, message) => {
  expect(faultOf(read(text))).toMatchObject({ kind, message });
});

test('a polygon that no corner sees whole is refused', () => {
  const comb = [
    [0, 0],
    [12, 0],
    [12, 8],
    [10, 8],
    [10, 2],
    [7, 2],
    [7, 8],
    [5, 8],
    [5, 2],
    [2, 2],
    [2, 8],
    [0, 8],
  ];
  const text = [...comb.map(([x, y]) => `v ${x} ${y} 0`), `f ${comb.map((_, i) => i + 1).join(' ')}`].join(
    '\n',
  );
  expect(faultOf(read(text)).message).toBe(
    'line 13: a face of 12 corners is concave; export the solid as triangles',
  );
});

test('the longest polygon is read, one corner more is not', () => {
  const disc = (corners: number) =>
    Array.from({ length: corners }, (_, i) => {
      const angle = (2 * Math.PI * i) / corners;
      return `v ${Math.cos(angle)} ${Math.sin(angle)} 0`;
    }).join('\n') + `\nf ${Array.from({ length: corners }, (_, i) => i + 1).join(' ')}`;
  expect(faultOf(read(disc(1000))).kind).toBe('open');
  expect(faultOf(read(disc(1001))).message).toBe(
    'line 1002: a face has 1001 corners, the limit is 1000; export the solid as triangles',
  );
});

test('a torus keeps its volume to the last digits', () => {
  const mesh = torus(0.01, 0.003, 32, 16);
  const solid = solidOf(readMesh(obj(mesh), { format: 'obj', unit: 'mm' }));
  expect(Math.abs(meshVolume(solid.mesh) / meshVolume(mesh) - 1)).toBeLessThan(1e-12);
});
