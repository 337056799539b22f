import { execFile } from 'node:child_process';
import { existsSync } from 'node:fs';
import { cp, mkdir, readdir, readFile } from 'node:fs/promises';
import { dirname, join, resolve } from 'node:path';
import { pathToFileURL } from 'node:url';
import { promisify } from 'node:util';
import { expect, inject, onTestFinished, test } from 'vitest';
import { BUILD_LOCK } from '../../src/commands/build-site.ts';
import { folderDigest } from '../support/folder-digest.ts';
import { runCommand } from '../support/run-command.ts';
import { started, type Started } from '../support/started.ts';
import { temporaryFolder, TINY } from '../support/temporary.ts';

function start(name: string, settings: Readonly<Record<string, string>>): Started {
  const begun = started(name, settings);
  onTestFinished(() => void begun.child.kill('SIGKILL'));
  return begun;
}

/** Option of Node.js by which every process and thread begins with a file of `tests/support`. */
const preloaded = (name: string): string =>
  `--import=${pathToFileURL(resolve('tests', 'support', `${name}.ts`)).href}`;

/** A copy of the good site, where the next build would put its own. */
async function goodSite(): Promise<{ output: string; digest: string }> {
  const output = join(await temporaryFolder(), 'site');
  await mkdir(output);
  await cp(inject('tinySite'), output, { recursive: true });
  return { output, digest: await folderDigest(output) };
}

test.each(['SIGINT', 'SIGTERM'] as const)(
  '%s in the middle of a build leaves the old site and nothing else',
  async (name) => {
    const { output, digest } = await goodSite();
    const build = start('build', { CONTENT_DIR: TINY, OUT_DIR: output });
    await build.until('building 1 mold');
    build.child.kill(name);
    expect(await build.ended).toBe(130);
    expect(await folderDigest(output)).toBe(digest);
    expect(await readdir(dirname(output))).toEqual(['site']);
    expect(existsSync(resolve('.cache', `site-${build.child.pid}`))).toBe(false);
    expect(await readFile(BUILD_LOCK, 'utf8').catch(() => 'free')).not.toBe(String(build.child.pid));
  },
);

test('a build that is killed outright leaves the old site; the next one cleans up and makes the same bytes', async () => {
  const { output, digest } = await goodSite();
  const build = start('build', { CONTENT_DIR: TINY, OUT_DIR: output });
  await build.until('building 1 mold');
  build.child.kill('SIGKILL');
  await build.ended;
  expect(await folderDigest(output)).toBe(digest);
  // The same bytes from another folder, in another year, time zone and language, by a disk that lists files the other
  // way, with nothing kept from any build before.
  const moved = join(await temporaryFolder(), 'elsewhere');
  await cp(TINY, moved, { recursive: true });
  const again = await runCommand('build', {
    CONTENT_DIR: moved,
    OUT_DIR: output,
    ANALYSIS_CACHE: join(await temporaryFolder(), 'analysis'),
    PAGES_CACHE: join(await temporaryFolder(), 'pages'),
    TZ: 'Pacific/Kiritimati',
    LANG: 'tr_TR.UTF-8',
    LC_ALL: 'tr_TR.UTF-8',
    BASE_URL: '/from-outside/',
    NODE_OPTIONS: ['shuffled-folders', 'shifted-clock'].map(preloaded).join(' '),
  });
  expect([again.code, again.stderr]).toEqual([0, expect.not.stringContaining('not built')]);
  expect(await readdir(dirname(output))).toEqual(['site']);
  expect(existsSync(resolve('.cache', `site-${build.child.pid}`))).toBe(false);
  const sums = (folder: string) => readFile(join(folder, 'SHA256SUMS'), 'utf8');
  expect(await sums(output)).toBe(await sums(inject('tinySite')));
  expect(await folderDigest(output)).toBe(digest);
});

test('the other clock and the other disk reach processes and threads of a build', async () => {
  const script = `
    import { Worker } from 'node:worker_threads';
    import { readdirSync, statSync, writeFileSync } from 'node:fs';
    const folder = process.argv[1];
    const seen = [new Date().getFullYear(), new Date(Date.now()).getFullYear(), new Date(0).getTime()];
    console.log(JSON.stringify(seen));
    writeFileSync(folder + '/b', '');
    writeFileSync(folder + '/a', '');
    console.log(JSON.stringify([readdirSync(folder), Math.abs(Date.now() - statSync(folder + '/a').mtimeMs) < 6e4]));
    new Worker('console.log(new Date().getFullYear())', { eval: true });`;
  const { stdout } = await promisify(execFile)(
    process.execPath,
    ['--input-type=module', '--eval', script, await temporaryFolder()],
    { env: { ...process.env, NODE_OPTIONS: ['shuffled-folders', 'shifted-clock'].map(preloaded).join(' ') } },
  );
  const year = new Date().getFullYear();
  const [first, second, third] = stdout
    .trim()
    .split('\n')
    .map((line) => JSON.parse(line) as unknown);
  expect((first as number[])[0]).toBeGreaterThan(year + 10);
  expect(first).toEqual([third, third, 0]);
  expect(second).toEqual([['b', 'a'], true]);
});

test('start does not serve what it could not build', async () => {
  const folder = await temporaryFolder();
  const ended = await runCommand('start', {
    CONTENT_DIR: join(folder, 'none'),
    OUT_DIR: join(folder, 'site'),
  });
  expect(ended.code).toBe(1);
  expect(ended.stderr).toContain('the catalogue folder is not there');
  expect(ended.stdout).not.toContain('serving');
});
