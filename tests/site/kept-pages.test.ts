import { cp, mkdir, readFile, rm, stat, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import sharp from 'sharp';
import { expect, test } from 'vitest';
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

/** One kind of change after the other: what it touches, and which sheets have to be made anew for it. */
const STEPS: readonly {
  readonly name: string;
  readonly change: (at: (name: string) => string) => Promise<void>;
  readonly kept: number;
}[] = [
  {
    name: 'a field of a mold, and a guide',
    kept: 1,
    change: async (at) => {
      await edit(at('molds/peg-2.yaml'), "released: '2026-02-01'", "released: '2026-03-04'");
      await edit(at('guides/care.mdx'), 'title: ', 'title: Good ');
    },
  },
  {
    name: 'a bait, and a mold that is taken away',
    kept: 0,
    change: async (at) => {
      await edit(at('baits/pin.yaml'), 'name: Pin', 'name: Sewing pin');
      await rm(at('molds/peg-2.yaml'));
      await rm(at('molds/peg-draft.yaml'));
      await rm(at('trials/peg-a-2026-01-20.yaml'));
      await rm(at('baits/peg.yaml'));
    },
  },
  {
    name: 'a water test',
    kept: 0,
    change: (at) => edit(at('trials/pin-a-2026-01-20.yaml'), 'Sinks level', 'Sinks nose down'),
  },
  {
    name: 'a logo, which only its own file shows',
    kept: 0,
    change: async (at) => {
      await writeFile(at('logo.svg'), LOGO);
      await edit(at('shop.yaml'), 'units: us', 'units: us\nlook: { logo: logo.svg }');
    },
  },
  {
    name: 'another logo under the same name',
    kept: 1,
    change: async (at) => writeFile(at('logo.svg'), LOGO.replace('height="300"', 'height="200"')),
  },
  {
    name: 'a photo',
    kept: 0,
    change: async (at) => {
      await writeFile(at('bench.jpg'), await photo('#446'));
      const listing = 'listing: { photos: [{ file: bench.jpg, alt: The mold on a bench }] }\nblock:';
      await edit(at('molds/pin-2.yaml'), 'block:', listing);
    },
  },
  {
    name: 'another photo under the same name',
    kept: 0,
    change: async (at) => writeFile(at('bench.jpg'), await photo('#644')),
  },
  {
    name: 'a hook',
    kept: 0,
    change: (at) => edit(at('hooks/offset.yaml'), 'name: ', 'name: New '),
  },
  {
    name: 'a compound',
    kept: 0,
    change: (at) => edit(at('plastisols/plain.yaml'), 'name: ', 'name: New '),
  },
  {
    name: 'the name of the shop',
    kept: 0,
    change: (at) => edit(at('shop.yaml'), 'Example Bench', 'Other Bench'),
  },
];

const told = (kept: number): string => (kept > 0 ? `, ${kept} of them kept as built before\n` : '\n');

test('what is carried over from the last build is what a build from nothing makes, whatever changes', async () => {
  const catalogue = await twoBaits();
  const home = await temporaryFolder();
  const at = (name: string): string => join(catalogue, name);
  const first = await overTheLast(catalogue, home);
  expect(first.said).toContain('building 2 molds\n');
  expect(first.sums).toBe(await fromNothing(catalogue, home));
  let last = first.sums;
  for (const [step, { name, change, kept }] of STEPS.entries()) {
    await change(at);
    const { said, sums } = await overTheLast(catalogue, home);
    expect([name, sums === last]).toEqual([name, false]);
    expect([name, /building \d molds?(.*\n)/u.exec(said)?.[1]]).toEqual([name, told(kept)]);
    // Where nothing was kept there is nothing to compare but at the end.
    if (kept > 0 || step === STEPS.length - 1)
      expect([name, sums === (await fromNothing(catalogue, home))]).toEqual([name, true]);
    last = sums;
  }
}, 900_000);

test('nothing changed, nothing done; a site that someone wrote to is put right, also where pages are kept', async () => {
  const home = await temporaryFolder();
  const output = join(home, 'site');
  const build = () =>
    runCommand('build', { CONTENT_DIR: TINY, OUT_DIR: output, PAGES_CACHE: join(home, 'pages') });
  const page = join(output, 'molds/peg-2/index.html');
  expect((await build()).stdout).toContain('building 1 mold\n');
  const good = await readFile(page, 'utf8');
  const { mtimeMs } = await stat(page);
  expect((await build()).stdout).toContain('is built of this already');
  expect((await stat(page)).mtimeMs).toBe(mtimeMs);
  // The page and the kept one are one file under two names.
  await writeFile(page, 'spoilt');
  expect((await build()).stdout).toContain('building 1 mold\n');
  expect(await readFile(page, 'utf8')).toBe(good);
  await rm(page);
  expect((await build()).stdout).toContain('1 of them kept as built before');
  expect(await readFile(page, 'utf8')).toBe(good);
});
