import { execFileSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { mkdir, readFile, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { finishSite } from '../../src/commands/finish-site.ts';
import { finishPages } from '../../src/commands/page-id.ts';
import { factsOf, filesOf } from '../../src/commands/site-facts.ts';
import { metaPolicy } from '../../src/components/head/headers.ts';
import { programId } from '../../src/io/program-id.ts';
import { temporaryFolder } from '../support/temporary.ts';

const page = (text: string): string =>
  `<meta name="build" content="preview"><p>${text}</p><p>Page <span data-build>preview</span></p>`;

/** A small rendered site, finished. */
async function finished(changes: Readonly<Record<string, string>> = {}): Promise<string> {
  const folder = join(await temporaryFolder(), 'site');
  await mkdir(join(folder, 'molds'), { recursive: true });
  const sheet = '.a > .b { stroke: "x" }';
  const files = {
    'index.html': page('home'),
    'molds/one.svg': `<svg><style>${sheet.replace('>', '&gt;')}</style></svg>`,
    'molds/two.svg': `<svg><style>${sheet.replace('>', '&gt;')}</style></svg>`,
    ...changes,
  };
  for (const [name, text] of Object.entries(files)) await writeFile(join(folder, name), text);
  const [names, program] = [await filesOf(folder), await programId()];
  await finishPages(folder, names, program);
  await finishSite(folder, '/shop', { facts: await factsOf(folder, names), program });
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
  expect(await id({ 'index.html': page('home.') })).not.toBe(await id());
});

test('a page keeps no white space that nobody sees', async () => {
  const folder = await finished({ 'airy.html': '<ul>\n  <li>one</li>\n</ul>\n<p>a <b>b</b></p>' });
  expect(await read(folder, 'airy.html')).toBe('<ul><li>one</li></ul><p>a <b>b</b></p>');
});

test('a page names the program and itself, wherever it has a place for that', async () => {
  const folder = await finished({ 'other.html': page('other') });
  const { program } = JSON.parse(await read(folder, 'build.json')) as { program: string };
  const named = /^<meta name="build" content="(\S+)"><p>home<\/p><p>Page <span data-build>\1<\/span><\/p>$/u;
  const [, id = ''] = named.exec(await read(folder, 'index.html')) ?? [];
  expect(id.split('-')).toEqual([program.slice(0, 8), expect.stringMatching(/^[0-9a-f]{8}$/u)]);
  expect(await read(folder, 'other.html')).not.toContain(id);
  expect(program).toBe(await programId());
});

test('the policy of a page and the headers let the style sheets in it stand, as they are written', async () => {
  const policy = `<meta http-equiv="content-security-policy" content="${metaPolicy([])}">`;
  const sheets = ['.a > .b { color: red }', '.c { content: "&gt;" }\n'];
  const styles = sheets.map((sheet) => `<style>${sheet}</style>`).join('');
  const folder = await finished({ 'styled.html': `${policy}${styles}`, 'plain.html': `${policy}plain` });
  const hashes = sheets.map((sheet) => `'sha256-${createHash('sha256').update(sheet).digest('base64')}'`);
  expect(await read(folder, 'styled.html')).toContain(`; style-src 'self' ${hashes.join(' ')}; `);
  expect(await read(folder, 'styled.html')).toContain(styles);
  expect(await read(folder, 'plain.html')).toContain("; style-src 'self'; ");
  const headers = await read(folder, '_headers');
  expect(hashes.filter((hash) => !headers.includes(hash))).toEqual([]);
});

test('the headers let the styles inside drawings stand, each hash once, and name the path of the site', async () => {
  const headers = await read(await finished(), '_headers');
  const hash = createHash('sha256').update('.a > .b { stroke: "x" }').digest('base64');
  expect(headers.split(`'sha256-${hash}'`)).toHaveLength(2);
  expect(headers).toContain('\n/shop/_astro/*\n  Cache-Control: public, max-age=31536000, immutable\n');
});
