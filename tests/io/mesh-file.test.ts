import { mkdir, mkdtemp, rm, truncate, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, test, vi } from 'vitest';
import { MESH_LIMITS } from '../../src/core/mesh/limits.ts';
import { meshVolume } from '../../src/core/mesh/mass-properties.ts';
import { readMeshFile } from '../../src/io/mesh-file.ts';
import { modelXml, obj, objectXml, threeMf } from '../support/mesh-files.ts';
import { faultOf, solidOf } from '../support/read.ts';
import { binaryStl, flipped, uvSphere } from '../support/solids.ts';

// Workers start slowly on a busy machine.
vi.setConfig({ testTimeout: 30_000 });

let folder = '';
const sphere = uvSphere(0.01, 24, 48);
const inWorker = { ...MESH_LIMITS, inlineBytes: 0 };

beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'mesh-file-'));
});
afterAll(() => rm(folder, { recursive: true }));

async function stored(name: string, bytes: Uint8Array): Promise<string> {
  const path = join(folder, name);
  await writeFile(path, bytes);
  return path;
}

test.each([
  ['ball.stl', binaryStl(sphere), 'mm'],
  ['ball.obj', obj(sphere), 'mm'],
  ['ball.3MF', threeMf(modelXml(objectXml(1, sphere))), undefined],
] as const)('%s is the same here and in the worker', async (name, bytes, unit) => {
  const path = await stored(name, bytes);
  const [here, there] = [
    solidOf(await readMeshFile(path, unit)),
    solidOf(await readMeshFile(path, unit, inWorker)),
  ];
  expect(there).toEqual(here);
  expect(Math.abs(meshVolume(here.mesh) / meshVolume(sphere) - 1)).toBeLessThan(1e-6);
});

test('a refusal comes back from the worker as it is', async () => {
  const path = await stored('inside-out.stl', binaryStl(flipped(sphere)));
  const fault = faultOf(await readMeshFile(path, 'mm', inWorker));
  expect(fault).toEqual(faultOf(await readMeshFile(path, 'mm')));
  expect(fault.kind).toBe('inverted');
});

test('a mesh that takes too long is given up', async () => {
  const path = await stored('slow.obj', obj(uvSphere(0.01, 300, 600)));
  expect(await readMeshFile(path, 'mm', { ...inWorker, seconds: 0.05 })).toEqual({
    kind: 'limit',
    message: 'the mesh took more than 0.05 s to read; export a coarser mesh',
  });
});

test('a mesh that takes too much memory is given up', async () => {
  const path = await stored('large.obj', obj(uvSphere(0.01, 300, 600)));
  expect(await readMeshFile(path, 'mm', { ...inWorker, heapMegabytes: 8 })).toEqual({
    kind: 'limit',
    message: 'the mesh took more than 8 MB to read; export a coarser mesh',
  });
});

test('what is no readable mesh file is refused in one sentence', async () => {
  await mkdir(join(folder, 'folder.stl'));
  const messages = await Promise.all(
    ['missing.stl', 'folder.stl', 'part.step', 'picture.png'].map(async (name) => {
      return faultOf(await readMeshFile(join(folder, name), 'mm')).message;
    }),
  );
  expect(messages).toEqual([
    'there is no such file; check its path',
    'this is no regular file; give the path of a mesh file',
    'STEP files are not read; export STL (with its unit stated), 3MF or OBJ from the CAD program',
    '"png" is no mesh format that is read; export STL (with its unit stated), 3MF or OBJ',
  ]);
});

test('a file over the limit is refused before it is read', async () => {
  const path = await stored('huge.stl', new Uint8Array());
  await truncate(path, MESH_LIMITS.bytes + 1);
  expect(faultOf(await readMeshFile(path, 'mm')).message).toBe(
    'the file has 100.0 MB, the limit is 100 MB; export a coarser mesh',
  );
});
