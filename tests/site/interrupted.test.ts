import { existsSync } from 'node:fs';
import { cp, mkdir, readdir, readFile } from 'node:fs/promises';
import { dirname, join, resolve } from 'node:path';
import { pathToFileURL } from 'node:url';
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
  // The same bytes from another folder, in another time zone and language, by a disk that lists files the other way.
  const moved = join(await temporaryFolder(), 'elsewhere');
  await cp(TINY, moved, { recursive: true });
  const again = await runCommand('build', {
    CONTENT_DIR: moved,
    OUT_DIR: output,
    TZ: 'Pacific/Kiritimati',
    LANG: 'tr_TR.UTF-8',
    LC_ALL: 'tr_TR.UTF-8',
    BASE_URL: '/from-outside/',
    NODE_OPTIONS: `--import=${pathToFileURL(resolve('tests/support/shuffled-folders.ts')).href}`,
  });
  expect([again.code, again.stderr]).toEqual([0, expect.not.stringContaining('not built')]);
  expect(await readdir(dirname(output))).toEqual(['site']);
  expect(existsSync(resolve('.cache', `site-${build.child.pid}`))).toBe(false);
  const sums = (folder: string) => readFile(join(folder, 'SHA256SUMS'), 'utf8');
  expect(await sums(output)).toBe(await sums(inject('tinySite')));
  expect(await folderDigest(output)).toBe(digest);
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
