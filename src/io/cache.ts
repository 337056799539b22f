import { createHash } from 'node:crypto';
import { mkdir, readdir, readFile, rename, rm, stat, utimes, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { deserialize, serialize } from 'node:v8';
import { CACHE_FOLDER, PROJECT_ROOT } from './settings.ts';

/** Where results are kept: `.cache/analysis/WHAT/HASH`; the folder may be deleted at any time. */
export const ANALYSIS_CACHE = join(CACHE_FOLDER, 'analysis');

/** Results that no run has asked for in this time are thrown away [ms]. */
const KEPT_FOR = 30 * 86_400_000;

const sha256 = (...parts: (string | Uint8Array)[]): string => {
  const hash = createHash('sha256');
  for (const part of parts) hash.update(part).update('\0');
  return hash.digest('hex');
};

async function filesBelow(folder: string): Promise<string[]> {
  const entries = await readdir(folder, { recursive: true, withFileTypes: true });
  return entries
    .filter((entry) => entry.isFile())
    .map((entry) => join(entry.parentPath, entry.name))
    .sort();
}

/** Hash of all that decides a result but its inputs: the sources that compute, and the packages they use. */
async function engineHash(): Promise<string> {
  const sources = await Promise.all(
    ['src/core', 'src/sheet'].map((room) => filesBelow(join(PROJECT_ROOT, room))),
  );
  const files = [...sources.flat(), join(PROJECT_ROOT, 'package-lock.json')];
  return sha256(...(await Promise.all(files.map((file) => readFile(file)))));
}

async function kept(path: string): Promise<{ value: unknown } | undefined> {
  try {
    const value: unknown = deserialize(await readFile(path));
    const now = new Date();
    await utimes(path, now, now);
    return { value };
  } catch {
    return undefined;
  }
}

/** A cache that cannot be written to costs time, never a build. */
async function keep(path: string, value: unknown): Promise<void> {
  const draft = `${path}.${process.pid}`;
  try {
    await mkdir(join(path, '..'), { recursive: true });
    await writeFile(draft, serialize(value));
    await rename(draft, path);
  } catch {
    await rm(draft, { force: true }).catch(() => undefined);
  }
}

/**
 * A memory on disk: results by the hash of their inputs and of the program that computes them. A result that cannot
 * be read back is worked out again.
 */
export function diskMemory(folder: string = ANALYSIS_CACHE) {
  let engine: Promise<string> | undefined;
  return async <Result>(
    what: string,
    inputs: unknown,
    make: () => Result | Promise<Result>,
  ): Promise<Result> => {
    engine ??= engineHash();
    const path = join(folder, what, sha256(await engine, JSON.stringify(inputs)));
    const found = await kept(path);
    if (found) return found.value as Result;
    const value = await make();
    await keep(path, value);
    return value;
  };
}

/** Throws away what no run has asked for in the last thirty days. */
export async function pruneMemory(folder: string = ANALYSIS_CACHE, now: number = Date.now()): Promise<void> {
  const files = await filesBelow(folder).catch(() => []);
  for (const file of files) {
    const { mtimeMs } = await stat(file).catch(() => ({ mtimeMs: now }));
    if (now - mtimeMs > KEPT_FOR) await rm(file, { force: true });
  }
}
