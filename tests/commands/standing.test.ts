import { mkdir, rename, rm, symlink, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { expect, test, vi } from 'vitest';
import { glanceAt, noteStanding, stands, standsUntouched } from '../../src/commands/pages/standing.ts';
import { temporaryFolder } from '../support/temporary.ts';

/** Long enough after any change for the times of files to tell the next one [ms]. */
const later = (): number => Date.now() + 10_000;

async function catalogue(): Promise<string> {
  const folder = join(await temporaryFolder(), 'catalogue');
  await mkdir(join(folder, 'molds'), { recursive: true });
  await writeFile(join(folder, 'shop.yaml'), 'name: One\n');
  await writeFile(join(folder, 'molds', 'peg.yaml'), 'name: Peg\n');
  return folder;
}

test('a look at a catalogue tells every change of its files, however small', async () => {
  const folder = await catalogue();
  const looks = [await glanceAt(folder, later())];
  expect(await glanceAt(folder, later())).toBe(looks[0]);
  const changes = [
    () => writeFile(join(folder, 'shop.yaml'), 'name: Two\n'),
    () => writeFile(join(folder, 'molds', 'pin.yaml'), ''),
    () => rename(join(folder, 'molds', 'pin.yaml'), join(folder, 'molds', 'pen.yaml')),
  ];
  for (const change of changes) {
    await change();
    looks.push(await glanceAt(folder, later()));
  }
  expect(looks).not.toContain(undefined);
  expect(new Set(looks).size).toBe(looks.length);
  expect(await glanceAt(await catalogue(), later())).not.toBe(looks[0]);
});

test('files that have just been written, and links, leave no look to trust', async () => {
  const folder = await catalogue();
  expect(await glanceAt(folder)).toBeUndefined();
  expect(await glanceAt(folder, later())).toBeDefined();
  await symlink(join(folder, 'shop.yaml'), join(folder, 'molds', 'link.yaml'));
  expect(await glanceAt(folder, later())).toBeUndefined();
  await rm(join(folder, 'shop.yaml'));
  expect(await glanceAt(folder, later())).toBeUndefined();
});

test('what stands is known by the look of its catalogue, and what was said is said again', async () => {
  const home = await temporaryFolder();
  const output = join(home, 'site');
  await mkdir(output);
  await writeFile(join(output, 'index.html'), 'one');
  vi.stubEnv('PAGES_CACHE', join(home, 'pages'));
  try {
    expect(await standsUntouched(output, 'a look')).toBeUndefined();
    await noteStanding(output, { key: 'a plan' }, { glance: 'a look', told: ['warning: thin'] });
    expect(await standsUntouched(output, 'a look')).toEqual(['warning: thin']);
    expect(await standsUntouched(output, 'another')).toBeUndefined();
    expect([await stands(output, { key: 'a plan' }), await stands(output, { key: 'b' })]).toEqual([
      true,
      false,
    ]);
    // Without a look the plan alone tells.
    await noteStanding(output, { key: 'a plan' }, { glance: undefined, told: [] });
    expect(await standsUntouched(output, 'a look')).toBeUndefined();
    expect(await stands(output, { key: 'a plan' })).toBe(true);
    await writeFile(join(output, 'index.html'), 'two');
    await noteStanding(output, { key: 'a plan' }, { glance: 'a look', told: [] });
    await writeFile(join(output, 'more.html'), '');
    expect(await standsUntouched(output, 'a look')).toBeUndefined();
    expect(await stands(output, { key: 'a plan' })).toBe(false);
  } finally {
    vi.unstubAllEnvs();
  }
});
