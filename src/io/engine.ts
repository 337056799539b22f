import { existsSync } from 'node:fs';
import { readdir, readFile } from 'node:fs/promises';
import { join, resolve } from 'node:path';
import { z } from 'zod';
import { sha256 } from './digest.ts';
import { PROJECT_ROOT } from './settings.ts';

const SOURCE = join(PROJECT_ROOT, 'src');

/** Rooms that compute. */
const ROOMS = ['core', 'sheet', 'render', 'drawing', 'card'];

/** What the analysis is handed from outside, and so imports nowhere; how results are written is among it. */
const HANDED = ['mesh-file', 'kept-value'].map((name) => join(SOURCE, 'io', `${name}.ts`));

/** Modules that a module runs; types run nothing. */
const IMPORT =
  /^(?:import|export)\s+(?!type\b)(?:[^'";]*?\bfrom\s+)?'(?<path>\.[^']+)'|\bimport\('(?<lazy>\.[^']+)'\)/gmu;

/** Paths of a module and of all that it runs, itself first. */
async function closureOf(roots: readonly string[]): Promise<Map<string, string>> {
  const texts = new Map<string, string>();
  const open = [...roots];
  for (let path = open.pop(); path !== undefined; path = open.pop()) {
    if (texts.has(path)) continue;
    const text = await readFile(path, 'utf8');
    texts.set(path, text);
    for (const { groups } of text.matchAll(IMPORT))
      open.push(resolve(path, '..', groups?.['path'] ?? groups?.['lazy'] ?? ''));
  }
  return texts;
}

async function everything(): Promise<string[]> {
  const files = await Promise.all(
    ROOMS.map((room) => readdir(join(SOURCE, room), { recursive: true, withFileTypes: true })),
  );
  return files
    .flat()
    .filter((entry) => entry.isFile() && entry.name.endsWith('.ts'))
    .map((entry) => join(entry.parentPath, entry.name));
}

const lockSchema = z.object({
  packages: z.record(
    z.string(),
    z.looseObject({ version: z.string().optional(), dev: z.boolean().optional() }),
  ),
});

/** Versions of the packages that a site is built with; those for development change no result. */
export async function runtimePackages(): Promise<string> {
  const lock = lockSchema.parse(
    JSON.parse(await readFile(join(PROJECT_ROOT, 'package-lock.json'), 'utf8')) as unknown,
  );
  return Object.entries(lock.packages)
    .filter(([path, { dev }]) => path !== '' && dev !== true)
    .map(([path, { version }]) => `${path} ${version ?? ''}`)
    .sort()
    .join('\n');
}

/** The module that a piece of work is named after: `fill-study` is `src/sheet/fill-study.ts`. */
function moduleOf(what: string): string | undefined {
  return [join(SOURCE, 'sheet', `${what}.ts`), join(SOURCE, `${what}.ts`)].find((path) => existsSync(path));
}

async function hashed(what: string): Promise<string> {
  const own = moduleOf(what);
  const texts = await closureOf(own ? [own, ...HANDED] : [...(await everything()), ...HANDED]);
  const sources = [...texts].sort(([a], [b]) => (a < b ? -1 : 1)).map(([, text]) => text);
  return sha256(process.version.split('.')[0] ?? '', await runtimePackages(), ...sources);
}

/**
 * Hashes of all that decides a result but its inputs: packages, and sources. Of work that is named after a module,
 * only what that module runs; of other work, every room that computes.
 */
export function engine(): (what: string) => Promise<string> {
  const kept = new Map<string, Promise<string>>();
  return (what) => {
    const hash = kept.get(what) ?? hashed(what);
    kept.set(what, hash);
    return hash;
  };
}
