import type { Figure } from '../core/quantity/figure.ts';
import { printedBoth } from '../core/quantity/print.ts';
import type { UnitCode } from '../core/quantity/units.ts';
import type { Ledger, LedgerChange, LedgerEntry, LedgerFigure, LedgerFile } from '../schema/published.ts';
import type { Sheet } from './sheet.ts';
import { sizeWords } from './words.ts';

/** Digits that a ledger keeps: the same on every machine, and more than any figure deserves. */
const SIGNIFICANT = 12;

const stable = (value: number): number => Number(value.toPrecision(SIGNIFICANT));

type Facts = LedgerFile['facts'];

/** What a sheet says in words: verdicts and choices that a reader acts on. */
function factsOf(sheet: Sheet): Facts {
  const { mold, verdicts, bestHook, plastisol, revision } = sheet;
  return {
    'fact.status': { label: 'Status', text: mold.status },
    'fact.revision': { label: 'Revision cut', text: revision.id },
    'fact.cavities': { label: 'Cavities', text: String(mold.cavities.length) },
    'fact.compound': { label: 'Compound', text: plastisol.name },
    'fact.cold': { label: 'Fill verdict', text: verdicts.cold.code },
    'fact.float': { label: 'Float or sink', text: verdicts.float.code },
    'fact.injector': { label: 'Injector', text: verdicts.injector.code },
    'fact.hook': {
      label: 'Hook',
      text: bestHook ? `${sizeWords(bestHook.size)} ${bestHook.hook.name.toLowerCase()}` : 'none',
    },
  };
}

function ledgerFigure({ label, unit, value, low, high }: Figure): LedgerFigure {
  return { label, unit, value: stable(value), low: stable(low), high: stable(high) };
}

function figuresOf({ figures }: Sheet): LedgerFile['figures'] {
  const all = Object.values(figures).sort((a, b) => (a.key < b.key ? -1 : 1));
  return Object.fromEntries(all.map((one) => [one.key, ledgerFigure(one)]));
}

const textsOf = (figure: LedgerFigure): string => printedBoth(figure, 'us');

/** Relative difference that sums in another order, or another machine, may make. */
const NOISE = 1e-9;

const near = (a: number, b: number): boolean => Math.abs(a - b) <= NOISE * Math.max(Math.abs(a), Math.abs(b));

/**
 * Whether a published figure has moved: a reader would see another text in one of the unit systems, and the
 * numbers differ by more than the noise of sums. Shifts below the last printed digit do not count; they are kept
 * against the published number, so they cannot add up unseen.
 */
export function hasMoved(old: LedgerFigure, now: LedgerFigure): boolean {
  if (old.unit !== now.unit) return true;
  const same = near(old.value, now.value) && near(old.low, now.low) && near(old.high, now.high);
  return !same && textsOf(old) !== textsOf(now);
}

const numbers = ({ value, low, high }: LedgerFigure) => ({ value, low, high });

function figureChanges(old: LedgerFile['figures'], now: LedgerFile['figures']): LedgerChange[] {
  const keys = [...new Set([...Object.keys(old), ...Object.keys(now)])].sort();
  return keys.flatMap((key): LedgerChange[] => {
    const [before, after] = [old[key], now[key]];
    if (before && after && !hasMoved(before, after)) return [];
    const named = after ?? before;
    if (!named) return [];
    const { label, unit } = named;
    const from = before && before.unit === unit ? numbers(before) : before ? textsOf(before) : null;
    return [{ key, label, unit, from, to: after ? numbers(after) : null }];
  });
}

function factChanges(old: Facts, now: Facts): LedgerChange[] {
  const keys = [...new Set([...Object.keys(old), ...Object.keys(now)])].sort();
  return keys.flatMap((key): LedgerChange[] => {
    const [before, after] = [old[key], now[key]];
    if (before?.text === after?.text) return [];
    return [
      { key, label: (after ?? before)?.label ?? key, from: before?.text ?? null, to: after?.text ?? null },
    ];
  });
}

/** What the working copy would change of what is published: words first, then figures by key. */
export function publishedChanges(ledger: Ledger, sheet: Sheet): LedgerChange[] {
  return [...factChanges(ledger.facts, factsOf(sheet)), ...figureChanges(ledger.figures, figuresOf(sheet))];
}

/** What the working copy would change of one published sheet. */
export interface Move {
  readonly mold: string;
  /** True when nothing of this mold has been accepted yet. */
  readonly first: boolean;
  readonly changes: readonly LedgerChange[];
}

/** What a sheet would change in public, or nothing. */
export function moveOf(sheet: Sheet): Move | null {
  const { id: mold, ledger } = sheet;
  if (!ledger) return { mold, first: true, changes: [] };
  const changes = publishedChanges(ledger, sheet);
  return changes.length > 0 ? { mold, first: false, changes } : null;
}

/** One side of a change as people read it. */
export function changeText(side: LedgerChange['from'], unit: UnitCode | undefined): string {
  if (side === null) return 'not there';
  if (typeof side === 'string') return side;
  return unit === undefined ? String(side.value) : textsOf({ label: '', unit, ...side });
}

/** How a step is recorded. */
export interface Acceptance {
  readonly date: string;
  readonly note: string;
  /**
   * Puts the step in place of the last one, for a note that was wrong or a site that was never uploaded; an empty
   * date or note keeps that of the last one.
   */
  readonly amend: boolean;
}

/** The ledger of a mold with its sheet accepted as published. */
export function accepted(ledger: Ledger | null, sheet: Sheet, { date, note, amend }: Acceptance): Ledger {
  const entries = ledger?.entries ?? [];
  const earlier = amend ? entries.slice(0, -1) : entries;
  const last = entries.at(-1);
  const fresh = ledger ? publishedChanges(ledger, sheet) : [];
  const changes = amend && last ? joinedChanges(last.changes, fresh) : fresh;
  const entry: LedgerEntry = {
    date: date || (last?.date ?? ''),
    note: note || (last?.note ?? ''),
    revision: sheet.revision.id,
    changes: earlier.length > 0 ? changes : [],
  };
  return {
    mold: sheet.id,
    format: 'partline-published/1',
    entries: [...earlier, entry],
    figures: figuresOf(sheet),
    facts: factsOf(sheet),
  };
}

/** Two steps as one: from the side of the first to the side of the last. */
function joinedChanges(first: readonly LedgerChange[], then: readonly LedgerChange[]): LedgerChange[] {
  const keys = [...new Set([...first, ...then].map(({ key }) => key))];
  return keys.flatMap((key) => {
    const [a, b] = [first.find((one) => one.key === key), then.find((one) => one.key === key)];
    if (!a || !b) return a ?? b ?? [];
    return { ...b, from: a.from };
  });
}
