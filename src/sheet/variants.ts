import { band } from '../core/quantity/band.ts';
import { figureInput, type Figure } from '../core/quantity/figure.ts';
import { printedBoth, type UnitSystem } from '../core/quantity/print.ts';
import type { Entry, Mold } from '../schema/collections.ts';
import type { Sheet } from './sheet.ts';
import { cavityWords } from './words.ts';

/** One mold of a bait among its siblings. */
export interface Variant {
  readonly mold: Entry<Mold>;
  /** All of the bait, or what of it. */
  readonly makes: string;
  readonly shot: Figure;
  readonly clamp: Figure;
  readonly block: Figure;
  /** Share of a shot that ends in sprue and runner. */
  readonly sprue: Figure;
  readonly injector: string;
  readonly cold: string;
  /** Price of one cavity, in the currency of the listing; null where no price is given. */
  readonly perCavity: { readonly amount: number; readonly currency: string } | null;
}

/** The molds of one bait, fewest cavities first, and which to buy for what. */
export interface Variants {
  readonly molds: readonly Variant[];
  readonly advice: readonly string[];
}

function figureOf({ figures, id }: Sheet, key: string): Figure {
  const found = figures[key];
  if (!found) throw new RangeError(`variantsOf: wants ${key} on the sheet of ${id}, got none`);
  return found;
}

/** What a mold makes: "whole bait", or "rear part, from 1.02 in / 26 mm behind the nose on". */
export function madeBy({ from }: Pick<Mold, 'from'>, units: UnitSystem): string {
  if (from === undefined) return 'whole bait';
  const text = printedBoth(figureInput('from', band(from), 'mm'), units);
  return `rear part, from ${text} behind the nose on`;
}

function variantOf(sheet: Sheet): Variant {
  const { mold, injectors } = sheet;
  const { price } = mold.listing;
  const smallest = injectors.find(({ holds }) => holds);
  return {
    mold,
    makes: madeBy(mold, sheet.shop.units),
    shot: figureOf(sheet, 'shot.total'),
    clamp: figureOf(sheet, 'mold.clampForce'),
    block: figureOf(sheet, 'mold.blockMass'),
    sprue: figureOf(sheet, 'shot.sprueShare'),
    injector: smallest ? smallest.injector.name : 'none listed',
    cold: sheet.verdicts.cold.code,
    perCavity: price ? { amount: price.amount / mold.cavities.length, currency: price.currency } : null,
  };
}

const named = ({ mold }: Variant) => mold.name;

function leastBy(variants: readonly Variant[], measure: (variant: Variant) => number): Variant | undefined {
  return [...variants].sort((a, b) => measure(a) - measure(b))[0];
}

/** What to buy for what, each worked out from the figures of the sheets. */
function adviceOf(all: readonly Variant[], units: UnitSystem): string[] {
  const open = all.filter(({ mold }) => mold.status === 'final');
  const final = open.filter(({ mold }) => mold.from === undefined);
  const tails = open.filter(({ mold }) => mold.from !== undefined).map(named);
  if (open.length < 2 || final.length === 0) return [];
  const smallest = leastBy(final, ({ shot }) => shot.value);
  const most = leastBy(final, ({ mold }) => -mold.cavities.length);
  const lean = leastBy(final, ({ sprue }) => sprue.value);
  const priced = final.filter(({ perCavity }) => perCavity !== null);
  const currencies = new Set(priced.map(({ perCavity }) => perCavity?.currency));
  const cheap =
    currencies.size === 1 ? leastBy(priced, ({ perCavity }) => perCavity?.amount ?? Infinity) : undefined;
  const lines = [
    smallest &&
      `Smallest injector: ${named(smallest)}, ${printedBoth(smallest.shot, units)} a shot; ${smallest.injector === 'none listed' ? 'no listed injector' : `a ${smallest.injector.toLowerCase()}`} gives it in one push.`,
    most &&
      `Most baits a shot: ${named(most)}, ${cavityWords(most.mold.cavities.length)} filled with ${printedBoth(most.shot, units)}; it wants ${most.injector === 'none listed' ? 'a larger injector than any listed' : `a ${most.injector.toLowerCase()}`} and ${printedBoth(most.clamp, units)} of clamping.`,
    lean && `Least plastic in the sprue: ${named(lean)}, ${printedBoth(lean.sprue, units)} of a shot.`,
    cheap?.perCavity &&
      `Least money a cavity: ${named(cheap)}, ${cheap.perCavity.amount.toFixed(2)} ${cheap.perCavity.currency}.`,
  ];
  const retired = all.filter(({ mold }) => mold.status === 'retired').map(named);
  return [
    ...lines.filter((line) => typeof line === 'string'),
    ...(tails.length > 0
      ? [`Tails alone, for two colours or another body: ${tails.join('; ')}. It does not make a whole bait.`]
      : []),
    ...(retired.length > 0 ? [`No longer made: ${retired.join('; ')}.`] : []),
  ];
}

/** The published molds of one bait side by side. */
export function variantsOf(sheets: readonly Sheet[]): Variants {
  const molds = sheets
    .map(variantOf)
    .sort((a, b) => a.mold.cavities.length - b.mold.cavities.length || (a.mold.id < b.mold.id ? -1 : 1));
  return { molds, advice: adviceOf(molds, sheets[0]?.shop.units ?? 'us') };
}
