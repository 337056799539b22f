import { printed, type UnitSystem } from '../../core/quantity/print.ts';
import type { Ledger, LedgerChange } from '../../schema/published.ts';

/** One step of the public record, ready to be read. */
export interface PublishedRow {
  readonly date: string;
  readonly note: string;
  readonly revision: string;
  readonly changes: readonly {
    readonly key: string;
    readonly label: string;
    readonly from: string;
    readonly to: string;
  }[];
}

function sideText(side: LedgerChange['from'], unit: LedgerChange['unit'], first: UnitSystem): string {
  if (side === null) return 'not there';
  if (typeof side === 'string' || unit === undefined)
    return typeof side === 'string' ? side : String(side.value);
  return printed({ ...side, unit }, first).text;
}

/** The public record of a mold, newest first, in the shop's own units. */
export function publishedRows({ entries }: Ledger, first: UnitSystem): PublishedRow[] {
  return [...entries].reverse().map(({ date, note, revision, changes }) => ({
    date,
    note,
    revision,
    changes: changes.map(({ key, label, unit, from, to }) => ({
      key,
      label,
      from: sideText(from, unit, first),
      to: sideText(to, unit, first),
    })),
  }));
}
