import { readdir, readFile } from 'node:fs/promises';
import { join, relative, sep } from 'node:path';
import { sha256 } from './digest.ts';
import { runtimePackages } from './engine.ts';
import { PROJECT_ROOT } from './settings.ts';

/** Folders whose files make or are part of every site. */
const PARTS = ['public', 'src'];

async function filesOf(folder: string): Promise<string[]> {
  const entries = await readdir(join(PROJECT_ROOT, folder), { recursive: true, withFileTypes: true });
  return entries.filter((entry) => entry.isFile()).map((entry) => join(entry.parentPath, entry.name));
}

/**
 * Id of the program: SHA-256 of its sources, its settings and the versions of the packages it runs on. The same
 * wherever it lies, whatever catalogue it is given.
 */
export async function programId(): Promise<string> {
  const files = [join(PROJECT_ROOT, 'astro.config.mjs'), ...(await Promise.all(PARTS.map(filesOf))).flat()];
  const named = files
    .map((path) => ({ path, name: relative(PROJECT_ROOT, path).split(sep).join('/') }))
    .sort((a, b) => (a.name < b.name ? -1 : 1));
  const parts: (string | Uint8Array)[] = [await runtimePackages()];
  for (const { path, name } of named) parts.push(name, await readFile(path));
  return sha256(...parts);
}
