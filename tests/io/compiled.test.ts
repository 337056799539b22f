import { execFile } from 'node:child_process';
import { promisify } from 'node:util';
import { expect, test } from 'vitest';
import { COMPILED_FOLDER } from '../../src/io/compiled.ts';
import { temporaryFolder } from '../support/temporary.ts';

const run = promisify(execFile);

/** What a child of a command says of an expression. */
async function toldByChild(expression: string, environment: NodeJS.ProcessEnv = {}): Promise<string> {
  const child = `process.stdout.write(String(${expression}))`;
  const code = `await import('./src/io/settings.ts');
    const { execFileSync } = await import('node:child_process');
    process.stdout.write(execFileSync(process.execPath, ['-e', ${JSON.stringify(child)}]));`;
  const { NODE_COMPILE_CACHE: _, ...bare } = process.env;
  const { stdout } = await run(process.execPath, ['--input-type=module', '-e', code], {
    env: { ...bare, ...environment },
  });
  return stdout;
}

const FOLDER = "require('node:module').getCompileCacheDir()";

test('children of a command keep what they compile in the project, apart by version and flags', async () => {
  const folder = await toldByChild(FOLDER);
  expect(folder.startsWith(`${COMPILED_FOLDER}/v`)).toBe(true);
});

test('a folder that someone chose is left alone', async () => {
  const own = await temporaryFolder();
  expect((await toldByChild(FOLDER, { NODE_COMPILE_CACHE: own })).startsWith(own)).toBe(true);
});

test('threads of a command do so too', async () => {
  const thread = `import { getCompileCacheDir } from 'node:module';
    import { parentPort } from 'node:worker_threads';
    parentPort.postMessage(getCompileCacheDir());`;
  const code = `await import('./src/io/settings.ts');
    const { Worker } = await import('node:worker_threads');
    const { once } = await import('node:events');
    const thread = new Worker(${JSON.stringify(thread)}, { eval: true });
    process.stdout.write(String((await once(thread, 'message'))[0]));`;
  const { NODE_COMPILE_CACHE: _, ...bare } = process.env;
  const { stdout } = await run(process.execPath, ['--input-type=module', '-e', code], { env: bare });
  expect(stdout.startsWith(`${COMPILED_FOLDER}/v`)).toBe(true);
});
