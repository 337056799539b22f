import type { LedgerChange } from '../schema/published.ts';
import { changeText, type Move } from '../sheet/ledger.ts';

/** One change in a line: `Shot, hot: 1.2 fl oz / 36 mL → 1.3 fl oz / 38 mL`. */
export function changeLine({ label, key, unit, from, to }: LedgerChange): string {
  return `${label} (${key}): ${changeText(from, unit)} → ${changeText(to, unit)}`;
}

/** Every move in lines, and the command that accepts it. */
export function moveLines(found: readonly Move[]): string[] {
  return found.flatMap(({ mold, first, changes }) => [
    first
      ? `${mold}: its sheet is not in the record of what is published`
      : `${mold}: ${changes.length === 1 ? '1 published figure' : `${changes.length} published figures`} would move`,
    ...changes.map((change) => `  ${changeLine(change)}`),
    `  accept it: npm run publish -- ${mold} --note "why"`,
  ]);
}
