import { lstat, readFile } from 'node:fs/promises';
import { join } from 'node:path';
import type { z } from 'zod';
import {
  COLLECTIONS,
  guideSchema,
  shopSchema,
  type Catalogue,
  type CollectionName,
  type Entry,
  type Guide,
  type Shop,
} from '../schema/collections.ts';
import type { EntryProblem, Path, Problem } from '../schema/problem.ts';
import { fileProblems } from './file-problems.ts';
import { readGuide } from './guide-source.ts';
import { sortedProblems } from './problem-text.ts';
import { referenceProblems, type Written } from './reference-problems.ts';
import { schemaProblems } from './schema-problems.ts';
import { shownPath } from './settings.ts';
import { listCatalogue, sizeProblem, type EntryFile } from './walk.ts';
import { readYaml, type Position, type ReadSource, type Source } from './yaml-source.ts';

/** Name of a collection, the shop's single entry included. */
export type SourceName = EntryFile['collection'];

/** An entry as it was written, by collection and id. */
export interface WrittenEntry {
  readonly collection: SourceName;
  readonly id: string;
  readonly path: string;
  readonly data: unknown;
}

/** A catalogue without mistakes. */
export interface GoodReading {
  readonly catalogue: Catalogue;
  readonly guides: readonly Entry<Guide>[];
  /** Everything as written, for loaders that check it against the same schemas. */
  readonly written: readonly WrittenEntry[];
  /** Place of a value of an entry: of the nearest thing around it where it is left out. */
  locate(id: string, collection: SourceName, path: Path): Position & { readonly file: string };
}

/** A catalogue, or every mistake in it. */
export type Reading = GoodReading | { readonly problems: readonly Problem[] };

interface Loaded extends EntryFile {
  readonly source: Source;
}

interface Checked {
  readonly entry: Loaded;
  readonly output: unknown;
  readonly problems: readonly Problem[];
}

/** Reads and checks the catalogue in a folder; every mistake of every file comes back in one run. */
export async function readCatalogue(root: string): Promise<Reading> {
  const absent = await absentProblem(root);
  if (absent) return { problems: [absent] };
  const { files, problems: listed } = await listCatalogue(root);
  const read: { file: EntryFile; result: ReadSource }[] = [];
  for (const file of files) read.push({ file, result: await readEntry(file) });
  const loaded = read.flatMap(({ file, result: { source } }) => (source ? [{ ...file, source }] : []));
  const unread = read.flatMap(({ result }) => result.problems);
  const checked = loaded.map(check);
  const across = await crossProblems(root, files, loaded);
  const problems = [...listed, ...unread, ...checked.flatMap((one) => one.problems), ...across];
  if (!files.some(({ collection }) => collection === 'shop')) problems.push(noShop(root));
  if (problems.length > 0) return { problems: sortedProblems(distinct(problems)) };
  return goodReading(checked);
}

/** A mistake of an entry at its line. */
export function placed(problem: EntryProblem, reading: Pick<GoodReading, 'locate'>): Problem {
  const { id, collection, path, message, remedy } = problem;
  return { ...reading.locate(id, collection as SourceName, path), message, remedy };
}

async function absentProblem(root: string): Promise<Problem | undefined> {
  const info = await lstat(root).catch(() => undefined);
  if (info?.isDirectory()) return undefined;
  const remedy = 'make the folder, or set CONTENT_DIR to the catalogue';
  return { file: shownPath(root), line: 1, column: 1, message: 'the catalogue folder is not there', remedy };
}

function noShop(root: string): Problem {
  const remedy = 'add it: name, site, contact and units of the maker';
  return {
    file: shownPath(join(root, 'shop.yaml')),
    line: 1,
    column: 1,
    message: 'the file is missing',
    remedy,
  };
}

async function readEntry(file: EntryFile): Promise<ReadSource> {
  const large = await sizeProblem(file.path);
  if (large) return { problems: [large] };
  const shown = shownPath(file.path);
  const bytes = await readFile(file.path);
  try {
    const text = new TextDecoder('utf-8', { fatal: true }).decode(bytes);
    return file.collection === 'guides' ? readGuide(shown, text) : readYaml(shown, text);
  } catch (error) {
    if (!(error instanceof TypeError)) throw error;
    const remedy = 'save it again as UTF-8 text';
    return { problems: [{ file: shown, line: 1, column: 1, message: 'the file is not UTF-8 text', remedy }] };
  }
}

function schemaOf(collection: SourceName): z.ZodType {
  if (collection === 'shop') return shopSchema;
  return collection === 'guides' ? guideSchema : COLLECTIONS[collection];
}

function check(entry: Loaded): Checked {
  const schema = schemaOf(entry.collection);
  const result = schema.safeParse(entry.source.data);
  if (result.success) return { entry, output: result.data, problems: [] };
  return { entry, output: undefined, problems: schemaProblems(schema, entry.source, result.error.issues) };
}

async function crossProblems(
  root: string,
  files: readonly EntryFile[],
  loaded: readonly Loaded[],
): Promise<Problem[]> {
  const data = new Map(loaded.map((entry) => [entry.path, entry.source.data]));
  const written = files.flatMap(({ collection, id, path }): Written[] =>
    collection === 'shop' || collection === 'guides' ? [] : [{ collection, id, data: data.get(path) }],
  );
  const naming = files.map(({ collection, id, path }) => ({
    collection,
    id,
    data: data.get(path),
    schema: schemaOf(collection),
  }));
  const problems = [...referenceProblems(written), ...(await fileProblems(root, naming))];
  return problems.map((problem) => placed(problem, locator(loaded)));
}

function locator(loaded: readonly Loaded[]): Pick<GoodReading, 'locate'> {
  const sources = new Map(loaded.map((entry) => [`${entry.collection}/${entry.id}`, entry.source]));
  return {
    locate(id, collection, path) {
      const source = sources.get(`${collection}/${id}`);
      if (!source) throw new RangeError(`locate: wants the id of an entry, got ${collection}/${id}`);
      return { file: source.file, ...source.position(path) };
    },
  };
}

function distinct(problems: readonly Problem[]): Problem[] {
  return [...new Map(problems.map((problem) => [JSON.stringify(problem), problem])).values()];
}

function goodReading(checked: readonly Checked[]): GoodReading {
  const ordered = [...checked].sort((a, b) => (a.entry.id < b.entry.id ? -1 : 1));
  const all = (name: SourceName) =>
    ordered
      .filter(({ entry }) => entry.collection === name)
      .map(({ entry, output }) => ({ id: entry.id, ...(output as object) }));
  const lists = Object.keys(COLLECTIONS).map((name) => [name, all(name as CollectionName)]);
  const shop = ordered.find(({ entry }) => entry.collection === 'shop')?.output;
  return {
    catalogue: { ...Object.fromEntries(lists), shop } as Catalogue,
    guides: all('guides') as Entry<Guide>[],
    written: ordered.map(({ entry: { collection, id, path, source } }) => ({
      collection,
      id,
      path,
      data: source.data,
    })),
    ...locator(ordered.map(({ entry }) => entry)),
  };
}

/** The shop of a catalogue, or nothing while `shop.yaml` does not say it soundly. */
export async function shopOf(root: string): Promise<Shop | undefined> {
  const path = join(root, 'shop.yaml');
  const text = await readFile(path, 'utf8').catch(() => '');
  return shopSchema.safeParse(readYaml(shownPath(path), text).source?.data).data;
}
