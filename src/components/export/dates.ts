import { publishedRows, type PublishedRow } from '../sheet/published-rows.ts';
import type { Brief } from '../../sheet/brief.ts';

/** Something that happened to a sheet in public. */
export interface SheetEvent {
  readonly sheet: Brief;
  readonly kind: 'new' | 'revised';
  /** ISO 8601 day. */
  readonly date: string;
  readonly note: string;
  /** Published figures that moved, old and new, in the shop's own units. */
  readonly changes: PublishedRow['changes'];
  /** True when a figure moved that could hurt someone if wrong. */
  readonly safety: boolean;
}

/** Figures that a reader's safety hangs on, by the start of their key. */
const SAFETY = [
  'pour.',
  'burn.',
  'heat.blockSteady',
  'heat.safeToTouch',
  'heat.demoldTime',
  'mold.clampForce',
  'mold.partingForce',
];

function eventsOf(sheet: Brief): SheetEvent[] {
  const { ledger, mold, revision } = sheet;
  if (ledger) {
    return publishedRows(ledger, sheet.shop.units).map(({ date, note, changes }, index, { length }) => ({
      sheet,
      kind: index === length - 1 ? 'new' : 'revised',
      date,
      note,
      changes,
      safety: changes.some(({ key }) => SAFETY.some((start) => key.startsWith(start))),
    }));
  }
  const date = mold.released ?? revision.date;
  return [{ sheet, kind: 'new', date, note: revision.note, changes: [], safety: false }];
}

/** What is new and what was revised, the newest first; days come from the catalogue, never from a clock. */
export function sheetEvents(sheets: readonly Brief[]): SheetEvent[] {
  return sheets
    .flatMap(eventsOf)
    .sort((a, b) => (a.date === b.date ? (a.sheet.id < b.sheet.id ? -1 : 1) : a.date < b.date ? 1 : -1));
}

/** The day on which a sheet last changed. */
export function lastChanged(sheet: Brief): string {
  const days = eventsOf(sheet).map(({ date }) => date);
  return days.reduce((latest, day) => (day > latest ? day : latest), sheet.revision.date);
}
