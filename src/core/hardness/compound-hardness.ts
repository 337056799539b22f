import { band, quadrature, type Band } from '../quantity/band.ts';
import type { Source } from '../quantity/figure.ts';
import { need, needPositive } from '../quantity/guard.ts';
import { resinVolumeFraction } from '../shot/compound-density.ts';
import { PLASTICISERS, type Plasticiser } from '../shot/constituents.ts';
import { shore00FromModulus, shore00Modulus, shoreAModulusGent } from './shore-modulus.ts';

/** Parts of a plasticiser that soften as much as one part of DEHP, ± 0.03. */
export const SUBSTITUTION_FACTOR: Readonly<Record<Plasticiser, number>> = {
  DEHP: 1,
  DINP: 1.06,
  DEHT: 1.03,
  DOA: 0.93,
  ATBC: 1,
};

const SUBSTITUTION_SPREAD = 0.03;

/** Anchor of the power law: 50 phr of DEHP reads Shore A 80. */
const ANCHOR = { phr: 50, shoreA: 80 };

/** Exponent of the modulus in the volume fraction of resin. */
const EXPONENT: Band = band(3, 2.6, 3.4);
/** Gent's relation, as a factor. */
const GENT_FACTOR: Band = band(1, 1 / 1.25, 1.25);
/** The ball model of Shore 00, as a factor. */
const SHORE_00_FACTOR: Band = band(1, 1 / 1.5, 1.5);

/** Where hardness from the recipe comes from. */
export const HARDNESS_SOURCES: readonly Source[] = [
  {
    title:
      'Danish EPA, phthalates survey (2010), Table 2.3, after Wilson (1995): 50 phr DEHP reads Shore A 80, DINP 84, DIDP 86',
    kind: 'published',
  },
  {
    title: 'Power law E ∝ φ³ in the volume fraction of resin, exponent 2.6 to 3.4; own derivation',
    kind: 'estimate',
    note: 'near the exponent 8/3 of PVC gels, Li & Aoki, Macromolecules 31 (1998) 740; no published rule found above 120 phr',
  },
  { title: 'A. N. Gent, Trans. IRI 34 (1958) 46, ±25 %', kind: 'published', note: 'constants from memory' },
  {
    title: 'Hertz contact with the type OO ball and spring of ASTM D2240, ×/÷ 1.5',
    kind: 'estimate',
    note: 'constants from memory',
  },
];

/**
 * Parts of DEHP that soften as much as a recipe's plasticiser does.
 *
 * @param plasticiser - which one
 * @param phr - parts to a hundred of resin, by mass
 * @returns equivalent phr of DEHP, ± 0.03 in the factor
 * @throws {RangeError} when `phr` is not positive
 *
 * Valid: measured near 50 phr; carried on to soft compounds unchanged.
 * Cost: constant.
 * Source: substitution factors of plasticisers relative to DEHP, plasticiser makers' tables, from memory.
 */
export function equivalentPhr(plasticiser: Plasticiser, phr: number): Band {
  needPositive('equivalentPhr', { phr });
  const factor = SUBSTITUTION_FACTOR[plasticiser];
  return band(phr / factor, phr / (factor + SUBSTITUTION_SPREAD), phr / (factor - SUBSTITUTION_SPREAD));
}

/**
 * Young's modulus from plasticiser level.
 *
 * @param phrDehp - equivalent parts of DEHP to a hundred of resin, 45 to 700
 * @param exponent - of the power law [1], 2.6 to 3.4
 * @returns Young's modulus at 20 °C [Pa]
 * @throws {RangeError} outside 45 to 700 phr
 *
 * Valid: fully fused, no fillers; an estimate above 120 phr.
 * Cost: constant.
 * Source: own derivation, E = E₅₀(φ/φ₅₀)ⁿ anchored at 50 phr DEHP = Shore A 80 (Danish EPA 2010, Table 2.3).
 */
export function plasticisedModulus(phrDehp: number, exponent: number = EXPONENT.value): number {
  need(phrDehp >= 45 && phrDehp <= 700, 'plasticisedModulus', '45 to 700 phr', phrDehp);
  const density = PLASTICISERS.DEHP.density.value;
  const ratio = resinVolumeFraction(phrDehp, density) / resinVolumeFraction(ANCHOR.phr, density);
  return shoreAModulusGent(ANCHOR.shoreA) * ratio ** exponent;
}

/** Hardness of a compound, cured, at 20 °C. */
export interface CompoundHardness {
  /** Young's modulus [Pa]. */
  readonly modulus: Band;
  /** Type 00 reading. */
  readonly shore00: Band;
}

const STIFFEST = shore00Modulus(98);

/**
 * Hardness to expect of a recipe.
 *
 * @param recipe - plasticiser and phr, 50 to 600; fillers are left out
 * @returns Young's modulus [Pa] and Shore 00, both with wide bands
 * @throws {RangeError} outside 50 to 600 phr
 *
 * Valid: typical, measure your own; salt and microspheres stiffen a compound and are not counted.
 * Cost: nine evaluations of the law, nine inversions.
 * Source: own derivation from a power law in resin fraction, Gent (1958) and the Hertz model of Shore 00.
 */
export function recipeHardness(recipe: {
  readonly plasticiser: Plasticiser;
  readonly phr: number;
}): CompoundHardness {
  const inputs = {
    phr: equivalentPhr(recipe.plasticiser, recipe.phr),
    exponent: EXPONENT,
    gent: GENT_FACTOR,
  };
  const modulus = quadrature((x) => x.gent * plasticisedModulus(x.phr, x.exponent), inputs);
  const reading = quadrature(
    (x) => shore00FromModulus(Math.min(STIFFEST, (x.gent * plasticisedModulus(x.phr, x.exponent)) / x.scale)),
    { ...inputs, scale: SHORE_00_FACTOR },
    'linear',
  );
  return {
    modulus: band(modulus.value, modulus.low, modulus.high),
    shore00: onScale(reading),
  };
}

const onScale = ({ value, low, high }: Band): Band => band(value, Math.max(0, low), Math.min(100, high));

/**
 * Young's modulus that goes with a measured or stated Shore 00.
 *
 * @param shore00 - type 00 reading with its own band, 0 to 98
 * @returns Young's modulus [Pa], the ×/÷ 1.5 of the scale included
 * @throws {RangeError} outside 0 to 98
 *
 * Valid: as `shore00Modulus`.
 * Cost: five evaluations.
 * Source: own derivation from Hertz contact and ASTM D2240 type OO, ×/÷ 1.5; Gent (1958) above Shore 00 62.
 */
export function statedModulus(shore00: Band): Band {
  const { value, low, high } = quadrature(({ reading, scale }) => scale * shore00Modulus(reading), {
    reading: shore00,
    scale: SHORE_00_FACTOR,
  });
  return { value, low, high };
}
