import { cp, mkdir, mkdtemp, readFile, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { dirname, join, resolve } from 'node:path';
import { onTestFinished } from 'vitest';

/** The smallest catalogue that makes a whole site. */
export const TINY = resolve('tests/fixtures/site-tiny');

/** A new empty folder that goes when the test ends. */
export async function temporaryFolder(): Promise<string> {
  const folder = await mkdtemp(join(tmpdir(), 'partline-test-'));
  onTestFinished(() => rm(folder, { recursive: true, force: true }));
  return folder;
}

/** Changes by path: a whole new text, or what to replace by what. */
export type Changes = Readonly<Record<string, string | readonly (readonly [string, string])[]>>;

/** A copy of the tiny catalogue with changes; a replacement that finds nothing to replace is an error. */
export async function changedCatalogue(changes: Changes): Promise<string> {
  const folder = join(await temporaryFolder(), 'catalogue');
  await cp(TINY, folder, { recursive: true });
  for (const [name, change] of Object.entries(changes)) {
    const path = join(folder, name);
    await mkdir(dirname(path), { recursive: true });
    await writeFile(
      path,
      typeof change === 'string' ? change : replaced(await readFile(path, 'utf8'), change),
    );
  }
  return folder;
}

function replaced(text: string, changes: readonly (readonly [string, string])[]): string {
  return changes.reduce((before, [from, to]) => {
    if (!before.includes(from)) throw new Error(`nothing to replace: ${from}`);
    return before.replace(from, to);
  }, text);
}
