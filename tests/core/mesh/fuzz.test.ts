import { strToU8, unzipSync, zipSync } from 'fflate';
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { massProperties } from '../../../src/core/mesh/mass-properties.ts';
import { readMesh } from '../../../src/core/mesh/read-mesh.ts';
import type { MeshFormat } from '../../../src/core/mesh/read-mesh.ts';
import { isMeshFault } from '../../../src/core/mesh/result.ts';
import { asciiStl, modelXml, obj, objectXml, threeMf } from '../../support/mesh-files.ts';
import { binaryStl, box, uvSphere } from '../../support/solids.ts';

// Whatever bytes come: one solid that can be computed with, or one sentence. Never a throw.

const SEED = 31415;
const RUNS = 400;

function holds(bytes: Uint8Array, format: MeshFormat): boolean {
  const result = readMesh(bytes, format === '3mf' ? { format } : { format, unit: 'mm' });
  if (isMeshFault(result)) {
    expect(result.message).toMatch(/^[^\n]{10,400}$/u);
    expect(result.at?.every(Number.isFinite) ?? true).toBe(true);
    return false;
  }
  const { volume, surface, centroid } = massProperties(result.mesh);
  expect(volume).toBeGreaterThan(0);
  expect([volume, surface, ...centroid].every(Number.isFinite)).toBe(true);
  expect(result.triangles).toBe(result.mesh.triangles.length / 3);
  return true;
}

const solids = [box([0.01, 0.02, 0.03]), uvSphere(0.01, 6, 12)];
const SOUND: readonly (readonly [string, MeshFormat, Uint8Array])[] = solids.flatMap((mesh, i) => [
  [`binary STL ${i + 1}`, 'stl', binaryStl(mesh)] as const,
  [`ASCII STL ${i + 1}`, 'stl', asciiStl(mesh)] as const,
  [`OBJ ${i + 1}`, 'obj', obj(mesh)] as const,
  [`3MF ${i + 1}`, '3mf', threeMf(modelXml(objectXml(1, mesh)))] as const,
]);

test.each(SOUND)('%s is read', (_, format, bytes) => {
  expect(holds(bytes, format)).toBe(true);
});

test.each(SOUND)(`%s cut short anywhere (seed ${SEED})`, (_, format, bytes) => {
  const cut = fc.integer({ min: 0, max: bytes.length - 1 });
  fc.assert(
    fc.property(cut, (length) => void holds(bytes.subarray(0, length), format)),
    { seed: SEED, numRuns: RUNS },
  );
});

test.each(SOUND)(`%s with bits turned (seed ${SEED})`, (_, format, bytes) => {
  const flips = fc.array(fc.tuple(fc.nat({ max: bytes.length - 1 }), fc.nat({ max: 7 })), {
    minLength: 1,
    maxLength: 8,
  });
  fc.assert(
    fc.property(flips, (turned) => {
      const broken = bytes.slice();
      for (const [at, bit] of turned) broken[at]! ^= 1 << bit;
      holds(broken, format);
    }),
    { seed: SEED, numRuns: RUNS },
  );
});

test('binary STL with any one bit of its header or first triangle turned', () => {
  const bytes = binaryStl(solids[0]!);
  for (let bit = 0; bit < 8 * 134; bit++) {
    const broken = bytes.slice();
    broken[bit >> 3]! ^= 1 << (bit & 7);
    holds(broken, 'stl');
  }
});

test(`3MF whose model has letters exchanged, its package sound (seed ${SEED})`, () => {
  const files = unzipSync(threeMf(modelXml(objectXml(1, solids[0]!))));
  const model = files['3D/3dmodel.model']!;
  const edits = fc.array(
    fc.tuple(fc.nat({ max: model.length - 1 }), fc.constantFrom(...'<>"/ 0-9.eE&;!aN')),
    { minLength: 1, maxLength: 4 },
  );
  fc.assert(
    fc.property(edits, (changed) => {
      const broken = model.slice();
      for (const [at, letter] of changed) broken[at] = letter.charCodeAt(0);
      holds(zipSync({ ...files, '3D/3dmodel.model': broken }), '3mf');
    }),
    { seed: SEED, numRuns: RUNS },
  );
});

test(`text that is made of the right words (seed ${SEED})`, () => {
  const word = fc.constantFrom(
    'v',
    'f',
    '1',
    '-1',
    '2/3/4',
    '0',
    '1e999',
    'nan',
    '\n',
    '\\\n',
    '#',
    'solid',
    'facet',
    'vertex',
    'endloop',
    'curv',
    '\r',
    '9'.repeat(400),
  );
  fc.assert(
    fc.property(fc.array(word, { maxLength: 60 }), (words) => {
      const bytes = strToU8(words.join(' '));
      holds(bytes, 'obj');
      holds(bytes, 'stl');
      holds(strToU8(`solid x\n${words.join(' ')}`), 'stl');
    }),
    { seed: SEED, numRuns: RUNS },
  );
});

test(`any bytes at all (seed ${SEED})`, () => {
  fc.assert(
    fc.property(
      fc.uint8Array({ maxLength: 300 }),
      fc.constantFrom('stl', 'obj', '3mf'),
      (bytes, format) => void holds(bytes, format),
    ),
    { seed: SEED, numRuns: RUNS },
  );
});

test.each([1e-320, 1e-300, 1e-45, 1e30])('a triangle of size %d far from the origin and near it', (size) => {
  for (const x of ['0', '1', '1e9']) {
    const text = `v ${x} 0 0\nv ${x} ${size} 0\nv ${x} 0 ${size}\nf 1 2 3`;
    expect(holds(strToU8(text), 'obj')).toBe(false);
  }
});
