import type { GoodReading } from '../io/catalogue.ts';
import { frameLines } from '../io/code-frame.ts';
import { problemLine } from '../io/problem-text.ts';
import type { Timing } from '../site/analysis/work.ts';
import { inspected, type Inspection } from './inspect.ts';
import { moveLines } from './moves.ts';
import { complain, counted, progress, seconds } from './progress.ts';

/** Work that takes less is not worth a list of its slowest steps [ms]. */
const NOTABLE = 3000;
const SLOWEST = 5;

/** A sound catalogue, and what keeps it from being published. */
export interface Checked {
  readonly reading: GoodReading;
  /** Molds that are called final and may not be, in lines with their places. */
  readonly refusals: readonly string[];
  /** What decides a sheet, by its mold: equal keys, equal sheets. */
  readonly keys: ReadonlyMap<string, string>;
  /** What was said of it, line by line. */
  readonly told: readonly string[];
  /** What it would change in public, in lines; none when nothing that is published would move. */
  readonly moves: readonly string[];
}

/** A sound catalogue, or nothing after its mistakes have been printed. Warnings are printed and stop nothing. */
export async function checked(folder: string): Promise<Checked | undefined> {
  const measuring = progress('measuring');
  const inspection = await inspected(folder, {
    onStep: ({ done, total, name }) => measuring.step(done, total, name),
  });
  measuring.end();
  tell(inspection);
  const { reading, refusals, moves, keys, warnings } = inspection;
  return (
    reading && {
      reading,
      keys,
      told: warnings.map(warningLine),
      refusals: refusals.flatMap((refusal) => [problemLine(refusal), ...frameLines(refusal)]),
      moves: moveLines(moves),
    }
  );
}

const warningLine = (warning: string): string => `warning: ${warning}`;

function tell({ problems, warnings, timings }: Inspection): void {
  for (const line of slowest(timings)) complain(line);
  for (const warning of warnings) complain(warningLine(warning));
  for (const problem of problems) {
    complain(problemLine(problem));
    for (const line of frameLines(problem)) complain(line);
  }
  if (problems.length > 0) complain(`${counted(problems.length, 'mistake')} in the catalogue`);
}

/** The slowest steps in a line, where there is something to tell. */
export function slowest(timings: readonly Timing[]): string[] {
  const total = timings.reduce((sum, { milliseconds }) => sum + milliseconds, 0);
  if (total < NOTABLE) return [];
  const named = timings.slice(0, SLOWEST).map(({ name, milliseconds }) => `${name} ${seconds(milliseconds)}`);
  return [`measured in ${seconds(total)}; the slowest: ${named.join(', ')}`];
}

/** Whether a catalogue is sound, backed by the bench, and changes nothing in public that was not accepted. */
export function fitToPublish({
  reading,
  refusals,
  moves,
}: Pick<Inspection, 'reading' | 'refusals' | 'moves'>): boolean {
  return reading !== undefined && refusals.length === 0 && moves.length === 0;
}

/** The outcome of a check for programs: mistakes, warnings and times, as one JSON text. */
export function checkReport({ reading, problems, refusals, warnings, timings, moves }: Inspection): string {
  const report = {
    format: 'partline-check/1',
    ok: fitToPublish({ reading, refusals, moves }),
    mistakes: [...problems, ...refusals].map(({ excerpt, ...problem }) => ({
      ...problem,
      ...(excerpt && { excerpt: excerpt.text, caret: excerpt.column }),
    })),
    warnings,
    moves,
    steps: stepsReport(timings),
  };
  return JSON.stringify(report, undefined, 2);
}

/** Steps with their times, for programs. */
export function stepsReport(timings: readonly Timing[]): { name: string; seconds: number }[] {
  return timings.map(({ name, milliseconds }) => ({ name, seconds: Math.round(milliseconds) / 1000 }));
}
