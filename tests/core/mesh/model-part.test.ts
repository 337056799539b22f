import { strToU8, zipSync } from 'fflate';
import { describe, expect, test } from 'vitest';
import { MESH_LIMITS } from '../../../src/core/mesh/limits.ts';
import { meshVolume } from '../../../src/core/mesh/mass-properties.ts';
import { modelPart } from '../../../src/core/mesh/model-part.ts';
import { readMesh } from '../../../src/core/mesh/read-mesh.ts';
import { modelXml, objectXml, threeMf } from '../../support/mesh-files.ts';
import { faultOf, solidOf } from '../../support/read.ts';
import { box } from '../../support/solids.ts';

const NAMESPACE = 'http://schemas.microsoft.com/3dmanufacturing/core/2015/02';
const PRODUCTION = 'http://schemas.microsoft.com/3dmanufacturing/production/2015/06';

describe('a model part of a 3MF package', () => {
  const part = (inside: string, attributes = `xmlns="${NAMESPACE}"`, tag = 'model') =>
    modelPart(strToU8(`<${tag} ${attributes}>${inside}</${tag}>`), 'x');
  const message = (inside: string, attributes?: string, tag?: string) =>
    faultOf(part(inside, attributes, tag)).message;
  const IDENTITY = [1, 0, 0, 0, 1, 0, 0, 0, 1, 0, 0, 0];

  test('objects with their points, triangles and components; what is built', () => {
    const inside =
      '<object id="1"><vertex x="1" y="2" z="3"/><vertex x="4" y="5" z="6"/><vertex x="7" y="8" z="9"/>' +
      '<triangle v1="0" v2="2" v3="1"/></object>' +
      '<object id="2" type="support"><component objectid="1"/><other/></object>' +
      '<item objectid="2" transform=" 1 2 3 4 5 6\n7 8 9 10 11 12 "/><item/>';
    expect(part(inside)).toEqual({
      unit: 'mm',
      objects: new Map([
        [
          '1',
          { type: 'model', positions: [1, 2, 3, 4, 5, 6, 7, 8, 9], triangles: [0, 2, 1], components: [] },
        ],
        [
          '2',
          {
            type: 'support',
            positions: [],
            triangles: [],
            components: [{ path: undefined, id: '1', transform: IDENTITY }],
          },
        ],
      ]),
      build: [
        { path: undefined, id: '2', transform: [1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12] },
        { path: undefined, id: '', transform: IDENTITY },
      ],
    });
  });

  test('elements of other namespaces, and those outside an object, say nothing', () => {
    const prefixed = `xmlns:m="${NAMESPACE}"`;
    const one = part('<object id="9"/><m:object id="1"/>', prefixed, 'm:model');
    expect('objects' in one && [...one.objects.keys()]).toEqual(['1']);
    expect(
      part('<vertex x="1" y="2" z="3"/><triangle v1="0" v2="0" v3="0"/><component objectid="1"/>'),
    ).toEqual({
      unit: 'mm',
      objects: new Map(),
      build: [],
    });
  });

  test.each(['p', 'q'])('paths stand under the prefix of their own extension, %s', (prefix) => {
    const attributes = `xmlns="${NAMESPACE}" xmlns:${prefix}="${PRODUCTION}" requiredextensions="${prefix}"`;
    expect(part(`<item objectid="1" ${prefix}:path="/a"/>`, attributes)).toMatchObject({
      build: [{ path: '/a' }],
    });
  });

  test('extensions may be many, and known', () => {
    const material = 'http://schemas.microsoft.com/3dmanufacturing/material/2015/02';
    const spaces = `xmlns="${NAMESPACE}" xmlns:p="${PRODUCTION}" xmlns:m="${material}" xmlns:b="http://b"`;
    expect(part('', `${spaces} requiredextensions=" p  m "`)).toMatchObject({ unit: 'mm' });
    for (const needed of ['p b', 'b', 'p c m']) {
      const first = needed.includes('b') ? 'b' : 'c';
      expect(message('', `${spaces} requiredextensions="${needed}"`)).toBe(
        `x: it needs the extension "${first}", and only plain triangle meshes are read; export the file again`,
      );
    }
  });

  test.each([
    ['nothing', '', 'x, line 1: document must contain a root element.'],
    [
      'a root of another namespace',
      '<a/>',
      'x: it is no 3MF model: <a> is not of its namespace; export the file again',
    ],
    [
      'a namespace that is no attribute for it',
      `<a b="${NAMESPACE}"/>`,
      'x: it is no 3MF model: <a> is not of its namespace; export the file again',
    ],
    [
      'a namespace in an attribute that only begins like it',
      `<a xmlnsx="${NAMESPACE}"/>`,
      'x: it is no 3MF model: <a> is not of its namespace; export the file again',
    ],
    [
      'a root of another name',
      `<mesh xmlns="${NAMESPACE}"/>`,
      'x: it begins with <mesh>, not with <model>; export the file again',
    ],
    [
      'a root without its prefix',
      `<model xmlns:m="${NAMESPACE}"/>`,
      'x: it begins with <model>, not with <model>; export the file again',
    ],
  ])('%s is refused', (_, text, expected) => {
    expect(faultOf(modelPart(strToU8(text), 'x')).message).toContain(expected.replace(/\.$/u, ''));
  });

  test.each([
    ['<object/>', 'x: object id "" is missing or doubled; export the file again'],
    ['<item transform="1"/>', 'x: the transform "1" is not 12 numbers; export the file again'],
    [
      `<item transform="${'1 '.repeat(11)}x"/>`,
      `x: the transform "${'1 '.repeat(11)}x" is not 12 numbers; export the file again`,
    ],
    ['<object id="1"><vertex/></object>', 'x: vertex "  " is not a point; export the file again'],
    [
      '<object id="1"><vertex x="1" y="2"/></object>',
      'x: vertex "1 2 " is not a point; export the file again',
    ],
    [
      '<object id="1"><triangle v1="0"/></object>',
      'x: triangle "0  " names a point that is not there; export the file again',
    ],
    ...['-1', '1', '0.5', ''].map((corner) => [
      `<object id="1"><vertex x="1" y="2" z="3"/><triangle v1="0" v2="0" v3="${corner}"/></object>`,
      `x: triangle "0 0 ${corner}" names a point that is not there; export the file again`,
    ]),
  ])('%s is refused', (inside, expected) => {
    expect(message(inside!)).toBe(expected);
  });

  test('long words are cut where they are told', () => {
    const long = 'y'.repeat(99);
    expect(message('', `xmlns="${NAMESPACE}"`, long)).toContain(`<${'y'.repeat(40)}>,`);
    expect(message('', 'a="b"', long)).toContain(`<${'y'.repeat(40)}> is`);
    expect(message(`<object id="${long}"/><object id="${long}"/>`)).toContain(`"${'y'.repeat(40)}"`);
    expect(message('', `xmlns="${NAMESPACE}" requiredextensions="${long}"`)).toContain(`"${'y'.repeat(40)}"`);
    expect(message('', `xmlns="${NAMESPACE}" unit="${long}"`)).toContain(`"${'y'.repeat(40)}" is no unit`);
    expect(message(`<item transform="${long}"/>`)).toContain(`"${'y'.repeat(60)}" is`);
    expect(message(`<object id="1"><vertex x="${long}"/></object>`)).toContain(`"${'y'.repeat(60)}" is`);
    expect(message(`<object id="1"><triangle v1="${long}"/></object>`)).toContain(
      `"${'y'.repeat(60)}" names`,
    );
  });
});

