import { figure, figureInput, type Figure } from '../core/quantity/figure.ts';
import { band, type Band } from '../core/quantity/band.ts';
import { HARDNESS_SOURCES, recipeHardness, statedModulus } from '../core/hardness/compound-hardness.ts';
import type { Plastisol } from '../schema/collections.ts';
import type { Case } from './case.ts';

/** Young's modulus of a compound, from its stated hardness or its recipe [Pa]. */
export function compoundModulus({ hardness, recipe }: Plastisol): Band {
  return hardness ? statedModulus(hardness) : recipeHardness(recipe).modulus;
}

/** Figures of the compound: hardness and stiffness. */
export function compoundFigures({ plastisol }: Case): Figure[] {
  const { recipe, hardness } = plastisol;
  const typical = recipeHardness(recipe);
  const shore = hardness ?? typical.shore00;
  const modulus = compoundModulus(plastisol);
  const sources = hardness ? [hardness.source] : [...HARDNESS_SOURCES, recipe.source];
  const inputs = hardness ? [] : [figureInput('plasticiser to a hundred of resin', band(recipe.phr), '1')];
  return [
    figure(
      {
        key: 'compound.hardness',
        label: 'Hardness',
        unit: '{Shore00}',
        basis: hardness
          ? 'Stated for this compound.'
          : 'Typical of its recipe; salt and microballoons are not counted. Measure your own.',
        formula: hardness ? '' : 'E = E₀·(φ/φ₀)ⁿ, then Shore 00 from E',
        inputs,
        sources,
      },
      shore,
    ),
    figure(
      {
        key: 'compound.modulus',
        label: 'Stiffness (Young’s modulus)',
        unit: 'kPa',
        basis: 'Goes with the hardness; bends with the cube of thickness and in proportion to this.',
        formula: hardness ? 'E from Shore 00' : 'E = E₀·(φ/φ₀)ⁿ',
        inputs,
        sources: hardness ? [hardness.source, ...HARDNESS_SOURCES] : sources,
      },
      modulus,
    ),
  ];
}
