import { cp, mkdir, readdir, readFile, rm, stat, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import sharp from 'sharp';
import { expect, test, vi } from 'vitest';
import { inspected } from '../../src/commands/inspect.ts';
import { planOf, unitPath } from '../../src/commands/pages/units.ts';
import { runCommand } from '../support/run-command.ts';
import { temporaryFolder, TINY } from '../support/temporary.ts';

/** Replaces a text that must be there. */
async function edit(path: string, from: string, to: string): Promise<void> {
  const before = await readFile(path, 'utf8');
  if (!before.includes(from)) throw new Error(`nothing to replace in ${path}: ${from}`);
  await writeFile(path, before.replaceAll(from, to));
}

/** The tiny catalogue with a second bait, which has a mold of its own. */
async function twoBaits(): Promise<string> {
  const folder = join(await temporaryFolder(), 'catalogue');
  await cp(TINY, folder, { recursive: true });
  const at = (name: string): string => join(folder, name);
  await cp(at('baits/peg.yaml'), at('baits/pin.yaml'));
  await cp(at('molds/peg-2.yaml'), at('molds/pin-2.yaml'));
  await edit(at('baits/pin.yaml'), 'name: Peg', 'name: Pin');
  await edit(at('molds/pin-2.yaml'), 'bait: peg', 'bait: pin');
  await edit(at('molds/pin-2.yaml'), 'Peg, two', 'Pin, two');
  await edit(at('molds/pin-2.yaml'), 'EB-PEG-2', 'EB-PIN-2');
  await cp(at('trials/peg-a-2026-01-20.yaml'), at('trials/pin-a-2026-01-20.yaml'));
  await edit(at('trials/pin-a-2026-01-20.yaml'), 'bait: peg', 'bait: pin');
  await mkdir(at('guides'), { recursive: true });
  const care = await readFile('content/guides/care.mdx', 'utf8');
  await writeFile(at('guides/care.mdx'), care);
  return folder;
}

/** Builds a catalogue into a folder, with the pages that another folder keeps. */
async function build(catalogue: string, home: string, name: string, pages: string) {
  const output = join(home, name);
  const settings = { CONTENT_DIR: catalogue, OUT_DIR: output, PAGES_CACHE: join(home, pages) };
  const ended = await runCommand('build', settings);
  expect([ended.code, ended.stderr]).toEqual([0, expect.not.stringContaining('not built')]);
  return { said: ended.stdout, sums: await readFile(join(output, 'SHA256SUMS'), 'utf8') };
}

/** Over what earlier builds have left. */
const overTheLast = (catalogue: string, home: string) => build(catalogue, home, 'kept', 'pages');

/** From nothing. */
async function fromNothing(catalogue: string, home: string): Promise<string> {
  await rm(join(home, 'no-pages'), { recursive: true, force: true });
  return (await build(catalogue, home, 'clean', 'no-pages')).sums;
}

const photo = (background: string): Promise<Buffer> =>
  sharp({ create: { width: 500, height: 400, channels: 3, background } })
    .jpeg()
    .toBuffer();

const LOGO =
  '<svg xmlns="http://www.w3.org/2000/svg" width="600" height="400"><rect width="600" height="300"/></svg>';

type Change = (at: (name: string) => string) => Promise<void>;

const CHANGES = {
  'a field of a mold, and a guide': async (at) => {
    await edit(at('molds/peg-2.yaml'), "released: '2026-02-01'", "released: '2026-03-04'");
    await edit(at('guides/care.mdx'), 'title: ', 'title: Good ');
  },
  'a bait, and a mold that is taken away': async (at) => {
    await edit(at('baits/pin.yaml'), 'name: Pin', 'name: Sewing pin');
    await rm(at('molds/peg-2.yaml'));
    await rm(at('molds/peg-draft.yaml'));
    await rm(at('trials/peg-a-2026-01-20.yaml'));
    await rm(at('baits/peg.yaml'));
  },
  'a water test': (at) => edit(at('trials/pin-a-2026-01-20.yaml'), 'Sinks level', 'Sinks nose down'),
  'a logo, which only its own file shows': async (at) => {
    await writeFile(at('logo.svg'), LOGO);
    await edit(at('shop.yaml'), 'units: us', 'units: us\nlook: { logo: logo.svg }');
  },
  'another logo under the same name': async (at) =>
    writeFile(at('logo.svg'), LOGO.replace('height="300"', 'height="200"')),
  'an accent, which the style sheet in every page shows': (at) =>
    edit(at('shop.yaml'), 'look: { ', "look: { accent: '#8a3b12', "),
  'a photo': async (at) => {
    await writeFile(at('bench.jpg'), await photo('#446'));
    const listing = 'listing: { photos: [{ file: bench.jpg, alt: The mold on a bench }] }\nblock:';
    await edit(at('molds/pin-2.yaml'), 'block:', listing);
  },
  'another photo under the same name': async (at) => writeFile(at('bench.jpg'), await photo('#644')),
  'a hook': (at) => edit(at('hooks/offset.yaml'), 'name: ', 'name: New '),
  'a compound': (at) => edit(at('plastisols/plain.yaml'), 'name: ', 'name: New '),
  'the name of the shop': (at) => edit(at('shop.yaml'), 'Example Bench', 'Other Bench'),
} as const satisfies Readonly<Record<string, Change>>;
type ChangeName = keyof typeof CHANGES;

test('what is carried over from the last build is what a build from nothing makes', async () => {
  const catalogue = await twoBaits();
  const home = await temporaryFolder();
  const at = (name: string): string => join(catalogue, name);
  await CHANGES['a logo, which only its own file shows'](at);
  const first = await overTheLast(catalogue, home);
  expect(first.said).toContain('building 2 molds\n');
  // One of two sheets stays; the logo is in no sheet, only in a file of its own.
  await CHANGES['a field of a mold, and a guide'](at);
  await CHANGES['another logo under the same name'](at);
  const second = await overTheLast(catalogue, home);
  expect(second.said).toContain('building 2 molds, 1 of them kept as built before\n');
  expect(second.sums).not.toBe(first.sums);
  expect(second.sums).toBe(await fromNothing(catalogue, home));
}, 900_000);

/** What decides the whole site of a catalogue, and each mold and bait of it. */
async function keysOf(catalogue: string): Promise<Map<string, string>> {
  vi.stubEnv('CONTENT_DIR', catalogue);
  try {
    const { reading, keys, problems } = await inspected(catalogue);
    if (!reading) throw new Error(JSON.stringify(problems));
    const plan = await planOf(reading.catalogue, keys);
    const units = plan.units.map((unit) => [unitPath(unit), unit.key] as const);
    return new Map([['site', plan.key], ...units]);
  } finally {
    vi.unstubAllEnvs();
  }
}

const OF_PIN = ['molds/pin-2', 'baits/pin'];

/** What has to be made anew after each change, one after the other. */
const STALE: readonly (readonly [ChangeName, readonly string[]])[] = [
  ['a field of a mold, and a guide', ['molds/peg-2', 'baits/peg']],
  ['a bait, and a mold that is taken away', OF_PIN],
  ['a water test', OF_PIN],
  ['a logo, which only its own file shows', OF_PIN],
  ['another logo under the same name', []],
  ['an accent, which the style sheet in every page shows', OF_PIN],
  ['a photo', OF_PIN],
  ['another photo under the same name', ['molds/pin-2']],
  ['a hook', OF_PIN],
  ['a compound', OF_PIN],
  ['the name of the shop', OF_PIN],
];

test('every change makes what it touches stale, the site as a whole among it, and nothing else', async () => {
  const catalogue = await twoBaits();
  let last = await keysOf(catalogue);
  for (const [name, stale] of STALE) {
    await CHANGES[name]((file) => join(catalogue, file));
    const keys = await keysOf(catalogue);
    const other = [...keys].filter(([unit, key]) => last.get(unit) !== key).map(([unit]) => unit);
    expect([name, other.sort()]).toEqual([name, ['site', ...stale].sort()]);
    last = keys;
  }
}, 300_000);

test('nothing changed, nothing done; a site that someone wrote to is put right, also where pages are kept', async () => {
  const home = await temporaryFolder();
  const output = join(home, 'site');
  const build = () =>
    runCommand('build', { CONTENT_DIR: TINY, OUT_DIR: output, PAGES_CACHE: join(home, 'pages') });
  const page = join(output, 'molds/peg-2/index.html');
  expect((await build()).stdout).toContain('building 1 mold\n');
  const good = await readFile(page, 'utf8');
  const { mtimeMs } = await stat(page);
  // A word in the note tells that the note was believed, and the catalogue not read.
  const [name = ''] = await readdir(join(home, 'pages', 'standing'));
  await edit(join(home, 'pages', 'standing', name), '"told":[', '"told":["seen at a glance",');
  const again = await build();
  expect(again.stdout).toContain('is built of this already');
  expect(again.stderr).toContain('seen at a glance');
  expect((await stat(page)).mtimeMs).toBe(mtimeMs);
  // The page and the kept one are one file under two names.
  await writeFile(page, 'spoilt');
  expect((await build()).stdout).toContain('building 1 mold\n');
  expect(await readFile(page, 'utf8')).toBe(good);
  await rm(page);
  expect((await build()).stdout).toContain('1 of them kept as built before');
  expect(await readFile(page, 'utf8')).toBe(good);
});
