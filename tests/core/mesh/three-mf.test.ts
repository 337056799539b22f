import { Inflate, strToU8, zipSync } from 'fflate';
import { describe, expect, test, vi } from 'vitest';
import { MESH_LIMITS } from '../../../src/core/mesh/limits.ts';
import { massProperties, meshVolume } from '../../../src/core/mesh/mass-properties.ts';
import { readMesh } from '../../../src/core/mesh/read-mesh.ts';
import type { MeshUnit } from '../../../src/core/mesh/result.ts';
import { crc32 } from '../../../src/core/mesh/zip.ts';
import { modelXml, objectXml, RELATIONS, tampered, threeMf } from '../../support/mesh-files.ts';
import { faultOf, solidOf } from '../../support/read.ts';
import { box, uvSphere } from '../../support/solids.ts';

const cube = objectXml(1, box([10, 10, 10]), 1);
const read = (bytes: Uint8Array, unit?: MeshUnit) => readMesh(bytes, { format: '3mf', unit });
const modelOf = (objects: string, items?: string, attributes?: string) =>
  read(threeMf(modelXml(objects, items, attributes)));

describe('units', () => {
  test.each([
    ['micron', 1e-6],
    ['millimeter', 1e-3],
    ['centimeter', 1e-2],
    ['inch', 0.0254],
    ['foot', 0.3048],
    ['meter', 1],
  ])('a cube of 10 %s', (unit, metre) => {
    const solid = solidOf(modelOf(cube, undefined, `unit="${unit}"`));
    expect(Math.abs(meshVolume(solid.mesh) / (10 * metre) ** 3 - 1)).toBeLessThan(1e-12);
  });

  test('the same solid in all six is the same', () => {
    const sphere = uvSphere(0.01, 12, 24);
    const volumes = [
      ['micron', 1e6],
      ['millimeter', 1e3],
      ['centimeter', 1e2],
      ['inch', 1 / 0.0254],
      ['foot', 1 / 0.3048],
      ['meter', 1],
    ] as const;
    for (const [unit, perMetre] of volumes) {
      const solid = solidOf(modelOf(objectXml(1, sphere, perMetre), undefined, `unit="${unit}"`));
      expect(Math.abs(meshVolume(solid.mesh) / meshVolume(sphere) - 1)).toBeLessThan(1e-12);
    }
  });

  test('none stated is millimeter', () => {
    expect(solidOf(modelOf(cube, undefined, '')).unit).toBe('mm');
  });

  test('the entry must agree with the file', () => {
    const file = threeMf(modelXml(cube, undefined, 'unit="inch"'));
    expect(solidOf(read(file, 'in')).unit).toBe('in');
    expect(faultOf(read(file, 'mm')).message).toBe(
      'the 3MF file states its unit as in, the entry says mm; leave "unit" out',
    );
  });

  test('a unit that 3MF does not have is refused', () => {
    expect(faultOf(modelOf(cube, undefined, 'unit="furlong"'))).toEqual({
      kind: 'unit',
      message: '"/3D/3dmodel.model" in the 3MF package: "furlong" is no unit of 3MF; export it in millimeter',
    });
  });
});

describe('placing', () => {
  const boxOf = (objects: string, items: string) => massProperties(solidOf(modelOf(objects, items)).mesh);
  const rounded = (values: readonly number[]) => values.map((value) => Number((value * 1000).toFixed(9)));

  test('an item is turned and moved as row vectors are', () => {
    // x' = 2y + 100, y' = -x, z' = z: a quarter turn with a stretch, then a shift.
    const { volume, box: extent } = boxOf(
      cube,
      '<item objectid="1" transform="0 -1 0 2 0 0 0 0 1 100 0 0"/>',
    );
    expect(Math.abs(volume / 2e-6 - 1)).toBeLessThan(1e-12);
    expect(rounded(extent.min)).toEqual([100, -10, 0]);
    expect(rounded(extent.max)).toEqual([120, 0, 10]);
  });

  test('a mirrored item still faces outwards', () => {
    expect(boxOf(cube, '<item objectid="1" transform="-1 0 0 0 1 0 0 0 1 0 0 0"/>').volume).toBeGreaterThan(
      0,
    );
  });

  test('a component is placed first by its own transform, then by those above', () => {
    const nested =
      cube +
      '<object id="2"><components><component objectid="1" transform="1 0 0 0 1 0 0 0 1 5 0 0"/></components></object>' +
      '<object id="3"><components><component objectid="2" transform="2 0 0 0 2 0 0 0 2 0 0 0"/></components></object>';
    const { volume, box: extent } = boxOf(nested, '<item objectid="3" transform="1 0 0 0 1 0 0 0 1 0 0 7"/>');
    expect(Math.abs(volume / 8e-6 - 1)).toBeLessThan(1e-12);
    expect(rounded(extent.min)).toEqual([10, 0, 7]);
  });

  test('two halves that a build puts together must make one closed body', () => {
    const open = (drop: readonly number[]) => {
      const { positions, triangles } = box([10, 10, 10]);
      return { positions, triangles: triangles.filter((_, i) => !drop.includes(Math.floor(i / 3))) };
    };
    const half = objectXml(1, open([8, 9]), 1);
    const items = '<item objectid="1"/><item objectid="1" transform="-1 0 0 0 1 0 0 0 1 0 0 0"/>';
    const solid = solidOf(modelOf(half, items));
    expect(Math.abs(meshVolume(solid.mesh) / 2e-6 - 1)).toBeLessThan(1e-12);
    expect(solid.repairs).toEqual(['4 duplicate points welded']);
  });

  test('two bodies in a build are refused', () => {
    const items = '<item objectid="1"/><item objectid="1" transform="1 0 0 0 1 0 0 0 1 30 0 0"/>';
    expect(faultOf(modelOf(cube, items)).message).toBe(
      '2 separate bodies; the second begins near x 30.00, y 0.00, z 0.00 mm; join them or export one',
    );
  });

  test('an object that is not built does not count; a support that is built is left out', () => {
    const others =
      cube +
      objectXml(2, box([1, 1, 1], [50, 0, 0]), 1) +
      objectXml(3, box([1, 1, 1], [70, 0, 0]), 1).replace('"model"', '"support"');
    const solid = solidOf(modelOf(others, '<item objectid="1"/><item objectid="3"/>'));
    expect(solid.triangles).toBe(12);
    expect(solid.repairs).toEqual(['1 support or surface object of the 3MF left out']);
  });

  test('objects in parts of their own are found', () => {
    const production =
      'xmlns:p="http://schemas.microsoft.com/3dmanufacturing/production/2015/06" requiredextensions="p"';
    const objects =
      '<object id="8"><components><component p:path="/3D/Objects/a.model" objectid="1"/></components></object>';
    const bytes = threeMf(modelXml(objects, '<item objectid="8"/>', production), {
      '3D/Objects/a.model': strToU8(modelXml(cube, '')),
    });
    expect(solidOf(read(bytes)).triangles).toBe(12);
  });
});

