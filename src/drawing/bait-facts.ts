import { printed } from '../core/quantity/print.ts';
import type { FeatureMeasure, Outline } from '../core/section/geometry.ts';

/** One dimension of a drawing, for the table beside it. */
export interface DrawnDimension {
  /** Unique in the drawing: `length`, `A-width`, `tail-tip`. */
  readonly key: string;
  /** In words: "Overall length". */
  readonly label: string;
  /** Millimetres. */
  readonly mm: number;
  /** As it stands in the drawing. */
  readonly shown: string;
  /** Where it stands: "side view", "section A–A". */
  readonly where: string;
  /** Key of the sheet's figure that holds the same quantity. */
  readonly figure?: string;
}

/** Where the bait is cut across, and what is seen there. */
export interface Cut {
  /** Station from the nose [m]. */
  readonly x: number;
  /** Outline of the solid there: (y, z) [m]. */
  readonly outline: Outline;
}

/** A length [m] as dimensions print it, in millimetres without the unit. */
export function shownLength(metres: number): string {
  const mm = metres * 1000;
  return printed({ value: mm, low: mm, high: mm, unit: 'mm' }, 'metric').value;
}

/** A dimension from its length in metres. */
export function dimension(metres: number, words: Omit<DrawnDimension, 'mm' | 'shown'>): DrawnDimension {
  return { ...words, mm: metres * 1000, shown: shownLength(metres) };
}

/** A dimension that an author stated: printed as written, to the thousandth of a millimetre. */
export function statedDimension(metres: number, words: Omit<DrawnDimension, 'mm' | 'shown'>): DrawnDimension {
  const mm = metres * 1000;
  return { ...words, mm, shown: `${Number(mm.toFixed(3))}` };
}

/** Letter of the nth cut: A, B, … */
export const cutLetter = (index: number) => String.fromCodePoint(65 + index);

const WORDS: Readonly<Record<FeatureMeasure['kind'], string>> = {
  'curl-tail': 'tail',
  'ribbon-tail': 'tail',
  paddle: 'paddle',
  arm: 'arm',
  claw: 'claw',
  leg: 'leg',
  rib: 'rib',
  fin: 'fin',
};

/** Plain word for a thin feature. */
export const featureWord = ({ kind }: FeatureMeasure) => WORDS[kind];

/** Features with different measures, thinnest first: twins and rows of ribs count once. */
export function distinctFeatures(features: readonly FeatureMeasure[]): FeatureMeasure[] {
  const same = (a: FeatureMeasure, b: FeatureMeasure) =>
    a.kind === b.kind &&
    shownLength(a.rootThickness) === shownLength(b.rootThickness) &&
    shownLength(a.tipThickness) === shownLength(b.tipThickness);
  return features
    .filter((feature, index) => features.findIndex((other) => same(feature, other)) === index)
    .sort((a, b) => a.thinnest.thickness - b.thinnest.thickness);
}