describe('a 3MF package', () => {
  const cube = objectXml(1, box([10, 10, 10]), 1);
  const read = (bytes: Uint8Array) => readMesh(bytes, { format: '3mf' });
  const model = (objects: string, items?: string, attributes?: string) =>
    read(threeMf(modelXml(objects, items, attributes)));

  test('several supports are left out, and counted', () => {
    const support = (id: number) => objectXml(id, box([1, 1, 1]), 1).replace('"model"', '"support"');
    const items = [1, 2, 3].map((id) => `<item objectid="${id}"/>`).join('');
    expect(solidOf(model(cube + support(2) + support(3), items)).repairs).toEqual([
      '2 support or surface objects of the 3MF left out',
    ]);
  });

  test('a mirror in a mirror is none: the body faces outwards and lies where both put it', () => {
    const mirror = 'transform="-1 0 0 0 1 0 0 0 1 0 0 0"';
    const nested = `${cube}<object id="2"><components><component objectid="1" ${mirror}/></components></object>`;
    expect(meshVolume(solidOf(model(nested, `<item objectid="2" ${mirror}/>`)).mesh)).toBeCloseTo(1e-6, 15);
    expect(meshVolume(solidOf(model(nested, '<item objectid="2"/>')).mesh)).toBeCloseTo(1e-6, 15);
  });

  test('parts have to agree in their unit', () => {
    const component = '<component p:path="/a.model" objectid="1"/>';
    const objects = `<object id="8"><components>${component}</components></object>`;
    const start = modelXml(objects, '<item objectid="8"/>', `unit="inch" xmlns:p="${PRODUCTION}"`);
    const package_ = (unit: string) =>
      threeMf(start, { 'a.model': strToU8(modelXml(cube, '', `unit="${unit}"`)) });
    expect(solidOf(read(package_('inch'))).unit).toBe('in');
    expect(faultOf(read(package_('meter')))).toEqual({
      kind: 'unit',
      message: 'parts of the 3MF file state different units; export it again',
    });
  });

  test.each([
    ['a part that is not there', {}, '"/a.model" in the 3MF package is missing; export the file again'],
    [
      'a part that is no model',
      { 'a.model': strToU8('<a/>') },
      '"/a.model" in the 3MF package: it is no 3MF model: <a> is not of its namespace; export the file again',
    ],
  ])('a component of %s is refused', (_, parts, message) => {
    const component = '<component p:path="/a.model" objectid="1"/>';
    const objects = `<object id="8"><components>${component}</components></object>`;
    const start = modelXml(objects, '<item objectid="8"/>', `xmlns:p="${PRODUCTION}"`);
    expect(faultOf(read(threeMf(start, parts as Record<string, Uint8Array>))).message).toBe(message);
  });

  test('the first model that the relations name is the one, of any letters, from the root', () => {
    const relation = (
      target: string,
      type = 'http://schemas.microsoft.com/3dmanufacturing/2013/01/3dmodel',
    ) => `<Relationship Type="${type}" Target="${target}"/>`;
    const relations = `<R>${relation('/other.xml', 'http://other')}${relation('//A.MODEL')}${relation('/b.model')}</R>`;
    const bytes = zipSync({ '_rels/.rels': strToU8(relations), 'a.model': strToU8(modelXml(cube)) });
    expect(solidOf(read(bytes)).triangles).toBe(12);
    const broken = zipSync({ '_rels/.rels': strToU8('<R>'), 'a.model': strToU8(modelXml(cube)) });
    expect(faultOf(read(broken)).message).toBe('_rels/.rels, line 1: unclosed tag: R; export the file again');
  });

  test('ten thousand things may be placed, one more not', () => {
    // An item and its 99 components are a hundred things.
    const empty = '<object id="2"></object>';
    const many = `<object id="3"><components>${'<component objectid="2"/>'.repeat(99)}</components></object>`;
    const items = (more: number) =>
      '<item objectid="3"/>'.repeat(99) + '<item objectid="1"/>' + '<item objectid="2"/>'.repeat(99 + more);
    expect(solidOf(model(cube + empty + many, items(0))).triangles).toBe(12);
    expect(faultOf(model(cube + empty + many, items(1))).message).toBe(
      `the 3MF file places more than ${MESH_LIMITS.instances} components; export one solid`,
    );
  });
});
