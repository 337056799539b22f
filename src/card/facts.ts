import type { Figure } from '../core/quantity/figure.ts';
import { printed, type UnitSystem } from '../core/quantity/print.ts';
import type { Outline } from '../core/section/geometry.ts';
import type { Sheet } from '../sheet/sheet.ts';

/** One figure on a card. */
export interface CardFigure {
  readonly label: string;
  readonly value: string;
  /** A second, smaller line: the band, or the other units. */
  readonly note: string;
}

/** Everything that a share card shows. */
export interface CardFacts {
  readonly shop: string;
  readonly name: string;
  /** Stock number, or what kind of bait it is. */
  readonly stock: string;
  /** Beside the stock number: cavities and revision, or molds and revision. */
  readonly detail: string;
  /** Outlines of the bait [m]: on the parting plane, and across. */
  readonly plan: Outline;
  readonly across: Outline;
  /** Units of the ruler under the bait. */
  readonly units: UnitSystem;
  readonly figures: readonly CardFigure[];
  /** Demo content says so. */
  readonly invented: boolean;
}

const other = (system: UnitSystem): UnitSystem => (system === 'us' ? 'metric' : 'us');
const exact = (value: number, unit: Figure['unit']) => ({ value, low: value, high: value, unit });
const counted = (count: number, one: string, many: string) => `${count} ${count === 1 ? one : many}`;
const capital = (text: string) => text.charAt(0).toUpperCase() + text.slice(1);

function measured(label: string, figure: Figure, system: UnitSystem): CardFigure {
  const { value, unit, range } = printed(figure, system);
  const band = range ? `${range.low} to ${range.high} ${unit}` : printed(figure, other(system)).text;
  return { label, value: `${value} ${unit}`, note: band };
}

function pourBand(low: Figure, high: Figure, system: UnitSystem): CardFigure {
  const span = (units: UnitSystem) => {
    const [from, to] = [
      printed(exact(low.value, low.unit), units),
      printed(exact(high.value, high.unit), units),
    ];
    return `${from.value} to ${to.value} ${to.unit}`;
  };
  return { label: 'Pour', value: span(system), note: span(other(system)) };
}

/** The figures of a sheet by key; a missing one is refused by name. */
const figuresOf =
  (sheet: Sheet) =>
  (key: string): Figure => {
    const found = sheet.figures[key];
    if (!found) throw new RangeError(`cardFacts: wants the figure ${key} on sheet ${sheet.id}, got none`);
    return found;
  };

/**
 * What a sheet's card shows.
 *
 * @throws {RangeError} when the sheet lacks a figure that every sheet has
 */
export function cardFacts(sheet: Sheet): CardFacts {
  const { units } = sheet.shop;
  const figure = figuresOf(sheet);
  return {
    shop: sheet.shop.name,
    name: sheet.title,
    stock: sheet.mold.stock,
    detail: `${counted(sheet.mold.cavities.length, 'cavity', 'cavities')} · rev. ${sheet.revision.id.toUpperCase()}`,
    plan: sheet.geometry.plan,
    across: sheet.geometry.across,
    units,
    figures: [
      measured('Bait length', figure('bait.length'), units),
      measured('Shot, hot', figure('shot.total'), units),
      pourBand(figure('pour.low'), figure('pour.high'), units),
      { label: 'Cold mold', value: capital(sheet.verdicts.cold.code), note: 'computed from the shape' },
    ],
    invented: sheet.shop.invented,
  };
}

/**
 * What the card of a bait shows: the sheet of one of its molds with the figures that the bait has in every mold.
 *
 * @throws {RangeError} when the sheet lacks a figure that every sheet has
 */
export function baitCardFacts(sheet: Sheet): CardFacts {
  const { units } = sheet.shop;
  const figure = figuresOf(sheet);
  const hook = sheet.bestHook;
  return {
    ...cardFacts(sheet),
    name: sheet.bait.name,
    stock: capital(sheet.bait.family),
    detail: `${counted(sheet.siblings.length + 1, 'mold', 'molds')} · rev. ${sheet.revision.id.toUpperCase()}`,
    figures: [
      measured('Length', figure('bait.length'), units),
      measured('One bait', figure('bait.mass'), units),
      {
        label: 'Hook',
        value: hook ? hook.size : 'none listed',
        note: hook ? `${hook.hook.pattern}, ${hook.rig}` : 'fits as it should',
      },
      { label: 'Slack line', value: capital(sheet.verdicts.float.code), note: 'bare, in fresh water' },
    ],
  };
}
