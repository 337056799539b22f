import { statSync } from 'node:fs';
import { mkdir, readdir, readFile, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { sha256 } from '../../io/digest.ts';
import { SETTLED } from '../../io/fingerprint.ts';
import { programId } from '../../io/program-id.ts';
import { pagesFolder } from '../../io/settings.ts';
import { filesOf } from '../site-facts.ts';
import { GUIDES_THAT_COME_ALONG, machineOf, type Plan } from './units.ts';

/** What stands at a place of the disk, and of what it was built. */
interface Standing {
  readonly key: string;
  /** Digest of the names, sizes and times of all files. */
  readonly files: string;
  /** What the catalogue and the program looked like; left out where a look could not tell the next change. */
  readonly glance?: string;
  /** What was said of the catalogue to whoever built it, line by line. */
  readonly told: readonly string[];
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

/** Names, sizes, times and places on the disk of the files below a folder; nothing where they would not tell of a change. */
async function linesOf(folder: string, now: number): Promise<string[] | undefined> {
  const lines: string[] = [];
  for (const entry of await readdir(folder, { recursive: true, withFileTypes: true }).catch(() => [])) {
    const path = join(entry.parentPath, entry.name);
    if (entry.isDirectory()) continue;
    // What a link leads to may change without the link's knowing, or be gone.
    const found = entry.isFile() ? statSync(path, { bigint: true, throwIfNoEntry: false }) : undefined;
    if (!found) return undefined;
    const { size, mtimeNs, ctimeNs, mtimeMs, ctimeMs, ino } = found;
    if (now - Number(mtimeMs > ctimeMs ? mtimeMs : ctimeMs) <= SETTLED) return undefined;
    lines.push([path, size, mtimeNs, ctimeNs, ino].join(' '));
  }
  return lines.sort();
}

/**
 * A look at everything that a site is built of, without reading the catalogue: equal looks, equal sites.
 *
 * @param content - folder of the catalogue
 * @param now - [ms]
 * @returns a digest; nothing where files are so new that one more change might not show in their times
 */
export async function glanceAt(content: string, now: number = Date.now()): Promise<string | undefined> {
  const parts = [machineOf(await programId()), content];
  for (const folder of new Set([content, GUIDES_THAT_COME_ALONG])) {
    const lines = await linesOf(folder, now);
    if (!lines) return undefined;
    parts.push(...lines);
  }
  return sha256(...parts);
}

async function noted(output: string): Promise<Standing | undefined> {
  try {
    const note = JSON.parse(await readFile(noteOf(output), 'utf8')) as Standing;
    return note.files === (await looks(output)) ? note : undefined;
  } catch {
    return undefined;
  }
}

/**
 * What was said of the catalogue when the site was built that still stands at a place, when neither it nor what it was built
 * of has been touched since.
 */
export async function standsUntouched(
  output: string,
  glance: string,
): Promise<readonly string[] | undefined> {
  const note = await noted(output);
  return note?.glance === glance ? note.told : undefined;
}

/** Whether the very site that a plan makes stands at a place already, untouched since it was built. */
export async function stands(output: string, { key }: Pick<Plan, 'key'>): Promise<boolean> {
  return (await noted(output))?.key === key;
}

/**
 * Notes what was built at a place.
 *
 * @param glance - from before the catalogue was read
 * @param told - what was said of it, line by line
 */
export async function noteStanding(
  output: string,
  { key }: Pick<Plan, 'key'>,
  { glance, told }: Pick<Standing, 'told'> & { readonly glance: string | undefined },
): Promise<void> {
  try {
    await mkdir(join(pagesFolder(), 'standing'), { recursive: true });
    const note: Standing = { key, files: await looks(output), told, ...(glance !== undefined && { glance }) };
    await writeFile(noteOf(output), JSON.stringify(note));
  } catch {
    // Without the note the next build does its whole work.
    return;
  }
}
