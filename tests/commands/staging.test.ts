import { existsSync } from 'node:fs';
import { mkdir, readdir, readFile, writeFile } from 'node:fs/promises';
import { homedir } from 'node:os';
import { dirname, join, resolve } from 'node:path';
import { describe, expect, test } from 'vitest';
import {
  bringBeside,
  clearLeftovers,
  discard,
  outputFault,
  stageFor,
  swapIn,
} from '../../src/commands/staging.ts';
import { CACHE_FOLDER } from '../../src/io/settings.ts';
import { temporaryFolder } from '../support/temporary.ts';

async function site(folder: string, text: string): Promise<void> {
  await mkdir(folder, { recursive: true });
  await writeFile(join(folder, 'index.html'), text);
}

const home = async (folder: string): Promise<string> => readFile(join(folder, 'index.html'), 'utf8');

/** Larger than any process id that Linux gives by default. */
const NOBODY = 4_194_304 + 7;

describe('swapping', () => {
  test('the new site takes the place of the old one and nothing else stays', async () => {
    const output = join(await temporaryFolder(), 'dist');
    const stage = stageFor(output);
    await site(output, 'old');
    await site(stage.work, 'new');
    await bringBeside(stage);
    expect(await home(output)).toBe('old');
    await swapIn(output, stage);
    await discard(stage);
    expect(await home(output)).toBe('new');
    expect(await readdir(dirname(output))).toEqual(['dist']);
  });

  test('the first site needs no old one, nor its parent folder', async () => {
    const output = join(await temporaryFolder(), 'deep', 'er', 'dist');
    const stage = stageFor(output);
    await site(stage.work, 'new');
    await bringBeside(stage);
    await swapIn(output, stage);
    expect(await home(output)).toBe('new');
  });

  test('a swap without a new site leaves the old one', async () => {
    const output = join(await temporaryFolder(), 'dist');
    await site(output, 'old');
    await expect(swapIn(output, stageFor(output))).rejects.toThrow('ENOENT');
    expect(await home(output)).toBe('old');
  });
});

describe('what a killed build leaves', () => {
  test('half a swap is undone', async () => {
    const folder = await temporaryFolder();
    await site(join(folder, `.dist.old-${NOBODY}`), 'old');
    await site(join(folder, `.dist.next-${NOBODY}`), 'half');
    await clearLeftovers(join(folder, 'dist'));
    expect(await readdir(folder)).toEqual(['dist']);
    expect(await home(join(folder, 'dist'))).toBe('old');
  });

  test.each(['', '.own', '.own.json', '.bundle'])('its folder "site-PID%s" goes', async (role) => {
    const left = join(CACHE_FOLDER, `site-${NOBODY}${role}`);
    await mkdir(left, { recursive: true });
    await clearLeftovers(join(await temporaryFolder(), 'dist'));
    expect(existsSync(left)).toBe(false);
  });

  test('rubbish beside a whole site goes, folders of others stay', async () => {
    const folder = await temporaryFolder();
    await site(join(folder, 'dist'), 'new');
    await site(join(folder, `.dist.old-${NOBODY}`), 'old');
    await site(join(folder, `.other.old-${NOBODY}`), 'other');
    await site(join(folder, `.dist.next-${process.ppid}`), 'running');
    await clearLeftovers(join(folder, 'dist'));
    expect((await readdir(folder)).sort()).toEqual([
      `.dist.next-${process.ppid}`,
      `.other.old-${NOBODY}`,
      'dist',
    ]);
    expect(await home(join(folder, 'dist'))).toBe('new');
  });
});

describe('folders that must not be replaced', () => {
  const content = resolve('content');
  test.each([
    ['the project', resolve('.'), /^OUT_DIR: .* holds .* — choose a folder of its own/u],
    ['a folder around it', dirname(resolve('.')), /holds .* — choose a folder of its own/u],
    ['the home folder', homedir(), /^OUT_DIR: /u],
    ['the catalogue', content, /^OUT_DIR: content holds content — choose a folder of its own/u],
    ['a folder in the catalogue', join(content, 'x'), /lies in the catalogue — choose a folder outside it/u],
    ['a folder with other things', resolve('src'), /^OUT_DIR: src holds files but no site — empty it/u],
  ])('%s', async (_, output, expected) => {
    expect(await outputFault(output, content)).toMatch(expected);
  });

  test('a new folder, an empty one and a site are fine', async () => {
    const folder = await temporaryFolder();
    expect(await outputFault(join(folder, 'new'), content)).toBeUndefined();
    expect(await outputFault(folder, content)).toBeUndefined();
    await site(folder, 'old');
    expect(await outputFault(folder, content)).toBeUndefined();
  });
});
