import { cp, mkdir, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { stringify } from 'yaml';
import { publish } from '../../../src/commands/publish/accept.ts';
import { binaryStl } from '../solids.ts';
import { generatedBait, type GeneratedBait } from './bait.ts';
import { cavityCounts, generatedMold, generatedTrials } from './mold.ts';
import { dice } from './random.ts';

/** What a generated catalogue holds. */
export interface Generated {
  readonly baits: number;
  readonly molds: number;
  readonly meshes: number;
  /** Of all mesh files. */
  readonly triangles: number;
}

/** Parts of the demo that every shop has. */
export const COMMON = ['hooks', 'injectors', 'plastisols', 'guides', 'shop.yaml'];

/** Molds that a bait comes in, few as real makers have; the first baits have one each, so that all families are there early. */
function countsOf(bait: GeneratedBait, seed: number, index: number): number[] {
  const thrown = dice(seed, index, 1);
  const wanted = index < 8 ? 1 : thrown.pick([1, 1, 1, 2, 2, 3]);
  const open = cavityCounts(bait);
  const chosen: number[] = [];
  while (chosen.length < wanted && chosen.length < open.length) {
    chosen.push(thrown.pick(open.filter((count) => !chosen.includes(count))));
  }
  return chosen.sort((a, b) => a - b);
}

/**
 * Writes a valid catalogue of `molds` molds over the eight families, every third bait as a mesh, with trials; the demo's
 * hooks, injectors, compounds and guides come along. The same seed gives the same bytes, and a larger catalogue begins
 * with the smaller ones.
 *
 * @param folder - made when it is not there
 */
export async function generateCatalogue(folder: string, molds: number, seed = 1): Promise<Generated> {
  for (const name of COMMON) await cp(join('content', name), join(folder, name), { recursive: true });
  for (const name of ['baits', 'molds', 'trials', 'meshes'])
    await mkdir(join(folder, name), { recursive: true });
  const write = (collection: string, { id, entry }: { id: string; entry: object }) =>
    writeFile(join(folder, collection, `${id}.yaml`), stringify(entry));
  let [baits, made, meshes, triangles] = [0, 0, 0, 0];
  for (; made < molds; baits++) {
    const bait = await generatedBait(seed, baits);
    const counts = countsOf(bait, seed, baits).slice(0, molds - made);
    await write('baits', bait);
    for (const trial of generatedTrials(bait)) await write('trials', trial);
    for (const count of counts) await write('molds', generatedMold(bait, count));
    made += counts.length;
    if (bait.file === undefined) continue;
    await writeFile(join(folder, bait.file), binaryStl(bait.mesh));
    meshes += 1;
    triangles += bait.mesh.triangles.length / 3;
  }
  return { baits, molds: made, meshes, triangles };
}

/** Works a generated catalogue out and records its sheets as published. */
export async function publishGenerated(folder: string): Promise<void> {
  const order = { molds: [], all: true, note: 'First published.', date: '2025-05-02', amend: false };
  const { accepted, lines } = await publish(folder, order);
  if (!accepted) throw new Error(lines.join('\n'));
}
