import { chanceAt, onsetOf, type Chance, type Mover, type Onset } from '../core/action/onset.ts';
import { equivalentThickness, stripLimpness } from '../core/action/strip.ts';
import { band, type Band } from '../core/quantity/band.ts';
import { freshWaterDensity } from '../core/rigging/water.ts';
import type { BaitGeometry, FeatureMeasure } from '../core/section/geometry.ts';
import { compoundDensity } from '../core/shot/compound-density.ts';
import type { Entry, Plastisol } from '../schema/collections.ts';
import { compoundModulus } from './compound-figures.ts';
import { GAP_TOLERANCE, RETRIEVES, WATER } from './practice.ts';

/** A thin part in one compound: when the water moves it. */
export interface ActionStudy {
  readonly feature: FeatureMeasure;
  readonly plastisol: Entry<Plastisol>;
  readonly modulus: Band;
  /** Factor on the thickness for the cutting tolerance [1]. */
  readonly tolerance: Band;
  readonly mover: Mover;
  /** Tip over length at the speed of folding, for an even pressure as large as the modulus [1]. */
  readonly limpness: number;
  readonly onset: Onset;
}

/** Factor on the thickness of a part for the cutting tolerance [1]. */
function toleranceOf(thickness: number): Band {
  return band(1, 1 + GAP_TOLERANCE.low / thickness, 1 + GAP_TOLERANCE.high / thickness);
}

/** When the water moves a thin part of a bait that is shot in a compound. */
export function actionStudy(
  geometry: BaitGeometry,
  feature: FeatureMeasure,
  plastisol: Entry<Plastisol>,
): ActionStudy {
  const modulus = compoundModulus(plastisol);
  const mover: Mover = {
    kind: feature.kind,
    strip: feature,
    density: (plastisol.density ?? compoundDensity(plastisol.recipe)).value,
    water: freshWaterDensity(WATER.value),
    body: geometry.thickest.thickness,
  };
  const tolerance = toleranceOf(equivalentThickness(feature));
  return {
    feature,
    plastisol,
    modulus,
    tolerance,
    mover,
    limpness: stripLimpness(feature),
    onset: onsetOf(mover, { modulus, thickness: tolerance }, RETRIEVES.slow.value),
  };
}

/** Compounds from the firmest to the softest. */
function firmestFirst(plastisols: readonly Entry<Plastisol>[]): Entry<Plastisol>[] {
  return [...plastisols].sort((a, b) => compoundModulus(b).value - compoundModulus(a).value);
}

/** A compound, and how the thin parts do in it at the slow retrieve. */
export interface CompoundTrial {
  readonly plastisol: Entry<Plastisol>;
  readonly studies: readonly ActionStudy[];
}

const WORTH: Readonly<Record<Chance, number>> = { unlikely: 0, marginal: 1, likely: 2 };

/** The least of several chances. */
export function leastChance(chances: readonly Chance[]): Chance {
  return chances.reduce((least, one) => (WORTH[one] < WORTH[least] ? one : least), 'likely');
}

/** Every compound of the catalogue against the thin parts of a bait, firmest first. */
export function compoundTrials(
  geometry: BaitGeometry,
  features: readonly FeatureMeasure[],
  plastisols: readonly Entry<Plastisol>[],
): CompoundTrial[] {
  return firmestFirst(plastisols).map((plastisol) => {
    return { plastisol, studies: features.map((feature) => actionStudy(geometry, feature, plastisol)) };
  });
}

/** The chance of a part at a speed. */
export function chanceOf({ onset }: ActionStudy, speed: number): Chance {
  return chanceAt(onset, speed);
}
