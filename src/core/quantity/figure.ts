import type { Band } from './band.ts';
import { fromSI, type UnitCode } from './units.ts';

/** Where a relation or a number comes from, and how far to trust it. */
export interface Source {
  /** As a reader would look it up: author, title, year, clause or table. */
  readonly title: string;
  readonly kind:
    'published' | 'common practice' | 'estimate' | 'measured' | 'stated' | 'invented for the demo';
  /** What was not checked, e.g. "clause number from memory". */
  readonly note?: string;
}

/** One number that went into a figure, in the unit people read it in. */
export interface FigureInput extends Band {
  readonly name: string;
  readonly unit: UnitCode;
}

/**
 * The one form of every derived number: pages, cards, drawings, answers and JSON all print this object.
 * `value`, `low` and `high` are in `unit` (a UCUM code), unrounded.
 */
export interface Figure extends Band {
  /** Dotted key, unique on a sheet and permanent: `shot.total`. */
  readonly key: string;
  /** Short plain name: "Shot, hot". */
  readonly label: string;
  readonly unit: UnitCode;
  /** One sentence: what it was worked out from and what dominates its band. */
  readonly basis: string;
  /** The relation in plain symbols: "t = s²/(π²α)·ln(4θ/π)"; empty for a measured or stated number. */
  readonly formula: string;
  readonly inputs: readonly FigureInput[];
  readonly sources: readonly Source[];
}

/** What is said about a number when it becomes a figure. */
export interface FigureWords {
  readonly key: string;
  readonly label: string;
  readonly unit: UnitCode;
  readonly basis: string;
  readonly formula?: string;
  readonly inputs?: readonly FigureInput[];
  readonly sources: readonly Source[];
}

/**
 * A figure from an SI band.
 *
 * @param words - key, label, unit (UCUM code), basis and sources
 * @param si - the band in the SI unit of the same dimension
 * @returns the figure, its numbers converted to `words.unit`
 *
 * Cost: constant.
 * Source: definition.
 */
export function figure(words: FigureWords, si: Band): Figure {
  return {
    key: words.key,
    label: words.label,
    unit: words.unit,
    basis: words.basis,
    formula: words.formula ?? '',
    inputs: words.inputs ?? [],
    sources: words.sources,
    value: fromSI(si.value, words.unit),
    low: fromSI(si.low, words.unit),
    high: fromSI(si.high, words.unit),
  };
}

/**
 * An input of a figure from an SI band.
 *
 * @param name - plain name: "pour temperature"
 * @param si - the band in the SI unit
 * @param unit - UCUM code it is shown in
 *
 * Cost: constant.
 * Source: definition.
 */
export function figureInput(name: string, si: Band, unit: UnitCode): FigureInput {
  return {
    name,
    unit,
    value: fromSI(si.value, unit),
    low: fromSI(si.low, unit),
    high: fromSI(si.high, unit),
  };
}
