// Time, memory and disk of builds of generated catalogues against their number of molds, from an empty cache: the
// analysis, then the pages, then once more with nothing changed, and with one mold changed. Core time is user and system time of all processes.
// Needs Linux. Run: npx node tests/bench/scale.bench.ts [--molds 10,100,1000] [--part 1/16]
// With --part a catalogue is not built whole: one part of it is worked out, and the pages of that part are built; its rows say so.
import { existsSync, readdirSync, readFileSync, rmSync, statSync } from 'node:fs';
import { writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { z } from 'zod';
import { typed } from '../../src/commands/arguments.ts';
import { generateCatalogue } from '../support/generator/catalogue.ts';
import { keep, spreadOf, verdict } from './harness.ts';
import { screenshotTime } from './screenshot.ts';
import { copySlice, moldsIn } from './slice.ts';
import { diskOf, filesIn, watched, type Cost } from './watched.ts';

const HOME = join('.cache', 'bench');
/**
 * Of a cold build with every study and card [s of one core a mold] on a machine that takes so long or less for the
 * yardstick, a screenshot of a card in Chromium [s], and how busy both cores must be [1], memory [MB]; of a build after one change, over a build
 * of all pages [1]; of one with nothing changed [s] on the same machine.
 */
const LIMITS = { core: 1.5, yardstick: 0.051, busy: 0.85, memory: 1200, changed: 0.1, nothing: 3 };

/** Files that speak of every mold. */
const SHARED = ['index.html', 'search.json', 'catalogue.json'];

const given = typed(
  { options: { molds: { type: 'string', default: '10,100' }, part: { type: 'string' } } },
  'npx node tests/bench/scale.bench.ts [--molds 10,100,1000] [--part 1/16]',
);

/** A catalogue, made when an earlier run has not. */
async function catalogue(molds: number): Promise<string> {
  const folder = join(HOME, `catalogue-${molds}`);
  const whole = join(HOME, `catalogue-${molds}.whole`);
  if (existsSync(whole)) return folder;
  rmSync(folder, { recursive: true, force: true });
  await generateCatalogue(folder, molds);
  await writeFile(whole, '');
  return folder;
}

function keepOne(what: string, n: number, value: number, unit: string): void {
  keep({ bench: 'scale', what, n, unit, ...spreadOf([value]) });
}

const reportSchema = z.object({ molds: z.number(), worked: z.number(), groups: z.number() });

function sound(name: string, cost: Cost): Cost {
  if (cost.code !== 0) throw new Error(`${name} ended with code ${cost.code}\n${cost.stdout.slice(-2000)}`);
  return cost;
}

/** Runs the analysis of a catalogue, or of a part of it. */
async function analysed(folder: string, cache: string, part?: string) {
  const settings = { CONTENT_DIR: folder, ANALYSIS_CACHE: cache };
  const more = part === undefined ? [] : ['--shard', part];
  const cost = sound('analyse', await watched('analyse', settings, ['--json', ...more]));
  return { cost, ...reportSchema.parse(JSON.parse(cost.stdout)) };
}

/** Works out a catalogue into an empty cache. */
async function analysis(folder: string, molds: number): Promise<Cost> {
  const cache = join(HOME, `analysis-${molds}`);
  rmSync(cache, { recursive: true, force: true });
  const { cost, worked, groups } = await analysed(folder, cache);
  if (worked !== groups) throw new Error('the cache was not empty');
  keepOne('analysis: core a mold', molds, cost.core / molds, 's');
  keepOne('analysis: busy', molds, cost.busy, 'of both cores');
  keepOne('analysis: memory', molds, cost.memory, 'MB');
  keepOne('analysis: disk of the cache a mold', molds, diskOf(cache) / molds, 'MB');
  return cost;
}

/** A part that holds next to nothing, and nothing of the first of sixteen or sixty-four. */
const LITTLE = '2/4096';

/**
 * What a catalogue that is too large to be built in an hour takes by its parts, as a farm would build it: to read all of it and take
 * the digests of its meshes, to work one part out, and to build the pages of that part, a catalogue by itself. What parts share,
 * the pages about all molds, is not in it.
 */
async function sampled(molds: number, part: string): Promise<void> {
  const folder = await catalogue(molds);
  const [cache, slice] = [join(HOME, `analysis-${molds}`), join(HOME, `slice-${molds}`)];
  for (const old of [cache, slice]) rmSync(old, { recursive: true, force: true });
  const digests = await analysed(folder, cache, LITTLE);
  const first = await analysed(folder, cache, part);
  if (first.worked !== first.groups) throw new Error('the cache was not empty');
  const again = await analysed(folder, cache, part);
  const own = (first.cost.core - again.cost.core) / first.molds;
  const reading = (digests.cost.core - own * digests.molds) / molds;
  keepOne('by parts: reading and digests: core a mold', molds, reading, 's');
  keepOne('by parts: analysis: core a mold', molds, own + reading, 's');
  keepOne('by parts: analysis: memory', molds, first.cost.memory, 'MB');
  keepOne('by parts: molds of the part', molds, first.molds, 'molds');
  const ids = await moldsIn(cache);
  await copySlice(folder, slice, ids);
  const output = join(HOME, `site-${molds}`);
  rmSync(output, { recursive: true, force: true });
  rmSync(keptPages(molds), { recursive: true, force: true });
  const settings = {
    CONTENT_DIR: slice,
    ANALYSIS_CACHE: cache,
    OUT_DIR: output,
    PAGES_CACHE: keptPages(molds),
  };
  const built = sound('build', await watched('build', settings));
  keepOne('by parts: pages: core a mold', molds, built.core / ids.length, 's');
  keepOne('by parts: core a mold', molds, own + reading + built.core / ids.length, 's');
  keepOne('by parts: memory', molds, Math.max(first.cost.memory, built.memory), 'MB');
  keepOne('by parts: disk of the site', molds, (diskOf(output) / ids.length) * molds, 'MB');
  keepOne('by parts: disk of the cache', molds, (diskOf(cache) / ids.length) * molds, 'MB');
}

/** Kept pages of a size alone: molds of one number are the same in catalogues of any size. */
const keptPages = (molds: number): string => join(HOME, `pages-${molds}`);

async function pages(folder: string, molds: number, words: string): Promise<Cost> {
  const output = join(HOME, `site-${molds}`);
  const settings = {
    CONTENT_DIR: folder,
    ANALYSIS_CACHE: join(HOME, `analysis-${molds}`),
    OUT_DIR: output,
    PAGES_CACHE: keptPages(molds),
  };
  const cost = sound('build', await watched('build', settings));
  keepOne(`${words}: core a mold`, molds, cost.core / molds, 's');
  keepOne(`${words}: wall`, molds, cost.wall, 's');
  keepOne(`${words}: memory`, molds, cost.memory, 'MB');
  return cost;
}

/** Works out and builds once more after one mold has got another price; the catalogue is put back. */
async function oneChanged(folder: string, molds: number): Promise<Cost> {
  const file = join(folder, 'molds', readdirSync(join(folder, 'molds'))[0] ?? '');
  const text = readFileSync(file, 'utf8');
  const changed = text.replace(/amount: (\d+)/u, (_, amount: string) => `amount: ${Number(amount) + 1}`);
  if (changed === text) throw new Error(`${file}: wants a price`);
  try {
    await writeFile(file, changed);
    return await pages(folder, molds, 'one mold changed');
  } finally {
    await writeFile(file, text);
  }
}

/** Runs of the yardstick before a build, and again after it: machines are not as fast all the time. */
const LOOKS = 7;

/** Everything of one size; returns whether the limits hold. */
async function whole(molds: number): Promise<Record<string, boolean>> {
  const folder = await catalogue(molds);
  for (const old of [join(HOME, `site-${molds}`), keptPages(molds)])
    rmSync(old, { recursive: true, force: true });
  const before = await screenshotTime(LOOKS);
  const first = await analysis(folder, molds);
  const built = await pages(folder, molds, 'pages');
  const after = await screenshotTime(LOOKS);
  const yardstick = (before.median + after.median) / 2e3;
  const slower = Math.max(1, yardstick / LIMITS.yardstick);
  keepOne('yardstick', molds, yardstick, 's');
  const core = (first.core + built.core) / molds;
  const busy = (first.core + built.core) / (first.core / first.busy + built.core / built.busy);
  const memory = Math.max(first.memory, built.memory);
  keepOne('cold build: core a mold', molds, core, 's');
  keepOne('cold build: busy', molds, busy, 'of both cores');
  keepOne('cold build: memory', molds, memory, 'MB');
  keepOne('disk of the site', molds, diskOf(join(HOME, `site-${molds}`)), 'MB');
  keepOne('disk of the cache', molds, diskOf(join(HOME, `analysis-${molds}`)), 'MB');
  const site = join(HOME, `site-${molds}`);
  keepOne('files of the site', molds, filesIn(site), 'files');
  for (const name of SHARED) keepOne(`/${name}`, molds, statSync(join(site, name)).size / 1e3, 'kB');
  const nothing = await pages(folder, molds, 'nothing changed');
  const changed = await oneChanged(folder, molds);
  return {
    [`${molds} molds: nothing changed within ${LIMITS.nothing} s of core, Astro not started, on that machine`]:
      nothing.core <= LIMITS.nothing * slower,
    // What every build does once weighs too much in a small one.
    ...(molds >= 100 && {
      [`${molds} molds: cold build within ${LIMITS.core} s of core a mold where a screenshot takes ${LIMITS.yardstick} s or less`]:
        core <= LIMITS.core * slower,
      [`${molds} molds: cores ${100 * LIMITS.busy} % busy`]: busy >= LIMITS.busy,
    }),
    [`${molds} molds: peak memory within ${LIMITS.memory} MB`]: memory <= LIMITS.memory,
    ...(molds >= 1000 && {
      [`one of ${molds} changed within ${100 * LIMITS.changed} %`]:
        changed.core <= LIMITS.changed * built.core,
    }),
  };
}

if (given) {
  const { molds, part } = given.values;
  for (const count of molds.split(',').map(Number)) {
    if (part === undefined) verdict(await whole(count));
    else await sampled(count, part);
  }
}
