import type { Figure, Source } from '../../core/quantity/figure.ts';
import type { Sheet } from '../../sheet/sheet.ts';
import { figuresInTables } from './homes.ts';
import { eachOnce } from './shared.ts';

/** The sources of a page in the order of their first use; each figure refers to them by number. */
export interface SourceNumbers {
  readonly sources: readonly Source[];
  /** Number of a source, from 1; undefined for one that the page does not list. */
  readonly of: (source: Source) => number | undefined;
}

const textOf = ({ title, kind, note }: Source) => `${kind}|${title}|${note ?? ''}`;

/** Numbers for every source that a figure of the sheet names. */
export function sourceNumbers(sheet: Sheet): SourceNumbers {
  const figures: readonly Figure[] = [...Object.values(sheet.figures), ...figuresInTables(sheet)];
  const sources = eachOnce(figures.flatMap((figure) => figure.sources));
  const numbers = new Map(sources.map((source, index) => [textOf(source), index + 1]));
  return { sources, of: (source) => numbers.get(textOf(source)) };
}
