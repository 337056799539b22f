import { execFile } from 'node:child_process';
import { resolve } from 'node:path';
import { pathToFileURL } from 'node:url';
import { promisify } from 'node:util';
import { expect, test } from 'vitest';
import { childArguments, giveBack, WITHOUT_MIDDLE_COMPILER } from '../../src/io/v8.ts';

const run = promisify(execFile);
const HOT =
  'const hot = (n) => { let s = 0; for (let i = 0; i < n; i++) s += Math.sqrt(i); return s; }; for (let i = 0; i < 2000; i++) hot(1000);';

/** Compilers that a hot loop was given to, after the import of a module; Node.js may have compiled some of its own before. */
async function compilers(module?: string): Promise<string[]> {
  const code = module ? `await import(${JSON.stringify(pathToFileURL(resolve(module)).href)}); ${HOT}` : HOT;
  const { stdout } = await run(process.execPath, ['--trace-opt', '--input-type=module', '-e', code], {
    maxBuffer: 1e8,
  });
  const lines = stdout
    .split('\n')
    .filter((line) => line.includes('completed compiling') && line.includes('JSFunction hot'));
  return [...new Set(lines.flatMap((line) => /target (?<name>[A-Z_]+)/u.exec(line)?.groups?.['name'] ?? []))];
}

test('whatever reads the settings runs without the middle compiler, and with the last one', async () => {
  expect(await compilers()).toContain('MAGLEV');
  const left = await compilers('src/io/settings.ts');
  expect(left).not.toContain('MAGLEV');
  expect(left.some((name) => name.startsWith('TURBOFAN'))).toBe(true);
});

test('child processes have room for few molds, are lean for many, and never have the middle compiler', () => {
  const [few, many] = [childArguments(200), childArguments(201)];
  for (const list of [few, many]) expect(list).toContain(WITHOUT_MIDDLE_COMPILER);
  expect(few).toContain('--heap-growing-percent=200');
  expect(many).toContain('--heap-growing-percent=100');
});

test('what is no longer needed goes back to the system at once, what is needed stays', () => {
  let many: object[] | undefined = Array.from({ length: 1e6 }, (_, i) => ({ i }));
  const kept = many[7];
  const before = process.memoryUsage().heapTotal;
  many = undefined;
  giveBack();
  expect(process.memoryUsage().heapTotal).toBeLessThan(before - 30e6);
  expect(kept).toEqual({ i: 7 });
});
