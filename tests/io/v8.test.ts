import { execFile } from 'node:child_process';
import { resolve } from 'node:path';
import { pathToFileURL } from 'node:url';
import { promisify } from 'node:util';
import { expect, test } from 'vitest';

const run = promisify(execFile);
const HOT =
  'const f = (n) => { let s = 0; for (let i = 0; i < n; i++) s += Math.sqrt(i); return s; }; for (let i = 0; i < 2000; i++) f(1000);';

/** Compilers that a hot loop was given to, after the import of a module. */
async function compilers(module?: string): Promise<string[]> {
  const code = module ? `await import(${JSON.stringify(pathToFileURL(resolve(module)).href)}); ${HOT}` : HOT;
  const { stdout } = await run(process.execPath, ['--trace-opt', '--input-type=module', '-e', code], {
    maxBuffer: 1e8,
  });
  const lines = stdout.split('\n').filter((line) => line.includes('completed compiling'));
  return [...new Set(lines.flatMap((line) => /target (?<name>[A-Z_]+)/u.exec(line)?.groups?.['name'] ?? []))];
}

test('whatever reads the settings runs without the middle compiler, and with the last one', async () => {
  expect(await compilers()).toContain('MAGLEV');
  const left = await compilers('src/io/settings.ts');
  expect(left).not.toContain('MAGLEV');
  expect(left.some((name) => name.startsWith('TURBOFAN'))).toBe(true);
});
