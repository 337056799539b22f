import { mkdir, writeFile } from 'node:fs/promises';
import { demoMesh, binaryStl } from './demo-meshes/shape.ts';
import { mossLizard } from './demo-meshes/moss-lizard.ts';
import { reedMinnow } from './demo-meshes/reed-minnow.ts';
import { tarnCraw } from './demo-meshes/tarn-craw.ts';

/** Every demo bait that comes as a mesh file. */
export const DEMO_SHAPES = [mossLizard, reedMinnow, tarnCraw];

const FOLDER = new URL('../../content/meshes/', import.meta.url);

/** Writes the demo meshes into the catalogue, the same bytes every time. */
async function main(): Promise<void> {
  await mkdir(FOLDER, { recursive: true });
  for (const shape of DEMO_SHAPES) {
    const bytes = binaryStl(await demoMesh(shape));
    await writeFile(new URL(`${shape.id}.stl`, FOLDER), bytes);
    process.stdout.write(`${shape.id}.stl: ${(bytes.length - 84) / 50} triangles, ${bytes.length} bytes\n`);
  }
}

if (import.meta.main) await main();
