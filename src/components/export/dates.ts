import type { Sheet } from '../../sheet/sheet.ts';

/** Something that happened to a sheet in public. */
export interface SheetEvent {
  readonly sheet: Sheet;
  readonly kind: 'new' | 'revised';
  /** ISO 8601 day. */
  readonly date: string;
  readonly note: string;
}

function eventsOf(sheet: Sheet): SheetEvent[] {
  const { ledger, mold, revision } = sheet;
  if (ledger) {
    return ledger.entries.map(({ date, note }, index) => ({
      sheet,
      kind: index === 0 ? 'new' : 'revised',
      date,
      note,
    }));
  }
  return [{ sheet, kind: 'new', date: mold.released ?? revision.date, note: revision.note }];
}

/** What is new and what was revised, the newest first; days come from the catalogue, never from a clock. */
export function sheetEvents(sheets: readonly Sheet[]): SheetEvent[] {
  return sheets
    .flatMap(eventsOf)
    .sort((a, b) => (a.date === b.date ? (a.sheet.id < b.sheet.id ? -1 : 1) : a.date < b.date ? 1 : -1));
}

/** The day on which a sheet last changed. */
export function lastChanged(sheet: Sheet): string {
  const days = eventsOf(sheet).map(({ date }) => date);
  return days.reduce((latest, day) => (day > latest ? day : latest), sheet.revision.date);
}
