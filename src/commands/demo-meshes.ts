import { mkdir, writeFile } from 'node:fs/promises';
import type { Mesh } from '../core/mesh/mesh.ts';
import { binaryStl, demoMesh, type DemoShape } from './demo-meshes/shape.ts';
import { mossLizard } from './demo-meshes/moss-lizard.ts';
import { reedMinnow } from './demo-meshes/reed-minnow.ts';
import { tarnCraw } from './demo-meshes/tarn-craw.ts';
import { threeMf } from './demo-meshes/three-mf.ts';

/** A demo bait and the kind of file it comes in. */
export interface DemoFile {
  readonly shape: DemoShape;
  readonly format: 'stl' | '3mf';
}

/** Every demo bait that comes as a mesh file. */
export const DEMO_FILES: readonly DemoFile[] = [
  { shape: mossLizard, format: '3mf' },
  { shape: reedMinnow, format: 'stl' },
  { shape: tarnCraw, format: 'stl' },
];

const WRITERS: Readonly<Record<DemoFile['format'], (mesh: Mesh) => Uint8Array>> = {
  stl: binaryStl,
  '3mf': threeMf,
};

/** The bytes of a demo mesh, the same every time. */
export async function demoFile({ shape, format }: DemoFile): Promise<Uint8Array> {
  return WRITERS[format](await demoMesh(shape));
}

const FOLDER = new URL('../../content/meshes/', import.meta.url);

/** Writes the demo meshes into the catalogue. */
async function main(): Promise<void> {
  await mkdir(FOLDER, { recursive: true });
  for (const file of DEMO_FILES) {
    const bytes = await demoFile(file);
    const name = `${file.shape.id}.${file.format}`;
    await writeFile(new URL(name, FOLDER), bytes);
    process.stdout.write(`${name}: ${bytes.length} bytes\n`);
  }
}

if (import.meta.main) await main();
