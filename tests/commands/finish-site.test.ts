import { execFileSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { mkdir, readFile, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { finishSite } from '../../src/commands/finish-site.ts';
import { temporaryFolder } from '../support/temporary.ts';

/** A small rendered site, finished. */
async function finished(changes: Readonly<Record<string, string>> = {}): Promise<string> {
  const folder = join(await temporaryFolder(), 'site');
  await mkdir(join(folder, 'molds'), { recursive: true });
  const sheet = '.a > .b { stroke: "x" }';
  const files = {
    'index.html': '<p>home</p>',
    'molds/one.svg': `<svg><style>${sheet.replace('>', '&gt;')}</style></svg>`,
    'molds/two.svg': `<svg><style>${sheet.replace('>', '&gt;')}</style></svg>`,
    ...changes,
  };
  for (const [name, text] of Object.entries(files)) await writeFile(join(folder, name), text);
  await finishSite(folder, '/shop');
  return folder;
}

const read = (folder: string, name: string): Promise<string> => readFile(join(folder, name), 'utf8');

test('sha256sum finds every file as it was', async () => {
  const folder = await finished();
  const said = execFileSync('sha256sum', ['--check', 'SHA256SUMS'], { cwd: folder, encoding: 'utf8' });
  expect(said.trim().split('\n').sort()).toEqual(
    ['_headers', 'build.json', 'index.html', 'molds/one.svg', 'molds/two.svg', 'nginx-headers.conf'].map(
      (name) => `${name}: OK`,
    ),
  );
  await writeFile(join(folder, 'index.html'), 'changed');
  expect(() =>
    execFileSync('sha256sum', ['--check', '--quiet', 'SHA256SUMS'], { cwd: folder, stdio: 'ignore' }),
  ).toThrow();
});

test('the id of a build is that of its files', async () => {
  const id = async (changes?: Readonly<Record<string, string>>): Promise<string> =>
    (JSON.parse(await read(await finished(changes), 'build.json')) as { id: string }).id;
  expect(await id()).toMatch(/^[0-9a-f]{64}$/u);
  expect(await id()).toBe(await id());
  expect(await id({ 'index.html': '<p>home.</p>' })).not.toBe(await id());
});

test('the headers let the styles inside drawings stand, each hash once, and name the path of the site', async () => {
  const headers = await read(await finished(), '_headers');
  const hash = createHash('sha256').update('.a > .b { stroke: "x" }').digest('base64');
  expect(headers.split(`'sha256-${hash}'`)).toHaveLength(2);
  expect(headers).toContain('\n/shop/_astro/*\n  Cache-Control: public, max-age=31536000, immutable\n');
});
