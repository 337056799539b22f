import { readdir, readFile } from 'node:fs/promises';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { readCatalogue } from '../../../src/io/catalogue.ts';
import { readMeshFile } from '../../../src/io/mesh-file.ts';
import { isMeshFault } from '../../../src/core/mesh/result.ts';
import { filesBelow, folderDigest } from '../folder-digest.ts';
import { runCommand } from '../run-command.ts';
import { temporaryFolder } from '../temporary.ts';
import { TRIANGLES } from './bait.ts';
import { generateCatalogue, publishGenerated } from './catalogue.ts';
import { SKETCHES } from './families.ts';

const MINUTES = 60_000;

async function generated(molds: number, seed?: number): Promise<string> {
  const folder = await temporaryFolder();
  await generateCatalogue(folder, molds, seed);
  return folder;
}

test('seed 1: the same bytes again, other bytes for another seed', { timeout: 2 * MINUTES }, async () => {
  const [once, again, other] = await Promise.all([generated(4), generated(4), generated(4, 2)]);
  expect(await folderDigest(again)).toBe(await folderDigest(once));
  expect(await folderDigest(other)).not.toBe(await folderDigest(once));
});

test('seed 1: a larger catalogue begins with the smaller one', { timeout: 2 * MINUTES }, async () => {
  const [few, more] = await Promise.all([generated(3), generated(5)]);
  for (const name of await filesBelow(few)) {
    expect((await readFile(join(more, name))).equals(await readFile(join(few, name))), name).toBe(true);
  }
});

test(
  'seed 1, 10 molds: all families, a third meshes of 20 000 to 200 000 triangles',
  { timeout: 2 * MINUTES },
  async () => {
    const folder = await generated(10);
    const reading = await readCatalogue(folder);
    if ('problems' in reading) throw new Error(JSON.stringify(reading.problems));
    const { baits, molds } = reading.catalogue;
    expect(molds).toHaveLength(10);
    expect(new Set(baits.map(({ family }) => family)).size).toBe(SKETCHES.length);
    const meshes = await readdir(join(folder, 'meshes'));
    expect(meshes).toHaveLength(Math.floor(baits.length / 3));
    for (const name of meshes) {
      const read = await readMeshFile(join(folder, 'meshes', name), 'mm');
      if (isMeshFault(read)) throw new Error(`${name}: ${read.message}`);
      const count = read.mesh.triangles.length / 3;
      expect(count >= TRIANGLES[0] && count <= TRIANGLES[1], `${name}: ${count}`).toBe(true);
    }
  },
);

test(
  'seed 1, 3 molds: published, then fit to be published with nothing moved',
  { timeout: 5 * MINUTES },
  async () => {
    const folder = await generated(3);
    await publishGenerated(folder);
    const { code, stdout } = await runCommand('check', { CONTENT_DIR: folder }, ['--json']);
    expect(JSON.parse(stdout)).toMatchObject({ ok: true, mistakes: [], moves: [] });
    expect(code).toBe(0);
    expect(await readdir(join(folder, 'published'))).toHaveLength(3);
  },
);
