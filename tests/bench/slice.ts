import { cp, mkdir, readdir, readFile } from 'node:fs/promises';
import { join } from 'node:path';
import { diskStore } from '../../src/io/cache.ts';
import type { Sheet } from '../../src/sheet/sheet.ts';
import { COMMON } from '../support/generator/catalogue.ts';

/** Ids of the molds whose sheets lie in a cache. */
export async function moldsIn(cache: string): Promise<string[]> {
  const store = diskStore(cache);
  const folder = join(cache, 'sheet');
  const files = await readdir(folder, { recursive: true, withFileTypes: true });
  return files
    .filter((entry) => entry.isFile())
    .map(({ name }) => (store.read('sheet', name)?.value as Sheet).id)
    .sort();
}

const found = (text: string, pattern: RegExp): string[] =>
  [...text.matchAll(pattern)].map(([, part = '']) => part);

/**
 * Copies some molds of a catalogue with all that their sheets speak of: a catalogue by itself, whose sheets are those of the
 * whole one.
 */
export async function copySlice(from: string, to: string, molds: readonly string[]): Promise<void> {
  const copy = (name: string) => cp(join(from, name), join(to, name), { recursive: true });
  const text = (name: string) => readFile(join(from, name), 'utf8');
  await mkdir(to, { recursive: true });
  for (const name of COMMON) await copy(name);
  const baits = new Set<string>();
  for (const id of molds) {
    await copy(`molds/${id}.yaml`);
    for (const bait of found(await text(`molds/${id}.yaml`), /^bait: (\S+)/gmu)) baits.add(bait);
  }
  for (const bait of baits) {
    await copy(`baits/${bait}.yaml`);
    for (const mesh of found(await text(`baits/${bait}.yaml`), /file: (meshes\/\S+)/gu)) await copy(mesh);
  }
  for (const name of await readdir(join(from, 'trials'))) {
    const [bait = ''] = found(await text(`trials/${name}`), /^bait: (\S+)/gmu);
    if (baits.has(bait)) await copy(`trials/${name}`);
  }
}
