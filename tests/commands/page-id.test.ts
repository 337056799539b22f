import { cp, mkdir, writeFile } from 'node:fs/promises';
import { join, resolve } from 'node:path';
import { execFileSync } from 'node:child_process';
import { expect, test } from 'vitest';
import { identified } from '../../src/commands/page-id.ts';
import { programId } from '../../src/io/program-id.ts';
import { temporaryFolder } from '../support/temporary.ts';

const PROGRAM = 'ab'.repeat(32);
const page = (text: string, id = 'preview'): string =>
  `<meta name="build" content="${id}"><p>${text}</p><span data-build>${id}</span>`;
const idOf = (html: string): string => /content="([^"]*)"/u.exec(html)?.[1] ?? 'none';

test('the same page has the same id, whatever stood in its place', () => {
  const once = identified(page('a'), PROGRAM);
  expect(idOf(once)).toMatch(/^abababab-[0-9a-f]{8}$/u);
  expect(once).toBe(page('a', idOf(once)));
  expect(identified(once, PROGRAM)).toBe(once);
  expect(identified(page('a', ''), PROGRAM)).toBe(once);
});

test('another text and another program give another id', () => {
  const one = idOf(identified(page('a'), PROGRAM)).split('-');
  const other = idOf(identified(page('b'), PROGRAM)).split('-');
  expect(other[0]).toBe(one[0]);
  expect(other[1]).not.toBe(one[1]);
  expect(idOf(identified(page('a'), 'cd'.repeat(32))).split('-')[1]).not.toBe(one[1]);
});

test('words of an author cannot pose as a place, and a page without one stays as it is', () => {
  const plain = '<p>&lt;span data-build&gt;preview&lt;/span&gt;</p>';
  expect(identified(plain, PROGRAM)).toBe(plain);
});

/** The id of a program that lies in a folder. */
function programIn(folder: string): string {
  const module = JSON.stringify(join(folder, 'src', 'io', 'program-id.ts'));
  const script = `process.stdout.write(await (await import(${module})).programId())`;
  return execFileSync(process.execPath, ['--input-type=module', '--eval', script], {
    cwd: folder,
    encoding: 'utf8',
  });
}

test('the program is the same wherever it lies, and another when a byte of it changes', async () => {
  const folder = join(await temporaryFolder(), 'moved');
  await mkdir(folder);
  for (const part of ['src', 'public', 'astro.config.mjs', 'package-lock.json', 'package.json'])
    await cp(resolve(part), join(folder, part), { recursive: true });
  await cp(resolve('node_modules/zod'), join(folder, 'node_modules', 'zod'), { recursive: true });
  expect(programIn(folder)).toBe(await programId());
  await writeFile(join(folder, 'public', 'added.txt'), '');
  expect(programIn(folder)).not.toBe(await programId());
});
