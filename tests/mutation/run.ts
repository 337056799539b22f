// Plants mistakes into rooms of `src/core` and counts those that the tests find.
// npm install --no-save @stryker-mutator/core@10.1.1 @stryker-mutator/vitest-runner@10.1.1
// npx node tests/mutation/run.ts heat mesh=0.2 section/slice,part=0.5 …
// (a room, or some of its files, and the share of their mutants that is drawn)
import { spawnSync } from 'node:child_process';
import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join, resolve } from 'node:path';

const FOLDER = join('.cache', 'mutation');
const STRYKER = join('node_modules', '@stryker-mutator', 'core', 'bin', 'stryker.js');

interface Mutant {
  readonly mutatorName: string;
  readonly replacement?: string;
  readonly location: { readonly start: { readonly line: number } };
  readonly status:
    'Killed' | 'Timeout' | 'Survived' | 'NoCoverage' | 'CompileError' | 'RuntimeError' | 'Ignored';
}

interface Report {
  readonly files: Readonly<Record<string, { readonly mutants: readonly Mutant[] }>>;
}

const settings = (room: string, files: readonly string[], name: string): object => ({
  testRunner: 'vitest',
  vitest: { configFile: 'tests/mutation/vitest.config.ts', related: false },
  plugins: ['@stryker-mutator/vitest-runner', resolve('tests/mutation/sample.mjs')],
  checkers: ['sample'],
  coverageAnalysis: 'perTest',
  concurrency: 1,
  timeoutMS: 30_000,
  // The whole room once, on a busy machine.
  dryRunTimeoutMinutes: 30,
  ignorePatterns: ['.cache', 'dist'],
  // Words of messages are no computation.
  mutator: { excludedMutations: ['StringLiteral'] },
  mutate: files.map((file) => `src/core/${room}/${file}.ts`),
  reporters: ['json', 'progress-append-only'],
  jsonReporter: { fileName: join(FOLDER, `${name}.json`) },
  tempDirName: '.cache/stryker',
});

/** Half-width and middle of the interval that holds a share with 95 % confidence. Source: Wilson (1927). */
function wilson(found: number, of: number): [number, number] {
  const z2 = 1.959964 ** 2;
  const middle = (found + z2 / 2) / (of + z2);
  const half = (Math.sqrt(z2) / (of + z2)) * Math.sqrt((found * (of - found)) / of + z2 / 4);
  return [middle - half, middle + half];
}

/** One line of the table: what became of the mutants of a room, or of some files of it. */
function row(name: string): string {
  const { files } = JSON.parse(readFileSync(join(FOLDER, `${name}.json`), 'utf8')) as Report;
  const all = Object.values(files).flatMap(({ mutants }) => mutants);
  const count = (...states: Mutant['status'][]): number =>
    all.filter(({ status }) => states.includes(status)).length;
  const [killed, late] = [count('Killed'), count('Timeout')];
  const tried = killed + late + count('Survived', 'NoCoverage');
  const possible = tried + count('CompileError');
  const percent = (share: number): string => (100 * share).toFixed(1);
  const [low, high] = wilson(killed + late, tried);
  const between = tried < possible ? `${percent(low)} … ${percent(high)}` : 'all';
  return `| ${[name, possible, tried, killed, late, percent((killed + late) / tried), between].join(' | ')} |`;
}

/** Mistakes that no test found, one line each. */
function survivors(name: string): string[] {
  const { files } = JSON.parse(readFileSync(join(FOLDER, `${name}.json`), 'utf8')) as Report;
  return Object.entries(files).flatMap(([file, { mutants }]) =>
    mutants
      .filter(({ status }) => status === 'Survived' || status === 'NoCoverage')
      .map(
        ({ location, mutatorName, replacement = '' }) =>
          `${file}:${location.start.line} ${mutatorName} ${replacement.replaceAll(/\s+/gu, ' ').slice(0, 90)}`,
      ),
  );
}

mkdirSync(FOLDER, { recursive: true });
process.stdout.write(
  `| room | mutants | tried | found | by time-out | score % | 95 % |\n${'| --- '.repeat(7)}|\n`,
);
for (const argument of process.argv.slice(2)) {
  const [what = '', share = '1'] = argument.split('=');
  const [room = '', files = '**/*'] = what.split('/');
  const name = what.replace('/', '.');
  const config = join(FOLDER, `${name}.stryker.json`);
  writeFileSync(config, JSON.stringify(settings(room, files.split(','), name)));
  const { status } = spawnSync(process.execPath, [STRYKER, 'run', config], {
    env: { ...process.env, MUTATED_ROOM: room, MUTATED_SHARE: share },
    stdio: ['ignore', 'ignore', 'inherit'],
  });
  if (status !== 0) throw new Error(`${what}: the run ended with code ${status}`);
  writeFileSync(join(FOLDER, `${name}.txt`), `${survivors(name).join('\n')}\n`);
  process.stdout.write(`${row(name)}\n`);
}
