// What one mold more costs in pages, against one page more of a bare Astro site whose pages are as large; and what it costs
// to build again after one mold has changed. Analysis, cards' faces and pictures are in the cache before anything is timed.
// Core time is user and system time of all processes. Needs Linux. Run: npx node tests/bench/pages.bench.ts [--molds 8,24]
import { mkdirSync, readdirSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { typed } from '../../src/commands/arguments.ts';
import { generateCatalogue } from '../support/generator/catalogue.ts';
import { keep, spreadOf, verdict } from './harness.ts';
import { watched, watchedProgram, type Cost } from './watched.ts';

const HOME = join('.cache', 'bench', 'pages');
/** Of our own pages, a mold more over a bare page more; of a build after one change, over a build of all pages. */
const LIMITS = { pages: 3, changed: 0.1 };
/** Letters of a paragraph of a bare page. */
const PARAGRAPH = 400;

const given = typed(
  { options: { molds: { type: 'string', default: '8,24' } } },
  'npx node tests/bench/pages.bench.ts [--molds 8,24]',
);

function sound(name: string, cost: Cost): Cost {
  if (cost.code !== 0) throw new Error(`${name} ended with code ${cost.code}\n${cost.stdout.slice(-2000)}`);
  return cost;
}

const emptied = (folder: string): string => {
  rmSync(folder, { recursive: true, force: true });
  return folder;
};

const htmlBelow = (folder: string): string[] =>
  readdirSync(folder, { recursive: true, withFileTypes: true })
    .filter((one) => one.isFile() && one.name.endsWith('.html'))
    .map(({ parentPath, name }) => join(parentPath, name));

/** Where the builds of one size lie. */
interface Place {
  readonly catalogue: string;
  readonly settings: Readonly<Record<string, string>>;
}

async function place(molds: number): Promise<Place> {
  const folder = join(HOME, String(molds));
  const catalogue = join(emptied(folder), 'catalogue');
  await generateCatalogue(catalogue, molds);
  const settings = {
    CONTENT_DIR: catalogue,
    OUT_DIR: join(folder, 'site'),
    PAGES_CACHE: join(folder, 'kept'),
    ANALYSIS_CACHE: join(HOME, 'analysis'),
  };
  return { catalogue, settings };
}

/** A build of all pages of a catalogue that is worked out already. */
async function allPages({ settings }: Place): Promise<Cost> {
  sound('build', await watched('build', settings));
  for (const folder of [settings['OUT_DIR'], settings['PAGES_CACHE']]) emptied(folder ?? '');
  return sound('build', await watched('build', settings));
}

/** A build after one mold has got another price. */
async function oneChanged({ catalogue, settings }: Place): Promise<Cost> {
  const file = join(catalogue, 'molds', readdirSync(join(catalogue, 'molds'))[0] ?? '');
  const text = readFileSync(file, 'utf8');
  const changed = text.replace(/amount: (\d+)/u, (_, amount: string) => `amount: ${Number(amount) + 1}`);
  if (changed === text) throw new Error(`${file}: wants a price`);
  writeFileSync(file, changed);
  return sound('build', await watched('build', settings));
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
async function bare(pages: number, bytes: number): Promise<Cost> {
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
  const astro = resolve('node_modules', 'astro', 'bin', 'astro.mjs');
  return sound('astro', await watchedProgram([process.execPath, astro, 'build', '--root', folder], {}));
}

function keepOne(what: string, n: number, value: number, unit: string, ratio?: number): void {
  keep({ bench: 'pages', what, n, unit, ...spreadOf([value]), ...(ratio !== undefined && { ratio }) });
}

if (given) {
  const [less = 8, more = 24] = given.values.molds.split(',').map(Number);
  const small = await allPages(await place(less));
  const large = await place(more);
  const whole = await allPages(large);
  const html = htmlBelow(join(large.settings['OUT_DIR'] ?? '', 'molds'));
  const bytes = html.reduce((sum, file) => sum + statSync(file).size, 0) / more;
  const ours = (whole.core - small.core) / (more - less);
  const [few, many] = [await bare(less, bytes), await bare(10 * more, bytes)];
  const theirs = (many.core - few.core) / (10 * more - less);
  const changed = await oneChanged(large);
  keepOne('all pages: core', more, whole.core, 's');
  keepOne('a mold more: core', more, ours, 's', ours / theirs);
  keepOne('a mold more: HTML', more, bytes / 1e3, 'kB');
  keepOne('a bare page more: core', 10 * more, theirs, 's');
  keepOne('one mold changed: core', more, changed.core, 's', changed.core / whole.core);
  keepOne('one mold changed: wall', more, changed.wall, 's');
  verdict({
    [`a mold more within ${LIMITS.pages} bare pages of its size`]: ours <= LIMITS.pages * theirs,
    [`one of ${more} changed within ${100 * LIMITS.changed} %`]: changed.core <= LIMITS.changed * whole.core,
  });
}
