import { createHash } from 'node:crypto';
import { createReadStream } from 'node:fs';
import { stat } from 'node:fs/promises';
import type { Store } from './cache.ts';
import { digestOf, sha256 } from './digest.ts';

/** A file that was changed this lately may change again without its times telling [ms]. */
export const SETTLED = 2000;

/** What `sha256` says of all bytes of a file, read a piece at a time: the meshes of a thousand molds are a gigabyte. */
async function digestOfFile(path: string): Promise<string> {
  const hash = createHash('sha256');
  for await (const piece of createReadStream(path)) hash.update(piece as Buffer);
  return hash.update('\0').digest('hex');
}

/**
 * The digest of a file's bytes, taken anew only when its size, times or place on the disk have changed; of a file
 * that is not there, that of nothing.
 */
export async function fingerprint(
  path: string,
  store: Pick<Store, 'read' | 'write'>,
  now: number = Date.now(),
): Promise<string> {
  const found = await stat(path, { bigint: true }).catch(() => undefined);
  if (!found) return sha256();
  const { size, mtimeNs, ctimeNs, ino } = found;
  const address = digestOf([path, ...[size, mtimeNs, ctimeNs, ino].map(String)]);
  const known = store.read('fingerprint', address);
  if (known) return known.value as string;
  const digest = await digestOfFile(path);
  const settled = now - Math.max(Number(found.mtimeMs), Number(found.ctimeMs)) > SETTLED;
  if (settled) store.write('fingerprint', address, digest);
  return digest;
}
