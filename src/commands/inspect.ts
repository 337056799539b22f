import { placed, readCatalogue, type GoodReading } from '../io/catalogue.ts';
import { framed, type FramedProblem } from '../io/code-frame.ts';
import { readLedgers } from '../io/ledger.ts';
import { sortedProblems } from '../io/problem-text.ts';
import type { EntryProblem } from '../schema/problem.ts';
import { successorProblems } from '../sheet/gate.ts';
import type { Move } from '../sheet/ledger.ts';
import type { Sheet } from '../sheet/sheet.ts';
import { analyseCatalogue, type AnalyseOptions } from '../site/analysis/analyse.ts';
import type { Timing } from '../site/analysis/work.ts';

/** All that is known of a catalogue after it was read and measured. */
export interface Inspection {
  /** The catalogue, unless it has mistakes. */
  readonly reading?: GoodReading;
  readonly problems: readonly FramedProblem[];
  /** Molds that are called final, or point on, and may not: the site can be built, but is not fit to be published. */
  readonly refusals: readonly FramedProblem[];
  readonly warnings: readonly string[];
  /** Of every mold that could be worked out, published or not; each is read when someone looks into it. */
  readonly sheets: readonly Sheet[];
  /** What decides a sheet, by its mold: equal keys, equal sheets. */
  readonly keys: ReadonlyMap<string, string>;
  /** What the published molds would change in public; first steps only where the catalogue keeps a record at all. */
  readonly moves: readonly Move[];
  /** Pieces of the work, and how many of them no earlier run had worked out. */
  readonly groups: number;
  readonly worked: number;
  /** Every step, the slowest first. */
  readonly timings: readonly Timing[];
}

const UNREAD = {
  groups: 0,
  worked: 0,
  refusals: [],
  warnings: [],
  timings: [],
  sheets: [],
  moves: [],
  keys: new Map<string, string>(),
};

/**
 * Reads a catalogue and works it out. Mistakes of the files come first; those that only the geometry shows, and molds
 * that may not be called final, are looked for once the files are sound.
 */
export async function inspected(folder: string, options: AnalyseOptions = {}): Promise<Inspection> {
  const reading = await readCatalogue(folder);
  if ('problems' in reading) return { ...UNREAD, problems: await framed(reading.problems) };
  const analysed = await analyseCatalogue(reading.catalogue, folder, options);
  const { warnings, timings, sheets, keys, groups, worked } = analysed;
  const record = await readLedgers(folder);
  const inFiles = (problems: readonly EntryProblem[]) => problems.map((problem) => placed(problem, reading));
  const found = sortedProblems([...record.problems, ...inFiles(analysed.problems)]);
  const refused = sortedProblems(inFiles([...analysed.refusals, ...successorProblems(reading.catalogue)]));
  return {
    ...(found.length === 0 && { reading }),
    problems: await framed(found),
    refusals: await framed(refused),
    warnings,
    timings,
    groups,
    worked,
    sheets,
    keys,
    moves: analysed.moves.filter(({ first }) => record.kept || !first),
  };
}
