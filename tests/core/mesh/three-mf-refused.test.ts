import { strToU8, zipSync } from 'fflate';
import { expect, test } from 'vitest';
import { readMesh } from '../../../src/core/mesh/read-mesh.ts';
import { modelXml, objectXml, RELATIONS, tampered, threeMf } from '../../support/mesh-files.ts';
import { faultOf } from '../../support/read.ts';
import { box, flipped, meshOf } from '../../support/solids.ts';

const cube = objectXml(1, box([10, 10, 10]), 1);
const read = (bytes: Uint8Array) => readMesh(bytes, { format: '3mf' });
const bomb = (depth: number) =>
  cube +
  Array.from({ length: depth }, (_, i) => {
    const component = `<component objectid="${i + 1}"/>`;
    return `<object id="${i + 2}"><components>${component.repeat(10)}</components></object>`;
  }).join('');
const part = '"/3D/3dmodel.model" in the 3MF package';
const build = (objects: string, items?: string, attributes?: string) =>
  threeMf(modelXml(objects, items, attributes));

test.each([
  [
    'no zip archive',
    strToU8('hello'.repeat(50)),
    'format',
    'the 3MF package is damaged: it is no zip archive, or cut short; export it again',
  ],
  [
    'a zip archive cut short',
    build(cube).subarray(0, 300),
    'format',
    'the 3MF package is damaged: it is no zip archive, or cut short; export it again',
  ],
  [
    'a zip archive of something else',
    zipSync({ 'a.txt': strToU8('hello') }),
    'format',
    'this is no 3MF file: its package has no list of relations; export it again',
  ],
  [
    'relations that name no model',
    zipSync({ '_rels/.rels': strToU8('<Relationships/>') }),
    'format',
    'this is no 3MF file: its package names no model; export it again',
  ],
  [
    'relations to a part that is not there',
    zipSync({ '_rels/.rels': strToU8(RELATIONS) }),
    'format',
    `${part} is missing; export the file again`,
  ],
  [
    'a wrong checksum',
    tampered(build(cube), 'crc', 1),
    'format',
    'the 3MF package is damaged: the checksum of "3D/3dmodel.model" does not agree; export it again',
  ],
  [
    'a stated size that is too small',
    tampered(build(cube), 'unpacked', 1000),
    'format',
    'the 3MF package is damaged: the size of "3D/3dmodel.model" is not as stated; export it again',
  ],
  [
    'a stated size that is too large',
    tampered(build(cube), 'unpacked', 3000),
    'format',
    'the 3MF package is damaged: the size of "3D/3dmodel.model" is not as stated; export it again',
  ],
  [
    'a password',
    tampered(build(cube), 'flags', 1),
    'format',
    'the 3MF package is encrypted; export it without a password',
  ],
  [
    'a directory that is too short',
    tampered(build(cube), 'count', 3),
    'format',
    'the 3MF package is damaged: its directory is broken; export it again',
  ],
  [
    'a name twice',
    zipSync({ '3D/a.model': strToU8('a'), '3d/A.MODEL': strToU8('b') }),
    'format',
    'the 3MF package is damaged: it holds "3d/A.MODEL" twice; export it again',
  ],
  [
    'a document type',
    threeMf(modelXml(cube).replace('<model', '<!DOCTYPE model [<!ENTITY a "b">]><model')),
    'format',
    `${part} has a document type (DOCTYPE), which 3MF does not allow; export the file again`,
  ],
  [
    'an entity from nowhere',
    build('<object id="1" name="&bomb;"/>'),
    'format',
    `${part}, line 2: undefined entity; export the file again`,
  ],
  [
    'XML that breaks off',
    threeMf(modelXml(cube).slice(0, 900)),
    'format',
    `${part}, line 2: unclosed tag: model; export the file again`,
  ],
  [
    'text that is no UTF-8',
    zipSync({ '_rels/.rels': strToU8(RELATIONS), '3D/3dmodel.model': Uint8Array.of(60, 255, 254) }),
    'format',
    `${part} is not text in UTF-8; export the file again`,
  ],
  [
    'another kind of XML',
    threeMf('<svg xmlns="http://www.w3.org/2000/svg"/>'),
    'format',
    `${part}: it is no 3MF model: <svg> is not of its namespace; export the file again`,
  ],
  [
    'an extension that changes the shape',
    build(
      cube,
      undefined,
      'requiredextensions="b" xmlns:b="http://schemas.microsoft.com/3dmanufacturing/beamlattice/2017/02"',
    ),
    'format',
    `${part}: it needs the extension "b", and only plain triangle meshes are read; export the file again`,
  ],
  [
    'nothing to build',
    build(cube, ''),
    'format',
    'the 3MF file builds nothing; export it again with the solid in it',
  ],
  [
    'an object that is not there',
    build(cube, '<item objectid="7"/>'),
    'index',
    'the 3MF file places object "7", which it does not hold',
  ],
  [
    'an object id twice',
    build(cube + cube),
    'format',
    `${part}: object id "1" is missing or doubled; export the file again`,
  ],
  [
    'a transform of eleven numbers',
    build(cube, '<item objectid="1" transform="1 0 0 0 1 0 0 0 1 0 0"/>'),
    'format',
    `${part}: the transform "1 0 0 0 1 0 0 0 1 0 0" is not 12 numbers; export the file again`,
  ],
  [
    'a transform that flattens',
    build(cube, '<item objectid="1" transform="1 0 0 0 1 0 0 0 0 0 0 0"/>'),
    'format',
    'the 3MF file flattens an object by its transform; export it again',
  ],
  [
    'a vertex that is no point',
    build(cube.replace('x="10"', 'x="ten"')),
    'not finite',
    `${part}: vertex "ten 0 0" is not a point; export the file again`,
  ],
  [
    'a triangle to nowhere',
    build(cube.replace('v1="0"', 'v1="8"')),
    'index',
    `${part}: triangle "8 2 3" names a point that is not there; export the file again`,
  ],
  [
    'an object without triangles',
    build('<object id="1"><mesh><vertices/><triangles/></mesh></object>'),
    'format',
    'the file holds no triangles; export the solid again',
  ],
  [
    'an object within itself',
    build('<object id="1"><components><component objectid="1"/></components></object>'),
    'limit',
    'the 3MF file nests components more than 16 deep; export one solid',
  ],
  [
    'a hundred thousand components from six objects',
    build(bomb(5), '<item objectid="6"/>'),
    'limit',
    'the 3MF file places more than 10000 components; export one solid',
  ],
  [
    'a solid inside out',
    build(objectXml(1, flipped(box([10, 10, 10])), 1)),
    'inverted',
    'the whole surface faces inwards, seen first near x 0.00, y 0.00, z 0.00 mm; flip the normals in the CAD export',
  ],
  [
    'a single triangle',
    build(
      objectXml(
        1,
        meshOf(
          [
            [0, 0, 0],
            [1, 0, 0],
            [0, 1, 0],
          ],
          [[0, 1, 2]],
        ),
        1,
      ),
    ),
    'open',
    'open edge near x 0.50, y 0.00, z 0.00 mm; 3 open edges; close the surface and export a solid',
  ],
] as const)('%s is refused in one sentence', (_, bytes, kind, message) => {
  expect(faultOf(read(bytes))).toMatchObject({ kind, message });
});
