import { statSync } from 'node:fs';
import { mkdir, readFile, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { sha256 } from '../../io/digest.ts';
import { pagesFolder } from '../../io/settings.ts';
import { filesOf } from '../site-facts.ts';
import type { Plan } from './units.ts';

/** What stands at a place of the disk, and of what it was built. */
interface Standing {
  readonly key: string;
  /** Digest of the names, sizes and times of all files. */
  readonly files: string;
}

const noteOf = (output: string): string => join(pagesFolder(), 'standing', sha256(output));

/** Tells a folder from one in which a file was added, removed or written to. */
async function looks(folder: string): Promise<string> {
  const lines = (await filesOf(folder)).map((name) => {
    const { size, mtimeMs } = statSync(join(folder, name));
    return `${name} ${size} ${mtimeMs}`;
  });
  return sha256(...lines);
}

/** Whether the very site that a plan makes stands at a place already, untouched since it was built. */
export async function stands(output: string, { key }: Pick<Plan, 'key'>): Promise<boolean> {
  try {
    const noted = JSON.parse(await readFile(noteOf(output), 'utf8')) as Standing;
    return noted.key === key && noted.files === (await looks(output));
  } catch {
    return false;
  }
}

/** Notes what was built at a place. */
export async function noteStanding(output: string, { key }: Pick<Plan, 'key'>): Promise<void> {
  try {
    await mkdir(join(pagesFolder(), 'standing'), { recursive: true });
    await writeFile(noteOf(output), JSON.stringify({ key, files: await looks(output) } satisfies Standing));
  } catch {
    // Without the note the next build does its whole work.
    return;
  }
}
