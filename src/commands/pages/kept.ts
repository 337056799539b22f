import { linkSync, copyFileSync, mkdirSync, readFileSync, statSync, utimesSync } from 'node:fs';
import { mkdir, readdir, rename, rm, stat, writeFile } from 'node:fs/promises';
import { dirname, join } from 'node:path';
import { pagesFolder } from '../../io/settings.ts';
import type { FileFacts } from '../site-facts.ts';
import { unitPath, type Plan, type Unit } from './units.ts';

/** Pages that no build has asked for in this many days are thrown away, those of another program after one. */
const DAYS = { same: 30, other: 1 } as const;
const DAY = 86_400_000;

/** A file of a unit, as it was when it was put by. */
interface KeptFile extends FileFacts {
  readonly size: number;
  /** [ms] */
  readonly time: number;
}

/** The files of a unit as an earlier build left them. */
export interface Kept {
  /** Names of the scripts and styles of the site that they came from. */
  readonly assets: string;
  readonly files: readonly KeptFile[];
}

const NOTE = 'unit.json';
const homeOf = ({ machine }: Pick<Plan, 'machine'>): string =>
  join(pagesFolder(), 'units', machine.slice(0, 16));
const folderOf = (plan: Pick<Plan, 'machine'>, { key }: Unit): string => join(homeOf(plan), key);

/** The same file in a second place: one more name on the same disk, else a copy. */
function place(from: string, to: string): void {
  try {
    linkSync(from, to);
  } catch {
    copyFileSync(from, to);
  }
}

function isAsItWas(path: string, { size, time }: KeptFile): boolean {
  const found = statSync(path);
  return found.size === size && found.mtimeMs === time;
}

/** Looks for the files of a unit; nothing is found where one of them is gone or was changed. */
export function keptUnit(plan: Pick<Plan, 'machine'>, unit: Unit): Kept | undefined {
  const folder = folderOf(plan, unit);
  try {
    const kept = JSON.parse(readFileSync(join(folder, NOTE), 'utf8')) as Kept;
    const whole = kept.files.every((file) => isAsItWas(join(folder, 'files', file.name), file));
    if (whole) utimesSync(join(folder, NOTE), new Date(), new Date());
    return whole ? kept : undefined;
  } catch {
    return undefined;
  }
}

/** Puts the files of a unit into a site. */
export function carryOver(plan: Pick<Plan, 'machine'>, unit: Unit, { files }: Kept, site: string): void {
  const from = join(folderOf(plan, unit), 'files');
  const made = new Set<string>();
  for (const { name } of files) {
    const folder = dirname(join(site, name));
    if (!made.has(folder)) mkdirSync(folder, { recursive: true });
    made.add(folder);
    place(join(from, name), join(site, name));
  }
}

/** Puts the files of a unit by, for later builds: all of them, or none. */
export async function keepUnit(
  plan: Pick<Plan, 'machine'>,
  unit: Unit,
  { assets, facts }: { readonly assets: string; readonly facts: readonly FileFacts[] },
  site: string,
): Promise<void> {
  const folder = folderOf(plan, unit);
  const draft = join(homeOf(plan), `draft-${process.pid}`);
  const files: KeptFile[] = [];
  try {
    await rm(draft, { recursive: true, force: true });
    await mkdir(join(draft, 'files', unitPath(unit)), { recursive: true });
    for (const fact of facts) {
      const to = join(draft, 'files', fact.name);
      mkdirSync(dirname(to), { recursive: true });
      place(join(site, fact.name), to);
      const { size, mtimeMs } = statSync(to);
      files.push({ ...fact, size, time: mtimeMs });
    }
    await writeFile(join(draft, NOTE), JSON.stringify({ assets, files } satisfies Kept));
    await rm(folder, { recursive: true, force: true });
    await rename(draft, folder);
  } catch {
    // A disk that cannot hold them costs time at the next build, never this one.
    await rm(draft, { recursive: true, force: true }).catch(() => undefined);
  }
}

async function namesIn(folder: string): Promise<string[]> {
  return readdir(folder).catch(() => []);
}

async function isOld(path: string, days: number, now: number): Promise<boolean> {
  const found = await stat(path).catch(() => undefined);
  return found === undefined || now - found.mtimeMs > days * DAY;
}

/** Throws away what no build has asked for lately: pages, and notes of sites that stood somewhere. */
export async function pruneKept({ machine }: Pick<Plan, 'machine'>, now: number = Date.now()): Promise<void> {
  const [home, notes] = ['units', 'standing'].map((name) => join(pagesFolder(), name)) as [string, string];
  for (const other of await namesIn(home)) {
    const days = machine.startsWith(other) ? DAYS.same : DAYS.other;
    for (const unit of await namesIn(join(home, other))) {
      const folder = join(home, other, unit);
      if (await isOld(join(folder, NOTE), days, now)) await rm(folder, { recursive: true, force: true });
    }
    if ((await namesIn(join(home, other))).length === 0) await rm(join(home, other), { recursive: true });
  }
  for (const note of await namesIn(notes)) {
    if (await isOld(join(notes, note), DAYS.same, now)) await rm(join(notes, note), { force: true });
  }
}
