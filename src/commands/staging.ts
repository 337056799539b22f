import { existsSync, renameSync } from 'node:fs';
import { cp, mkdir, readdir, rename, rm } from 'node:fs/promises';
import { homedir } from 'node:os';
import { basename, dirname, join } from 'node:path';
import { CACHE_FOLDER, isInside, PROJECT_ROOT, shownPath } from '../io/settings.ts';
import { isRunning } from './lock.ts';

/** Folders that one build works in. */
export interface Stage {
  /** Where Astro writes: inside the project, so that built code finds its packages. */
  readonly work: string;
  /** Where threads write what Astro does not. */
  readonly own: string;
  /** The bundled pages until they are rendered; inside the project, too. */
  readonly bundle: string;
  /** The finished site beside the old one, on the same disk. */
  readonly next: string;
  /** Where the old site steps aside to. */
  readonly old: string;
}

/** Names of the folders for this process; nothing is made yet. */
export function stageFor(output: string): Stage {
  const beside = (role: string) => join(dirname(output), `.${basename(output)}.${role}-${process.pid}`);
  const work = join(CACHE_FOLDER, `site-${process.pid}`);
  return { work, own: `${work}.own`, bundle: `${work}.bundle`, next: beside('next'), old: beside('old') };
}

/** Why a folder must not be replaced by a site, or nothing. */
export async function outputFault(output: string, content: string): Promise<string | undefined> {
  const shown = shownPath(output);
  const vital = [PROJECT_ROOT, content, homedir()].find((folder) => isInside(output, folder));
  if (vital) return `OUT_DIR: ${shown} holds ${shownPath(vital)} — choose a folder of its own, such as dist`;
  if (isInside(content, output))
    return `OUT_DIR: ${shown} lies in the catalogue — choose a folder outside it`;
  const names = existsSync(output) ? await readdir(output) : [];
  if (names.length === 0 || names.includes('index.html')) return undefined;
  return `OUT_DIR: ${shown} holds files but no site — empty it, or choose another folder`;
}

/** Puts back or clears away what a killed build has left. */
export async function clearLeftovers(output: string): Promise<void> {
  const name = basename(output);
  const mark = new RegExp(`^\\.${RegExp.escape(name)}\\.(next|old)-(\\d+)$`, 'u');
  for (const sibling of await listed(dirname(output))) {
    const [, role, pid] = mark.exec(sibling) ?? [];
    if (!role || (Number(pid) !== process.pid && isRunning(Number(pid)))) continue;
    const path = join(dirname(output), sibling);
    if (role === 'old' && !existsSync(output)) await rename(path, output);
    else await rm(path, { recursive: true, force: true });
  }
  for (const folder of await listed(CACHE_FOLDER)) {
    const [, pid] = /^site-(\d+)(?:\.bundle|\.own(?:\.json)?)?$/u.exec(folder) ?? [];
    if (pid && !isRunning(Number(pid)))
      await rm(join(CACHE_FOLDER, folder), { recursive: true, force: true });
  }
}

async function listed(folder: string): Promise<string[]> {
  return readdir(folder).catch(() => []);
}

/** Moves the finished work beside the old site: by rename on one disk, by copy from another. */
export async function bringBeside({ work, next }: Stage): Promise<void> {
  await mkdir(dirname(next), { recursive: true });
  try {
    await rename(work, next);
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code !== 'EXDEV') throw error;
    await cp(work, next, { recursive: true, errorOnExist: true });
  }
}

/** Swaps the new site in: two renames with nothing between them, then the old one goes. */
export async function swapIn(output: string, { next, old }: Stage): Promise<void> {
  if (existsSync(output)) {
    renameSync(output, old);
    try {
      renameSync(next, output);
    } catch (error) {
      renameSync(old, output);
      throw error;
    }
  } else {
    renameSync(next, output);
  }
  await rm(old, { recursive: true, force: true });
}

/** Removes what a build has left unfinished. */
export async function discard({ work, own, bundle, next }: Stage): Promise<void> {
  for (const folder of [work, own, bundle, next]) await rm(folder, { recursive: true, force: true });
}
