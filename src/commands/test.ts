import { spawn } from 'node:child_process';
import { mkdir, readFile, rm } from 'node:fs/promises';
import { join } from 'node:path';
import { z } from 'zod';
import { CACHE_FOLDER, PROJECT_ROOT } from '../io/settings.ts';
import { BUILD_LOCK, onWait, PATIENCE } from './build-site.ts';
import { withLock } from './lock.ts';
import { say, stopwatch } from './progress.ts';

interface Tally {
  readonly passed: number;
  readonly failed: number;
}

const REPORT = join(CACHE_FOLDER, 'vitest.json');
const bin = (name: string): string => join(PROJECT_ROOT, 'node_modules', '.bin', name);

/** Runs a program of the project without standard input and gives its exit code. */
function run(name: string, args: readonly string[]): Promise<number> {
  const child = spawn(bin(name), args, {
    cwd: PROJECT_ROOT,
    env: { ...process.env, ASTRO_TELEMETRY_DISABLED: '1' },
    stdio: ['ignore', 'inherit', 'inherit'],
  });
  return new Promise((resolve) => {
    child.once('error', () => resolve(1));
    child.once('close', (code) => resolve(code ?? 1));
  });
}

async function gate(name: string, args: readonly string[]): Promise<Tally> {
  return (await run(name, args)) === 0 ? { passed: 1, failed: 0 } : { passed: 0, failed: 1 };
}

/** Types of TypeScript and Astro files; Astro writes its notes on the way, so no build may run beside it. */
async function types(): Promise<Tally> {
  const work = () =>
    gate('astro', ['check', '--minimumFailingSeverity', 'warning', '--minimumSeverity', 'warning']);
  return withLock(BUILD_LOCK, { patience: PATIENCE, onWait }, work);
}

const reportSchema = z.object({
  numPassedTests: z.number(),
  numFailedTests: z.number(),
  testResults: z.array(z.object({ status: z.string(), assertionResults: z.array(z.unknown()) })),
});

/** Every Vitest test; a file that could not be read counts as one failure, and so does a run without a report. */
async function tests(): Promise<Tally> {
  await mkdir(CACHE_FOLDER, { recursive: true });
  await rm(REPORT, { force: true });
  const code = await run('vitest', [
    'run',
    '--config=.vitest.config.ts',
    '--reporter=default',
    '--reporter=json',
    `--outputFile.json=${REPORT}`,
  ]);
  const text = await readFile(REPORT, 'utf8').catch(() => 'null');
  const { data } = reportSchema.safeParse(JSON.parse(text));
  if (!data) return { passed: 0, failed: 1 };
  const broken = data.testResults.filter(
    ({ status, assertionResults }) => status === 'failed' && assertionResults.length === 0,
  );
  const failed = data.numFailedTests + broken.length;
  return { passed: data.numPassedTests, failed: code !== 0 && failed === 0 ? 1 : failed };
}

type Step = readonly [name: string, run: () => Promise<Tally>];

/** Steps of a row follow one another, rows run side by side; the tests, which take all cores, come after them. */
const ROWS: readonly (readonly Step[])[] = [
  [
    ['types', types],
    ['format', () => gate('prettier', ['--check', '--log-level', 'warn', '.'])],
  ],
  [
    ['lint', () => gate('eslint', ['--config', '.eslint.config.js', '.', '--max-warnings', '0'])],
    ['unused', () => gate('knip', ['--no-progress'])],
  ],
];

const total = { passed: 0, failed: 0 };

async function inOrder(steps: readonly Step[]): Promise<void> {
  for (const [name, step] of steps) {
    const elapsed = stopwatch();
    say(`\n${name} …`);
    const { passed, failed } = await step();
    total.passed += passed;
    total.failed += failed;
    say(`${name}: ${failed === 0 ? 'passed' : 'failed'} in ${elapsed()}`);
  }
}

await Promise.all(ROWS.map(inOrder));
await inOrder([['tests', tests]]);
say(`\n${total.passed} passed, ${total.failed} failed`);
process.exitCode = total.failed === 0 ? 0 : 1;
