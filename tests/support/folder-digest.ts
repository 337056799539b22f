import { createHash } from 'node:crypto';
import { readdir, readFile } from 'node:fs/promises';
import { join, relative } from 'node:path';

/** Every file below a folder, by path, sorted. */
export async function filesBelow(folder: string): Promise<string[]> {
  const entries = await readdir(folder, { recursive: true, withFileTypes: true });
  return entries
    .filter((entry) => entry.isFile())
    .map((entry) => relative(folder, join(entry.parentPath, entry.name)))
    .sort();
}

/** One fingerprint of all names and bytes below a folder. */
export async function folderDigest(folder: string): Promise<string> {
  const hash = createHash('sha256');
  for (const name of await filesBelow(folder))
    hash.update(`${name}\0`).update(await readFile(join(folder, name)));
  return hash.digest('hex');
}
