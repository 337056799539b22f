import { spawn, type ChildProcess } from 'node:child_process';
import { existsSync } from 'node:fs';
import { cp, mkdir, readdir, readFile } from 'node:fs/promises';
import { dirname, join, resolve } from 'node:path';
import { expect, inject, onTestFinished, test } from 'vitest';
import { BUILD_LOCK } from '../../src/commands/build-site.ts';
import { folderDigest } from '../support/folder-digest.ts';
import { runCommand } from '../support/run-command.ts';
import { temporaryFolder, TINY } from '../support/temporary.ts';

interface Started {
  readonly child: ChildProcess;
  /** Resolves with everything printed so far once `text` has been printed. */
  until(text: string): Promise<string>;
  readonly ended: Promise<number | null>;
}

function start(name: string, settings: Readonly<Record<string, string>>): Started {
  const file = resolve('src', 'commands', `${name}.ts`);
  const child = spawn(process.execPath, [file], {
    env: { ...process.env, ...settings },
    stdio: ['ignore', 'pipe', 'pipe'],
  });
  onTestFinished(() => void child.kill('SIGKILL'));
  let printed = '';
  const until = (text: string): Promise<string> =>
    new Promise((done, fail) => {
      const look = (chunk: Buffer): void => {
        printed += chunk.toString();
        if (printed.includes(text)) done(printed);
      };
      child.stdout.on('data', look);
      child.stderr.on('data', look);
      child.once('close', () => fail(new Error(`ended before "${text}":\n${printed}`)));
    });
  return { child, until, ended: new Promise((done) => child.once('close', done)) };
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

test('a build that is killed outright leaves the old site; the next one builds and cleans up', async () => {
  const { output, digest } = await goodSite();
  const build = start('build', { CONTENT_DIR: TINY, OUT_DIR: output });
  await build.until('building 1 mold');
  build.child.kill('SIGKILL');
  await build.ended;
  expect(await folderDigest(output)).toBe(digest);
  const again = await runCommand('build', { CONTENT_DIR: TINY, OUT_DIR: output });
  expect([again.code, again.stderr]).toEqual([0, expect.not.stringContaining('not built')]);
  expect(await readdir(dirname(output))).toEqual(['site']);
  expect(existsSync(resolve('.cache', `site-${build.child.pid}`))).toBe(false);
  expect(await folderDigest(output)).toBe(digest);
});

test('start builds, serves and stays until it is stopped', async () => {
  const output = join(await temporaryFolder(), 'site');
  const site = start('start', { CONTENT_DIR: TINY, OUT_DIR: output, PORT: '0' });
  const [, address = ''] = /serving at (\S+)/u.exec(await site.until('stop with Ctrl+C')) ?? [];
  const page = await fetch(`${address}molds/peg-2/`);
  expect([page.status, (await page.text()).includes('Peg, two cavities')]).toEqual([200, true]);
  site.child.kill('SIGINT');
  expect(await site.ended).toBe(0);
  await expect(fetch(address)).rejects.toThrow();
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