const chain = (depth: number) =>
  cube +
  Array.from(
    { length: depth },
    (_, i) => `<object id="${i + 2}"><components><component objectid="${i + 1}"/></components></object>`,
  ).join('');

/** Bytes that do not pack. */
function noise(length: number): Uint8Array {
  let state = 1;
  return Uint8Array.from({ length }, () => (state = (Math.imul(state, 1664525) + 1013904223) | 0) >>> 24);
}

describe('limits', () => {
  const entries = (count: number) =>
    Object.fromEntries(Array.from({ length: count - 2 }, (_, i) => [`x/${i}`, strToU8('x')]));

  test.each([99, 100])('%d files in a package are read', (count) => {
    expect(solidOf(read(threeMf(modelXml(cube), entries(count)))).triangles).toBe(12);
  });

  test('101 are not', () => {
    expect(faultOf(read(threeMf(modelXml(cube), entries(101))))).toEqual({
      kind: 'limit',
      message: 'the 3MF package holds 101 files, the limit is 100; export it again',
    });
  });

  test('a bomb is refused by its stated ratio before anything is unpacked', () => {
    const bytes = threeMf(modelXml(cube), { 'x.bin': new Uint8Array(20_000_000) });
    expect(bytes.length).toBeLessThan(100_000);
    expect(faultOf(read(bytes)).message).toBe(
      '"x.bin" in the 3MF package unpacks to over 200 times its size; export it again',
    );
  });

  test('a bomb that lies about its size stops at the size it states', () => {
    const bytes = zipSync({
      '_rels/.rels': strToU8(RELATIONS),
      '3D/3dmodel.model': new Uint8Array(50_000_000),
    });
    const bites = vi.spyOn(Inflate.prototype, 'push');
    expect(faultOf(read(tampered(bytes, 'unpacked', 5000))).message).toContain('is not as stated');
    // The relations take one bite, the bomb one of the several that it has.
    expect(bites).toHaveBeenCalledTimes(2);
    bites.mockRestore();
  });

  test('a package may state 200 MB in all, one byte more is refused', () => {
    const stored = (size: number) => {
      const bytes = threeMf(modelXml(cube), {
        'x.bin': noise(2 ** 21),
      });
      const view = new DataView(bytes.buffer);
      const first = view.getUint32(bytes.length - 22 + 16, true);
      const others =
        view.getUint32(first + 24, true) +
        view.getUint32(first + 46 + view.getUint16(first + 28, true) + 24, true);
      return tampered(bytes, 'unpacked', size - others, 2);
    };
    expect(solidOf(read(stored(MESH_LIMITS.zipBytes))).triangles).toBe(12);
    expect(faultOf(read(stored(MESH_LIMITS.zipBytes + 1))).message).toBe(
      'the 3MF package unpacks to more than 200 MB; export a coarser mesh',
    );
  });

  test('components may be nested 16 deep, not 17', () => {
    expect(solidOf(modelOf(chain(16), '<item objectid="17"/>')).triangles).toBe(12);
    expect(faultOf(modelOf(chain(17), '<item objectid="18"/>')).kind).toBe('limit');
  });
});

test('a stored part is read as a deflated one', () => {
  const bytes = zipSync(
    { '_rels/.rels': strToU8(RELATIONS), '3D/3dmodel.model': strToU8(modelXml(cube)) },
    { level: 0 },
  );
  expect(solidOf(read(bytes)).triangles).toBe(12);
});

test('UTF-16 with its mark and prefixed elements are read', () => {
  const prefixed = modelXml(cube)
    .replace('xmlns=', 'xmlns:m=')
    .replaceAll(/<(\/?)(?=[a-z])/gu, '<$1m:')
    .replace('UTF-8', 'UTF-16');
  const words = Uint16Array.from(`\uFEFF${prefixed}`, (letter) => letter.charCodeAt(0));
  const bytes = zipSync({
    '_rels/.rels': strToU8(RELATIONS),
    '3D/3dmodel.model': new Uint8Array(words.buffer),
  });
  expect(solidOf(read(bytes)).triangles).toBe(12);
});

// Check value of CRC-32/ISO-HDLC over "123456789", as printed in ITU-T V.42 collections (from memory).
test('CRC-32 of "123456789" is cbf43926', () => {
  expect(crc32(strToU8('123456789')).toString(16)).toBe('cbf43926');
});
