import {
  closeSync,
  existsSync,
  fstatSync,
  mkdirSync,
  openSync,
  readFileSync,
  readSync,
  renameSync,
  rmSync,
  statSync,
  utimesSync,
  writeFileSync,
} from 'node:fs';
import { readdir, rm, stat } from 'node:fs/promises';
import { dirname, join } from 'node:path';
import { digestOf, sha256 } from './digest.ts';
import { engine } from './engine.ts';
import { needs, packed, unpacked } from './kept-value.ts';
import { analysisFolder, shownPath } from './settings.ts';

const DAY = 86_400_000;

/** Results that no run has asked for in this many days are thrown away after a build. */
export const KEPT_DAYS = 30;

/** Where one result lies, and what is stored by itself. */
const placeOf = (folder: string, what: string, digest: string): string =>
  join(folder, what, digest.slice(0, 2), digest);

/** Notes that a file is in use; false when it is not there. */
function touched(path: string): boolean {
  try {
    const now = Date.now();
    if (now - statSync(path).mtimeMs > DAY) utimesSync(path, now / 1000, now / 1000);
    return true;
  } catch {
    return false;
  }
}

/** A file of its own content: it is there whole, or not at all. */
function settle(path: string, bytes: () => Uint8Array): void {
  if (existsSync(path)) return;
  const draft = `${path}.${process.pid}-${crypto.randomUUID()}`;
  try {
    mkdirSync(dirname(path), { recursive: true });
    writeFileSync(draft, bytes());
    renameSync(draft, path);
  } catch {
    discard(draft);
  }
}

/** Removes a file that is of no use; one that cannot be removed does no harm. */
function discard(path: string): void {
  try {
    rmSync(path, { force: true });
  } catch {
    return;
  }
}

/**
 * Digests of what is stored apart from a result.
 *
 * @throws {RangeError} when the file is no result
 * @throws {Error} when it cannot be opened or read
 */
function neededBy(path: string): string[] {
  const file = openSync(path, 'r');
  try {
    const { size } = fstatSync(file);
    return needs((start, length) => {
      const bytes = Buffer.alloc(Math.min(length, size));
      return bytes.subarray(0, readSync(file, bytes, { position: start }));
    });
  } finally {
    closeSync(file);
  }
}

/** Results in a folder, by address. */
export interface Store {
  /** The address of a result: the same for the same work on the same inputs by the same program. */
  readonly address: (what: string, inputs: unknown) => Promise<string>;
  /** Whether a result is there with all that is stored apart from it; that it can be read is not looked into. */
  readonly has: (what: string, address: string) => boolean;
  /** A result, or nothing when there is none that can be read. */
  readonly read: (what: string, address: string) => { readonly value: unknown } | undefined;
  /** Stores a result; a folder that cannot be written to costs time, never a build. */
  readonly write: (what: string, address: string, value: unknown) => void;
}

/** Opens a folder of results; it is made when the first one comes. */
export function diskStore(folder: string = analysisFolder()): Store {
  const engineOf = engine();
  const apart = (digest: string): string => placeOf(folder, 'parts', digest);
  const part = (digest: string): Uint8Array => {
    const bytes = readFileSync(apart(digest));
    if (sha256(bytes) === digest) return bytes;
    discard(apart(digest));
    throw new Error(
      `${shownPath(apart(digest))} was damaged and is thrown away; run this once more, or without the cache`,
    );
  };
  return {
    address: async (what, inputs) => sha256(await engineOf(what), digestOf(inputs)),
    has(what, address) {
      const path = placeOf(folder, what, address);
      try {
        return neededBy(path).every((digest) => touched(apart(digest))) && touched(path);
      } catch (error) {
        // A file that cannot be opened just now is not a damaged one.
        if (error instanceof RangeError) discard(path);
        return false;
      }
    },
    read(what, address) {
      const path = placeOf(folder, what, address);
      try {
        const found = unpacked(readFileSync(path), part);
        touched(path);
        return found.apart.every((digest) => touched(apart(digest))) ? found : undefined;
      } catch {
        discard(path);
        return undefined;
      }
    },
    write(what, address, value) {
      const { bytes, apart: parts } = packed(value);
      for (const [digest, part] of parts) settle(apart(digest), part);
      settle(placeOf(folder, what, address), () => bytes);
    },
  };
}

/**
 * A memory on disk: results by the hash of their inputs and of the program that computes them. A result that cannot
 * be read back is worked out again; work that is under way is waited for.
 */
export function diskMemory(folder: string = analysisFolder()) {
  const store = diskStore(folder);
  const running = new Map<string, Promise<unknown>>();
  return async <Result>(
    what: string,
    inputs: unknown,
    make: () => Result | Promise<Result>,
  ): Promise<Result> => {
    const address = await store.address(what, inputs);
    const found = store.read(what, address);
    if (found) return found.value as Result;
    const key = `${what} ${address}`;
    const work = running.get(key) ?? Promise.resolve().then(make);
    running.set(key, work);
    try {
      const value = (await work) as Result;
      store.write(what, address, value);
      return value;
    } finally {
      running.delete(key);
    }
  };
}

async function filesBelow(folder: string): Promise<string[]> {
  const entries = await readdir(folder, { recursive: true, withFileTypes: true }).catch(() => []);
  return entries.filter((entry) => entry.isFile()).map((entry) => join(entry.parentPath, entry.name));
}

/** What a pruning did. */
export interface Pruned {
  readonly kept: number;
  readonly gone: number;
  /** Of what is left [bytes]. */
  readonly size: number;
}

/** Throws away what no run has asked for in a number of days. */
export async function pruneMemory(
  folder: string = analysisFolder(),
  days: number = KEPT_DAYS,
  now: number = Date.now(),
): Promise<Pruned> {
  let [kept, gone, size] = [0, 0, 0];
  for (const file of await filesBelow(folder)) {
    const found = await stat(file).catch(() => undefined);
    if (!found) continue;
    if (now - found.mtimeMs > days * DAY) {
      await rm(file, { force: true });
      gone += 1;
    } else {
      kept += 1;
      size += found.size;
    }
  }
  return { kept, gone, size };
}
