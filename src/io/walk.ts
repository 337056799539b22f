import { lstat, readdir } from 'node:fs/promises';
import { join } from 'node:path';
import { COLLECTIONS, type CollectionName } from '../schema/collections.ts';
import type { Problem } from '../schema/problem.ts';
import { suggestion } from './nearest.ts';
import { shownPath } from './settings.ts';
import { LIMITS } from './yaml-source.ts';

/** One written file of the catalogue. */
export interface EntryFile {
  readonly collection: CollectionName | 'guides' | 'shop';
  readonly id: string;
  readonly path: string;
}

/** What lies in a catalogue folder. */
export interface Found {
  readonly files: readonly EntryFile[];
  readonly problems: readonly Problem[];
}

const ID = /^[a-z0-9](?:[a-z0-9-]{0,62}[a-z0-9])?$/u;
const DEVICE = /^(?:con|prn|aux|nul|com\d|lpt\d)$/u;
const FOLDERS = [...(Object.keys(COLLECTIONS) as CollectionName[]), 'guides'] as const;
type Folder = (typeof FOLDERS)[number];

const at = (path: string, message: string, remedy: string): Problem => ({
  file: shownPath(path),
  line: 1,
  column: 1,
  message,
  remedy,
});

/** Lists a catalogue folder; links, pipes, stray and doubtful names are refused. */
export async function listCatalogue(root: string): Promise<Found> {
  const { paths, problems } = await regularFiles(root, []);
  const written = paths.filter((path) => /\.(?:ya?ml|mdx?)$/iu.test(path.at(-1) ?? ''));
  const sorted = written.map((path) => entryOf(root, path));
  const files = sorted.filter((item): item is EntryFile => item !== null && 'id' in item);
  const strays = sorted.filter((item): item is Problem => item !== null && 'message' in item);
  const twins = twinProblems(files);
  const named = files.filter((file) => twins.every((twin) => twin.file !== shownPath(file.path)));
  const misnamed = named.flatMap(misnamedProblems);
  return { files, problems: [...problems, ...strays, ...twins, ...misnamed] };
}

interface Regular {
  readonly paths: readonly (readonly string[])[];
  readonly problems: readonly Problem[];
}

async function regularFiles(root: string, below: readonly string[]): Promise<Regular> {
  const names = (await readdir(join(root, ...below))).filter((name) => !name.startsWith('.')).sort();
  const parts = await Promise.all(names.map((name) => one(root, [...below, name])));
  return { paths: parts.flatMap((part) => part.paths), problems: parts.flatMap((part) => part.problems) };
}

async function one(root: string, path: readonly string[]): Promise<Regular> {
  const full = join(root, ...path);
  const info = await lstat(full);
  if (info.isDirectory()) return regularFiles(root, path);
  if (info.isFile()) return { paths: [path], problems: [] };
  const what = info.isSymbolicLink() ? 'a symbolic link' : 'not a regular file';
  return { paths: [], problems: [at(full, `is ${what}`, 'put the file itself here')] };
}

/** The entry that a path is, the reason why it is none, or null for files that are not entries. */
function entryOf(root: string, path: readonly string[]): EntryFile | Problem | null {
  const full = join(root, ...path);
  const [folder = '', name = ''] = path;
  if (path.length === 1) return atTop(full, folder);
  const known = FOLDERS.find((candidate): candidate is Folder => candidate === folder);
  if (!known) {
    if (!/\.ya?ml$/iu.test(path.at(-1) ?? '')) return null;
    return at(full, `"${folder}" is not a collection`, suggestion(folder, FOLDERS, 'collections'));
  }
  const ending = known === 'guides' ? '.mdx' : '.yaml';
  if (path.length > 2) return at(full, 'lies too deep', `put it right below "${folder}"`);
  if (!name.endsWith(ending)) {
    const readme = name.toLowerCase() === 'readme.md';
    return readme ? null : at(full, `the ending is not ${ending}`, `rename it so that it ends in ${ending}`);
  }
  return { collection: known, id: name.slice(0, -ending.length), path: full };
}

function atTop(full: string, name: string): EntryFile | Problem | null {
  if (name === 'shop.yaml') return { collection: 'shop', id: 'shop', path: full };
  if (!/\.ya?ml$/iu.test(name)) return null;
  return at(
    full,
    'is not in a collection',
    `put it below one of: ${FOLDERS.join(', ')}; only shop.yaml stands here`,
  );
}

/** What to do about an id that no file may have, or nothing when it is sound. */
export function idFault(id: string): string | undefined {
  if (ID.test(id) && !DEVICE.test(id)) return undefined;
  return 'name the file with lower-case letters, digits and dashes, at most 64, no device name like "con"';
}

function misnamedProblems(file: EntryFile): Problem[] {
  const remedy = idFault(file.id);
  return remedy === undefined ? [] : [at(file.path, `"${file.id}" cannot be an id`, remedy)];
}

/** Ids that some disks or addresses cannot tell apart: by case, by Unicode form, by space, dash or underscore. */
function twinProblems(files: readonly EntryFile[]): Problem[] {
  const folded = Map.groupBy(
    files,
    ({ collection, id }) =>
      `${collection}/${id
        .normalize('NFC')
        .toLowerCase()
        .replace(/[\s_-]+/gu, '-')}`,
  );
  return [...folded.values()]
    .filter((group) => group.length > 1)
    .flatMap((group) =>
      group
        .slice(1)
        .map((file) =>
          at(file.path, `has the same id as ${shownPath(group[0]?.path ?? '')}`, 'rename one of the two'),
        ),
    );
}

/** Why a file is too large to be read, or nothing. */
export async function sizeProblem(path: string): Promise<Problem | undefined> {
  const { size } = await lstat(path);
  if (size <= LIMITS.bytes) return undefined;
  return at(path, `is ${Math.ceil(size / 1024)} kB`, `keep it at or below ${LIMITS.bytes / 1024} kB`);
}
