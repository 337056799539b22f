import { readdir, readFile, stat } from 'node:fs/promises';
import { join, relative, sep } from 'node:path';
import { z } from 'zod';
import { PROJECT_ROOT } from '../io/settings.ts';
import { REQUIRED_FIGURES } from '../sheet/sheet.ts';
import { deadLinks } from './site-links.ts';

/** What a finished site must hold. */
export interface Expected {
  /** Ids of the molds that are published; no other may appear. */
  readonly published: readonly string[];
  /** Address that it will be published at. */
  readonly address: string;
}

const TEXT = /\.(?:html|json|svg|css|js|xml|txt|csv|webmanifest)$/u;

const BUILD = /<meta name="build" content="[\da-f]{8}-[\da-f]{8}"/u;

const numberSchema = z.looseObject({
  value: z.number(),
  low: z.number(),
  high: z.number(),
  unit: z.string(),
});
const specSchema = z.looseObject({
  format: z.literal('partline-spec/1'),
  figures: z.record(z.string(), numberSchema),
});

/** What is wrong with a built site, one line each; an empty list means that it is whole. */
export async function siteFaults(folder: string, { published, address }: Expected): Promise<string[]> {
  const files = await allFiles(folder);
  const names = new Set(files);
  const required = [
    'index.html',
    ...published.flatMap((id) => [`molds/${id}/index.html`, `molds/${id}/spec.json`]),
  ];
  const absent = required.filter((name) => !names.has(name)).map((name) => `${name} is missing`);
  const shown = files.map((name) => /^molds\/([^/]+)\//u.exec(name)?.[1]).filter((id) => id !== undefined);
  const strangers = [...new Set(shown)].filter((id) => !published.includes(id));
  const faults = await Promise.all(files.map((name) => fileFaults(folder, name)));
  const dead = await deadLinks(folder, files, address);
  return [...absent, ...strangers.map((id) => `molds/${id} is not published`), ...faults.flat(), ...dead];
}

async function allFiles(folder: string): Promise<string[]> {
  const entries = await readdir(folder, { recursive: true, withFileTypes: true });
  return entries
    .filter((entry) => !entry.isDirectory())
    .map((entry) => relative(folder, join(entry.parentPath, entry.name)).split(sep).join('/'))
    .sort();
}

async function fileFaults(folder: string, name: string): Promise<string[]> {
  const path = join(folder, name);
  const { size } = await stat(path);
  if (size === 0) return [`${name} is empty`];
  if (/(?:^|\/)\.prerender(?:\/|$)|\.map$/u.test(name)) return [`${name} is a by-product of the build`];
  if (!TEXT.test(name)) return [];
  const text = await readFile(path, 'utf8');
  return [
    ...(text.includes(PROJECT_ROOT) ? [`${name} holds a path of this machine`] : []),
    ...(/\[object Object\]|\bNaN\b/u.test(text) && !name.endsWith('.js')
      ? [`${name} holds a value that is none`]
      : []),
    ...(name.endsWith('.html') && !BUILD.test(text) ? [`${name} does not name its build`] : []),
    ...(/^molds\/[^/]+\/spec\.json$/u.test(name) ? specFaults(name, text) : []),
  ];
}

function specFaults(name: string, text: string): string[] {
  const read = specSchema.safeParse(parsed(text));
  if (!read.success) {
    return read.error.issues.map((issue) => `${name}: ${issue.path.join('.')}: ${issue.message}`);
  }
  const { figures } = read.data;
  const absent = REQUIRED_FIGURES.filter((key) => !(key in figures)).map(
    (key) => `${name}: ${key} is missing`,
  );
  const crooked = Object.entries(figures)
    .filter(([, { value, low, high }]) => low > value || value > high)
    .map(([key]) => `${name}: ${key} is outside its own band`);
  return [...absent, ...crooked];
}

function parsed(text: string): unknown {
  try {
    return JSON.parse(text);
  } catch {
    return undefined;
  }
}
