import { execFileSync } from 'node:child_process';
import { existsSync, mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { availableParallelism, cpus } from 'node:os';
import { join } from 'node:path';

/** Folder of the kept results: one CSV a model of processor. */
export const RESULTS = 'tests/bench/results';

/** Median, least and greatest of some runs. */
export interface Spread {
  readonly median: number;
  readonly low: number;
  readonly high: number;
  readonly runs: number;
}

/** One kept result. */
export interface Row extends Spread {
  readonly bench: string;
  readonly what: string;
  /** How large the task was: triangles, cells, molds. */
  readonly n: number;
  readonly unit: string;
  /** Over the yardstick of the same run; none where there is no yardstick. */
  readonly ratio?: number;
}

const COLUMNS = [
  'bench',
  'what',
  'n',
  'median',
  'low',
  'high',
  'unit',
  'runs',
  'ratio',
  'cores',
  'node',
  'commit',
] as const;
type Column = (typeof COLUMNS)[number];

/** A row of a file of results, as text. */
export type Line = Readonly<Record<Column, string>>;

/** The model of this machine's processor. */
export const processor = cpus()[0]?.model.trim() ?? 'unknown';

/** A name of this machine's processor that files can carry. */
export const machine = processor
  .replace(/\((?:R|TM)\)/giu, '')
  .replace(/[^A-Za-z0-9]+/gu, '-')
  .replace(/^-|-$/gu, '')
  .toLowerCase();

/** File of this machine's results. */
export const resultsFile = join(RESULTS, `${machine}.csv`);

/** Median and ends of a list. */
export function spreadOf(values: readonly number[]): Spread {
  const sorted = values.toSorted((a, b) => a - b);
  const [median, low, high] = [sorted[sorted.length >> 1], sorted[0], sorted.at(-1)];
  if (median === undefined || low === undefined || high === undefined)
    throw new RangeError('spreadOf: wants at least one value, got none');
  return { median, low, high, runs: values.length };
}

const CLOCKS = {
  wall: () => performance.now(),
  cpu: () => {
    const { user, system } = process.cpuUsage();
    return (user + system) / 1e3;
  },
};

/** How tasks are timed. */
export interface Timing {
  readonly runs: number;
  /** `cpu` counts the work of this process on all cores, so that a busy machine does not count. */
  readonly clock: keyof typeof CLOCKS;
  /** Runs before those that count. */
  readonly warm?: number;
}

/** Times of tasks that take turns, so that a slow spell of the machine falls on all alike [ms]. */
export async function timed(
  tasks: Readonly<Record<string, () => unknown>>,
  { runs, clock, warm = 2 }: Timing,
): Promise<Readonly<Record<string, Spread>>> {
  const now = CLOCKS[clock];
  const times = new Map<string, number[]>();
  for (let run = -warm; run < runs; run++) {
    for (const [name, task] of Object.entries(tasks)) {
      const start = now();
      await task();
      if (run >= 0) times.set(name, [...(times.get(name) ?? []), now() - start]);
    }
  }
  return Object.fromEntries([...times].map(([name, list]) => [name, spreadOf(list)]));
}

/** A number to four digits, as people and spreadsheets read it. */
export const digits = (value: number): string => String(Number(value.toPrecision(4)));

/** "12.3 ms (11.9 to 13)". */
export function told({ median, low, high, runs }: Spread, unit: string): string {
  return runs === 1
    ? `${digits(median)} ${unit}`
    : `${digits(median)} ${unit} (${digits(low)} to ${digits(high)})`;
}

/** What git knows this program as; a plus when files differ from it. */
function commit(): string {
  const git = (...args: string[]) => execFileSync('git', args, { encoding: 'utf8' }).trim();
  try {
    const changed = git('status', '--porcelain', '--', 'src', 'package-lock.json') !== '';
    return `${git('rev-parse', '--short=10', 'HEAD')}${changed ? '+' : ''}`;
  } catch {
    return 'unknown';
  }
}

/** Reads a file of results. */
export function linesOf(csv: string): Line[] {
  const [head = '', ...lines] = csv.split('\n').filter((line) => line !== '');
  const names = head.split(',');
  return lines.map((line) => {
    const values = line.split(',');
    return Object.fromEntries(names.map((name, i) => [name, values[i] ?? ''])) as Line;
  });
}

/** What makes two lines results of the same thing. */
export const keyOf = ({ bench, what, n }: Line): string => `${bench} | ${what} | ${n}`;

/** The lines kept of this machine. */
export function keptLines(): Line[] {
  return existsSync(resultsFile) ? linesOf(readFileSync(resultsFile, 'utf8')) : [];
}

/** Keeps a result in place of the last one of the same thing, and says it. */
export function keep(row: Row): void {
  const { bench, what, n, unit, runs, ratio } = row;
  process.stdout.write(
    `  ${bench}, ${what}, n = ${n}: ${told(row, unit)}${ratio === undefined ? '' : `, ${digits(ratio)} of the yardstick`}\n`,
  );
  const line: Line = {
    bench,
    what,
    n: String(n),
    unit,
    median: digits(row.median),
    low: digits(row.low),
    high: digits(row.high),
    runs: String(runs),
    ratio: ratio === undefined ? '' : digits(ratio),
    cores: String(availableParallelism()),
    node: process.version,
    commit: commit(),
  };
  const faulty = Object.values(line).find((value) => /[,"\n]/u.test(value));
  if (faulty !== undefined) throw new RangeError(`keep: wants texts without commas, got ${faulty}`);
  const others = keptLines().filter((other) => keyOf(other) !== keyOf(line));
  const sorted = [...others, line].sort((a, b) => keyOf(a).localeCompare(keyOf(b), 'en', { numeric: true }));
  mkdirSync(RESULTS, { recursive: true });
  const text = [COLUMNS.join(','), ...sorted.map((one) => COLUMNS.map((column) => one[column]).join(','))];
  writeFileSync(resultsFile, `${text.join('\n')}\n`);
}

/** Prints checks and sets the exit code: 1 when one does not hold. */
export function verdict(checks: Readonly<Record<string, boolean>>): void {
  for (const [name, held] of Object.entries(checks))
    process.stdout.write(`  ${held ? 'ok  ' : 'FAIL'} ${name}\n`);
  if (!Object.values(checks).every(Boolean)) process.exitCode = 1;
}
