import { lstat, mkdir, readdir, readFile, rename, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import type { Problem } from '../schema/problem.ts';
import { ledgerSchema, type Ledger } from '../schema/published.ts';
import { shownPath } from './settings.ts';

/** Folder of the ledgers below a catalogue: one file a mold. */
export const LEDGER_FOLDER = 'published';

/** What has been published from a catalogue. */
export interface Ledgers {
  readonly ledgers: readonly Ledger[];
  readonly problems: readonly Problem[];
  /** False while the catalogue keeps no ledger at all. */
  readonly kept: boolean;
}

const REMEDY = 'bring it back from version control; only `npm run publish` writes it';

async function read(path: string, mold: string): Promise<Ledger | Problem> {
  const problem = (message: string): Problem => ({
    file: shownPath(path),
    line: 1,
    column: 1,
    message,
    remedy: REMEDY,
  });
  if (!(await lstat(path)).isFile()) return problem('is not a regular file');
  const text = await readFile(path, 'utf8');
  try {
    const found = ledgerSchema.safeParse(JSON.parse(text));
    if (found.success) return { mold, ...found.data };
    const [issue] = found.error.issues;
    return problem(`"${issue?.path.join('.') ?? ''}": ${issue?.message ?? 'is not a ledger'}`);
  } catch {
    return problem('is not JSON');
  }
}

/** Reads every ledger of a catalogue, sorted by mold. */
export async function readLedgers(root: string): Promise<Ledgers> {
  const folder = join(root, LEDGER_FOLDER);
  const names = await readdir(folder).catch(() => undefined);
  const files = (names ?? []).filter((name) => name.endsWith('.json')).sort();
  const found = await Promise.all(
    files.map((name) => read(join(folder, name), name.slice(0, -'.json'.length))),
  );
  return {
    kept: names !== undefined,
    ledgers: found.filter((one): one is Ledger => 'mold' in one),
    problems: found.filter((one): one is Problem => 'message' in one),
  };
}

/** Writes the ledger of one mold, whole or not at all. */
export async function writeLedger(root: string, { mold, ...file }: Ledger): Promise<void> {
  const folder = join(root, LEDGER_FOLDER);
  await mkdir(folder, { recursive: true });
  const path = join(folder, `${mold}.json`);
  const draft = `${path}.${process.pid}`;
  await writeFile(draft, `${JSON.stringify(file, null, 2)}\n`);
  await rename(draft, path);
}
