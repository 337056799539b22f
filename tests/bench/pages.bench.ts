// What one mold more costs Astro in pages, against one page more of a bare Astro site. A bare page is as large as all HTML that a
// mold adds: its sheet, its share in the page of its bait and in those about all molds. Sheets, drawings and pictures are in the
// store before anything is timed. Core time is user and system time of all processes. Needs Linux.
// Run: npx node tests/bench/pages.bench.ts [--molds 8,56]
import { mkdirSync, readdirSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { typed } from '../../src/commands/arguments.ts';
import { generateCatalogue } from '../support/generator/catalogue.ts';
import { keep, spreadOf, verdict } from './harness.ts';
import { watched, watchedProgram, type Cost } from './watched.ts';

const HOME = join('.cache', 'bench', 'pages');
/** Of our own pages, a mold more over a bare page more. */
const LIMITS = { pages: 3 };
/** Letters of a paragraph of a bare page. */
const PARAGRAPH = 400;
/** Bare pages for each mold: they cost so little that a few would not show. */
const BARE = 5;
/** Builds of each size, after one that is not counted. */
const RUNS = 5;

const given = typed(
  { options: { molds: { type: 'string', default: '8,56' } } },
  'npx node tests/bench/pages.bench.ts [--molds 8,56]',
);

function sound(name: string, cost: Cost): Cost {
  if (cost.code !== 0) throw new Error(`${name} ended with code ${cost.code}\n${cost.stdout.slice(-2000)}`);
  return cost;
}

const emptied = (folder: string): string => {
  rmSync(folder, { recursive: true, force: true });
  return folder;
};

/** Size of all pages of a site [bytes]. */
function htmlOf(folder: string): number {
  return readdirSync(folder, { recursive: true, withFileTypes: true })
    .filter((one) => one.isFile() && one.name.endsWith('.html'))
    .reduce((sum, { parentPath, name }) => sum + statSync(join(parentPath, name)).size, 0);
}

type Settings = Readonly<Record<'CONTENT_DIR' | 'OUT_DIR' | 'PAGES_CACHE' | 'ANALYSIS_CACHE', string>>;

/** A generated catalogue, and where its builds lie. */
async function place(molds: number): Promise<Settings> {
  const folder = join(HOME, String(molds));
  const catalogue = join(emptied(folder), 'catalogue');
  await generateCatalogue(catalogue, molds);
  return {
    CONTENT_DIR: catalogue,
    OUT_DIR: join(folder, 'site'),
    PAGES_CACHE: join(folder, 'kept'),
    ANALYSIS_CACHE: join(HOME, 'analysis'),
  };
}

const ASTRO = resolve('node_modules', 'astro', 'bin', 'astro.mjs');

/** Core time of some builds by Astro [s]. */
async function builds(
  args: readonly string[],
  environment: Readonly<Record<string, string>>,
  output: string,
): Promise<number[]> {
  const core: number[] = [];
  for (let run = -1; run < RUNS; run++) {
    emptied(output);
    const cost = sound(
      'astro',
      await watchedProgram([process.execPath, ASTRO, 'build', ...args], environment),
    );
    if (run >= 0) core.push(cost.core);
  }
  return core;
}

/** Astro alone renders all pages of a catalogue whose sheets and drawings are in the store. */
async function allPages(settings: Settings): Promise<number[]> {
  sound('build', await watched('build', settings));
  const environment = { ...settings, NODE_ENV: 'production', ASTRO_TELEMETRY_DISABLED: '1' };
  return builds([], environment, settings.OUT_DIR);
}

const PAGE = `---
import { getCollection } from 'astro:content';
export const getStaticPaths = async () =>
  (await getCollection('pages')).map(({ id, data }) => ({ params: { id }, props: data }));
const { title, rows } = Astro.props;
---
<!doctype html>
<html lang="en">
  <head><meta charset="utf-8" /><title>{title}</title></head>
  <body><h1>{title}</h1>{rows.map((row) => <p>{row}</p>)}</body>
</html>
`;

const COLLECTION = `import { defineCollection } from 'astro:content';
import { glob } from 'astro/loaders';
import { z } from 'astro/zod';
export const collections = {
  pages: defineCollection({
    loader: glob({ pattern: '*.json', base: './entries' }),
    schema: z.object({ title: z.string(), rows: z.array(z.string()) }),
  }),
};
`;

/** A bare site: one page an entry, each of so many bytes. */
async function bare(pages: number, bytes: number): Promise<number[]> {
  const folder = resolve(emptied(join(HOME, `bare-${pages}`)));
  for (const below of ['entries', 'src/pages']) mkdirSync(join(folder, below), { recursive: true });
  writeFileSync(join(folder, 'package.json'), '{ "type": "module", "private": true }\n');
  writeFileSync(join(folder, 'src', 'content.config.ts'), COLLECTION);
  writeFileSync(join(folder, 'src', 'pages', '[id].astro'), PAGE);
  for (let page = 0; page < pages; page++) {
    const rows = Array.from({ length: Math.round(bytes / (PARAGRAPH + 7)) }, (_, row) =>
      `${page} ${row} figures of a mold in a row of words `.repeat(PARAGRAPH).slice(0, PARAGRAPH),
    );
    writeFileSync(join(folder, 'entries', `${page}.json`), JSON.stringify({ title: `Mold ${page}`, rows }));
  }
  return builds(['--root', folder], {}, join(folder, 'dist'));
}

function keepOne(what: string, n: number, values: readonly number[], unit: string, ratio?: number): void {
  keep({ bench: 'pages', what, n, unit, ...spreadOf(values), ...(ratio !== undefined && { ratio }) });
}

/** What one more took, build by build of the larger size against the median of the smaller one [s]. */
function oneMore(small: readonly number[], large: readonly number[], more: number): number[] {
  const { median } = spreadOf(small);
  return large.map((core) => (core - median) / more);
}

if (given) {
  const [less = 8, more = 56] = given.values.molds.split(',').map(Number);
  const [fewer, large] = [await place(less), await place(more)];
  const small = await allPages(fewer);
  const whole = await allPages(large);
  const bytes = (htmlOf(large.OUT_DIR) - htmlOf(fewer.OUT_DIR)) / (more - less);
  const ours = oneMore(small, whole, more - less);
  const [few, many] = [await bare(less, bytes), await bare(BARE * more, bytes)];
  const theirs = oneMore(few, many, BARE * more - less);
  const ratio = spreadOf(ours).median / spreadOf(theirs).median;
  keepOne('all pages: core', more, whole, 's');
  keepOne('a mold more: core', more, ours, 's', ratio);
  keepOne('a mold more: HTML', more, [bytes / 1e3], 'kB');
  keepOne('a bare page more: core', BARE * more, theirs, 's');
  verdict({
    'a mold more takes time': spreadOf(ours).low > 0,
    [`a mold more within ${LIMITS.pages} bare pages of its size`]: ratio <= LIMITS.pages,
  });
}
