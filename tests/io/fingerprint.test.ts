import { open, utimes, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { diskStore } from '../../src/io/cache.ts';
import { sha256 } from '../../src/io/digest.ts';
import { fingerprint } from '../../src/io/fingerprint.ts';
import { temporaryFolder } from '../support/temporary.ts';

const MEGABYTE = 2 ** 20;

test.each([0, 1, 65_536, 3 * MEGABYTE + 5])('of %d bytes it is the digest of them all', async (size) => {
  const folder = await temporaryFolder();
  const bytes = Buffer.from(Array.from({ length: size }, (_, at) => (7 * at) % 251));
  await writeFile(join(folder, 'mesh.stl'), bytes);
  expect(await fingerprint(join(folder, 'mesh.stl'), diskStore(folder))).toBe(sha256(bytes));
});

test('of no file it is that of nothing', async () => {
  const folder = await temporaryFolder();
  expect(await fingerprint(join(folder, 'mesh.stl'), diskStore(folder))).toBe(sha256());
});

test('it is kept until the file changes', async () => {
  const folder = await temporaryFolder();
  const [path, store] = [join(folder, 'mesh.stl'), diskStore(join(folder, 'store'))];
  const later = Date.now() + 60_000;
  await writeFile(path, 'first');
  const first = await fingerprint(path, store, later);
  let asked = 0;
  const watched = { ...store, write: () => void asked++ };
  expect(await fingerprint(path, watched, later)).toBe(first);
  expect(asked).toBe(0);
  await writeFile(path, 'other');
  await utimes(path, 1, 1);
  expect(await fingerprint(path, watched, later)).toBe(sha256('other'));
  expect(asked).toBe(1);
});

test('many large files side by side are not held at once', async () => {
  const folder = await temporaryFolder();
  const paths = Array.from({ length: 12 }, (_, index) => join(folder, `${index}.stl`));
  for (const path of paths) {
    const file = await open(path, 'w');
    await file.truncate(32 * MEGABYTE);
    await file.close();
  }
  const before = process.memoryUsage().arrayBuffers;
  let most = 0;
  const look = setInterval(() => {
    most = Math.max(most, process.memoryUsage().arrayBuffers - before);
  }, 5);
  await Promise.all(paths.map((path) => fingerprint(path, diskStore(folder))));
  clearInterval(look);
  expect(most).toBeGreaterThan(0);
  expect(most).toBeLessThan(192 * MEGABYTE);
});
