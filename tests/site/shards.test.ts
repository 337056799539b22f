import { cp, readFile, rm } from 'node:fs/promises';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { diskStore } from '../../src/io/cache.ts';
import { filesBelow, folderDigest } from '../support/folder-digest.ts';
import { runCommand } from '../support/run-command.ts';
import { changedCatalogue, temporaryFolder, TINY } from '../support/temporary.ts';

const SHARDS = 3;
const TWINS = ['quill'];

/** The tiny catalogue with more baits beside its own. */
async function catalogue(): Promise<string> {
  const read = async (path: string) => readFile(join(TINY, path), 'utf8');
  const [bait, mold, trial] = await Promise.all(
    ['baits/peg.yaml', 'molds/peg-2.yaml', 'trials/peg-a-2026-01-20.yaml'].map(read),
  );
  const files = TWINS.flatMap((name, i) => [
    [`baits/${name}.yaml`, bait?.replace('width: 9 mm', `width: ${8 - i / 2} mm`)],
    [
      `molds/${name}-2.yaml`,
      mold?.replace('bait: peg', `bait: ${name}`).replace('EB-PEG', `EB-${name.toUpperCase()}`),
    ],
    [`trials/${name}-a.yaml`, trial?.replace('bait: peg', `bait: ${name}`)],
  ]);
  return changedCatalogue(Object.fromEntries(files) as Record<string, string>);
}

interface Report {
  readonly ok: boolean;
  readonly groups: number;
  readonly worked: number;
}

async function analyse(content: string, cache: string, ...more: string[]): Promise<Report> {
  const { stdout, code } = await runCommand('analyse', { CONTENT_DIR: content }, [
    '--json',
    '--cache',
    cache,
    ...more,
  ]);
  expect(code, stdout).toBe(0);
  return JSON.parse(stdout) as Report;
}

/** Everything in a cache that the analysis left there; where a file lies on this disk is nobody else's business. */
async function results(cache: string): Promise<string[]> {
  return (await filesBelow(cache)).filter((name) => !name.startsWith('fingerprint'));
}

/** Results of the analysis proper in a cache, without pictures. */
async function analysisIn(cache: string): Promise<string[]> {
  return (await results(cache)).filter((name) => /^(?:analyse|sheet|bait|geometry)\//u.test(name));
}

test('three parts on three machines, merged by copying, feed a build that works nothing out', async () => {
  const content = await catalogue();
  const merged = await temporaryFolder();
  const parts: Report[] = [];
  for (let index = 1; index <= SHARDS; index++) {
    const own = await temporaryFolder();
    parts.push(await analyse(content, own, '--shard', `${index}/${SHARDS}`));
    await cp(own, merged, { recursive: true });
  }

  // Each piece fell to one part, and nothing is left to do.
  const whole = await analyse(content, merged);
  expect(whole).toMatchObject({ ok: true, worked: 0 });
  expect(parts.reduce((sum, { groups }) => sum + groups, 0)).toBe(whole.groups);
  expect(parts.reduce((sum, { worked }) => sum + worked, 0)).toBe(whole.groups);

  // One machine alone leaves the same files with the same values; parts are named by their bytes.
  const alone = await temporaryFolder();
  expect(await analyse(content, alone)).toMatchObject({ worked: whole.groups });
  const names = await results(alone);
  expect(await results(merged)).toEqual(names);
  const [one, other] = [diskStore(alone), diskStore(merged)];
  for (const [what = '', , address = ''] of names.map((name) => name.split('/'))) {
    if (what === 'parts') continue;
    expect(other.read(what, address)?.value, what).toEqual(one.read(what, address)?.value);
  }

  // The site is that of a build without a cache.
  const [taken, clean] = await Promise.all([temporaryFolder(), temporaryFolder()]);
  const build = (folder: string, cache: string) =>
    runCommand('build', { CONTENT_DIR: content, OUT_DIR: join(folder, 'site'), ANALYSIS_CACHE: cache });
  const before = await analysisIn(merged);
  expect(await build(taken, merged)).toMatchObject({ code: 0 });
  expect(await analysisIn(merged)).toEqual(before);
  expect(await build(clean, await temporaryFolder())).toMatchObject({ code: 0 });
  expect(await folderDigest(join(taken, 'site'))).toBe(await folderDigest(join(clean, 'site')));
}, 600_000);

test('a cache that lost what is stored apart is filled up again', async () => {
  const cache = await temporaryFolder();
  const { groups } = await analyse(TINY, cache);
  const before = await results(cache);
  expect(await analyse(TINY, cache)).toMatchObject({ worked: 0 });
  await rm(join(cache, 'parts'), { recursive: true });
  const { worked } = await analyse(TINY, cache);
  expect(worked).toBeGreaterThan(0);
  expect(worked).toBeLessThanOrEqual(groups);
  expect(await results(cache)).toEqual(before);
}, 60_000);

test.each([
  [['--shard', '4/3'], '--shard: wants a part like 3/16, got 4/3'],
  [['--shard', 'all'], '--shard: wants a part like 3/16, got all'],
  [['--prune', '0'], '--prune: wants whole days from 1 up, got 0'],
  [['--speed'], "Unknown option '--speed'"],
])('analyse %j is refused', async (args, words) => {
  const { code, stderr } = await runCommand('analyse', { CONTENT_DIR: TINY }, args);
  expect(code).toBe(1);
  expect(stderr).toContain(words);
});

test('mistakes of a catalogue are told with their place, and the code is 1', async () => {
  const content = await changedCatalogue({ 'molds/peg-2.yaml': [['length: 140 mm', 'length: 60 mm']] });
  const { code, stderr } = await runCommand('analyse', { CONTENT_DIR: content });
  expect(code).toBe(1);
  expect(stderr).toMatch(/molds\/peg-2\.yaml:\d+:\d+ .* — /u);
});
