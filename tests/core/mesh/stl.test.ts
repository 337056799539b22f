import { strToU8 } from 'fflate';
import { expect, test } from 'vitest';
import { meshSurface, meshVolume } from '../../../src/core/mesh/mass-properties.ts';
import { meshFormat, readMesh } from '../../../src/core/mesh/read-mesh.ts';
import type { MeshUnit } from '../../../src/core/mesh/result.ts';
import { asciiStl } from '../../support/mesh-files.ts';
import { faultOf, solidOf } from '../../support/read.ts';
import { binaryStl, box, uvSphere } from '../../support/solids.ts';

const cube = box([0.01, 0.01, 0.01]);
const read = (bytes: Uint8Array, unit?: MeshUnit) => readMesh(bytes, { format: 'stl', unit });
const text = new TextDecoder().decode(asciiStl(cube));

test.each([
  ['um', 1e6],
  ['mm', 1000],
  ['cm', 100],
  ['m', 1],
  ['in', 1 / 0.0254],
  ['ft', 1 / 0.3048],
] as const)('a 1 cm³ cube written in %s is 1e-6 m³', (unit, perMetre) => {
  const solid = solidOf(read(binaryStl(cube, perMetre), unit));
  expect(Math.abs(meshVolume(solid.mesh) / 1e-6 - 1)).toBeLessThan(3e-7);
  expect(solid.triangles).toBe(12);
  expect(solid.mesh.positions.length / 3).toBe(8);
});

test('a binary file is told by its size, not by its header', () => {
  const bytes = binaryStl(cube);
  bytes.set(strToU8('solid made by some CAD program'));
  expect(solidOf(read(bytes, 'mm')).triangles).toBe(12);
});

test('a file that does not begin at the start of its buffer is read too', () => {
  const bytes = binaryStl(cube);
  const within = new Uint8Array(bytes.length + 7);
  within.set(bytes, 7);
  expect(solidOf(read(within.subarray(7), 'mm')).triangles).toBe(12);
});

test('ASCII and binary give the same solid', () => {
  const sphere = uvSphere(0.01, 12, 24);
  const [ascii, binary] = [asciiStl(sphere), binaryStl(sphere)].map(
    (bytes) => solidOf(read(bytes, 'mm')).mesh,
  );
  expect(ascii!.triangles).toEqual(binary!.triangles);
  // The binary file rounds coordinates to 24 bits.
  expect(Math.abs(meshVolume(ascii!) / meshVolume(binary!) - 1)).toBeLessThan(1e-6);
  expect(Math.abs(meshSurface(ascii!) / meshSurface(binary!) - 1)).toBeLessThan(1e-6);
});

test('capitals, tabs, CR LF, exponents, a name of several words and two solids in a file are all usual', () => {
  const loud = text
    .replace('solid test', 'solid my first bait')
    .replaceAll('\n', '\r\n')
    .replaceAll('  ', '\t')
    .toUpperCase();
  const far = text.replaceAll('10', '1.0E+1').replace('endsolid test', 'endsolid');
  expect(solidOf(read(strToU8(loud), 'mm')).triangles).toBe(12);
  expect(solidOf(read(strToU8(far), 'mm')).triangles).toBe(12);
  expect(faultOf(read(strToU8(text + text), 'mm')).kind).toBe('inconsistent');
});

test('-0 and 0 are one coordinate', () => {
  const bytes = strToU8(text.replace('vertex 0 0 0', 'vertex -0 0 -0.0'));
  expect(solidOf(read(bytes, 'mm')).mesh.positions.length / 3).toBe(8);
});

test.each([
  [
    'cut short',
    text.slice(0, text.indexOf('vertex')),
    'format',
    'the STL file ends where "vertex" should stand; it is cut short, export it again',
  ],
  [
    'a wrong word',
    text.replace('outer', 'inner'),
    'format',
    'line 3: "inner" stands where "outer" should; export the STL file again',
  ],
  [
    'a coordinate that is a word',
    text.replace('vertex 0 0 0', 'vertex 0 zero 0'),
    'not finite',
    'line 4: "0 zero 0" is not a point; export the file again',
  ],
  [
    'nan',
    text.replace('vertex 0 0 0', 'vertex nan 0 0'),
    'not finite',
    'line 4: "nan 0 0" is not a point; export the file again',
  ],
  [
    'a hexadecimal coordinate',
    text.replace('vertex 0 0 0', 'vertex 0x10 0 0'),
    'not finite',
    'line 4: "0x10 0 0" is not a point; export the file again',
  ],
  [
    'nothing after its name',
    'solid nothing\n',
    'format',
    'the file holds no triangles; export the solid again',
  ],
] as const)('an ASCII file: %s, is refused with its line', (_, content, kind, message) => {
  expect(faultOf(read(strToU8(content), 'mm'))).toEqual({ kind, message });
});

test('no unit, no solid', () => {
  expect(faultOf(read(binaryStl(cube)))).toEqual({
    kind: 'unit',
    message: 'an STL file carries no unit; state the one it was exported in, for example "unit: mm"',
  });
});

test('the ending of a name decides the format; STEP is told what to export instead', () => {
  expect(meshFormat('baits/Grub.STL')).toEqual({ format: 'stl' });
  expect(meshFormat('grub.3mf')).toEqual({ format: '3mf' });
  for (const name of ['grub.step', 'grub.stp', 'GRUB.STP']) {
    expect(faultOf(meshFormat(name)).message).toBe(
      'STEP files are not read; export STL (with its unit stated), 3MF or OBJ from the CAD program',
    );
  }
  expect(faultOf(meshFormat('grub')).kind).toBe('format');
});

test('a format that does not exist is a mistake of the programmer', () => {
  expect(() => readMesh(binaryStl(cube), { format: 'ply' as 'stl', unit: 'mm' })).toThrow(
    'readMesh: wants format stl, obj or 3mf, got ply',
  );
});
