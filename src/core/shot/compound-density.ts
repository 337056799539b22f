import { band, quadrature, type Band } from '../quantity/band.ts';
import type { Source } from '../quantity/figure.ts';
import { need, needNonNegative, needPositive } from '../quantity/guard.ts';
import { MICROBALLOONS, PLASTICISERS, RESIN, SALT, type Recipe } from './constituents.ts';

/** Part of a mixture: mass fraction [1] and density [kg/m³]. */
export interface MassPart {
  readonly fraction: number;
  readonly density: number;
}

/** Trapped air takes up to 2 % off the rule of mixtures; contraction on mixing adds up to 2 %. */
export const MIXING_BAND: Band = band(1, 0.98, 1.02);

/** Density at 175 °C over density at 20 °C: volumetric expansion of 5 to 8·10⁻⁴ 1/K over 155 K. */
export const HOT_RATIO: Band = band(0.9, 0.89, 0.93);

/** Where densities of compounds come from. */
export const DENSITY_SOURCES: readonly Source[] = [
  RESIN.source,
  {
    title: 'Rule of mixtures by volume; −2 % for trapped air, +2 % for contraction on mixing',
    kind: 'published',
    note: 'contraction from memory; soft PVC gel measured at 1.00 ± 0.04 g/cm³ by Spirou et al., Phys. Med. Biol. 50 (2005) N141',
  },
];

/** Where the hot density comes from. */
export const HOT_RATIO_SOURCE: Source = {
  title: 'Volumetric expansion of flexible PVC, 5 to 8·10⁻⁴ 1/K, over 155 K',
  kind: 'published',
  note: 'plasticiser’s part from memory; no value found for a soft compound',
};

/**
 * Density of a mixture whose volumes add.
 *
 * @param parts - mass fractions [1], adding up to 1, and densities [kg/m³]
 * @returns density [kg/m³]
 * @throws {RangeError} when a density is not positive or the fractions do not add up to 1 within 1e-9
 *
 * Valid: no contraction on mixing, no trapped air.
 * Cost: linear in the number of parts.
 * Source: rule of mixtures, 1/ρ = Σ wᵢ/ρᵢ; definition of density with additive volumes.
 */
export function mixtureDensity(parts: readonly MassPart[]): number {
  const total = parts.reduce((sum, { fraction }) => sum + fraction, 0);
  need(Math.abs(total - 1) < 1e-9, 'mixtureDensity', 'fractions that add up to 1', total);
  for (const part of parts) needPositive('mixtureDensity', { density: part.density });
  return 1 / parts.reduce((sum, { fraction, density }) => sum + fraction / density, 0);
}

/**
 * Mass fraction of resin in resin and plasticiser.
 *
 * @param phr - parts of plasticiser to a hundred of resin, by mass, 0 or more
 * @returns mass fraction [1]
 * @throws {RangeError} when `phr` is negative or not finite
 *
 * Cost: constant.
 * Source: definition of phr, w = 100/(100 + phr).
 */
export function resinMassFraction(phr: number): number {
  needNonNegative('resinMassFraction', { phr });
  return 100 / (100 + phr);
}

/**
 * Volume fraction of resin in resin and plasticiser.
 *
 * @param phr - parts of plasticiser to a hundred of resin, by mass
 * @param plasticiserDensity - [kg/m³]
 * @returns volume fraction [1]
 * @throws {RangeError} when `phr` is negative or the density is not positive
 *
 * Valid: additive volumes.
 * Cost: constant.
 * Source: rule of mixtures; resin 1400 kg/m³ from Titow, PVC Technology, 4th ed. (1984), App. 1.
 */
export function resinVolumeFraction(phr: number, plasticiserDensity: number): number {
  needPositive('resinVolumeFraction', { plasticiserDensity });
  const mass = resinMassFraction(phr);
  const resin = mass / RESIN.density.value;
  return resin / (resin + (1 - mass) / plasticiserDensity);
}

function recipeParts(recipe: Recipe, microballoonDensity: number): MassPart[] {
  const base = 1 - recipe.salt - recipe.microballoons;
  const resin = resinMassFraction(recipe.phr);
  return [
    { fraction: base * resin, density: RESIN.density.value },
    { fraction: base * (1 - resin), density: PLASTICISERS[recipe.plasticiser].density.value },
    { fraction: recipe.salt, density: SALT.density.value },
    { fraction: recipe.microballoons, density: microballoonDensity },
  ];
}

/**
 * Cured density of a compound at 20 °C from its recipe.
 *
 * @param recipe - plasticiser, phr, mass fractions [1] of salt and microspheres
 * @returns density band [kg/m³]: −2 % for air, +2 % for contraction, and the spread of microsphere grades
 * @throws {RangeError} when salt and microspheres leave nothing for the compound
 *
 * Valid: fully fused, fillers evenly spread.
 * Cost: five evaluations of the rule.
 * Source: rule of mixtures; densities in `constituents.ts`, each with its own source.
 */
export function compoundDensity(recipe: Recipe): Band {
  need(
    recipe.salt >= 0 && recipe.microballoons >= 0 && recipe.salt + recipe.microballoons < 1,
    'compoundDensity',
    'salt and microballoons of 0 or more that add up to less than 1',
    `${recipe.salt} and ${recipe.microballoons}`,
  );
  const { value, low, high } = quadrature(
    ({ mixing, spheres }) => mixing * mixtureDensity(recipeParts(recipe, spheres)),
    { mixing: MIXING_BAND, spheres: MICROBALLOONS.density },
  );
  return { value, low, high };
}

/**
 * Density of the melt at pouring heat from the cured density.
 *
 * @param cured - at 20 °C [kg/m³]
 * @returns density band at about 175 °C [kg/m³]
 * @throws {RangeError} when the cured density is not positive
 *
 * Valid: 160 to 185 °C.
 * Cost: constant.
 * Source: volumetric expansion of flexible PVC 5 to 8·10⁻⁴ 1/K over 155 K: ratio 0.89 / 0.90 / 0.93.
 */
export function hotDensity(cured: Band): Band {
  const { value, low, high } = quadrature(({ rho, ratio }) => rho * ratio, { rho: cured, ratio: HOT_RATIO });
  return { value, low, high };
}

/**
 * Mass fraction of a filler that brings a base to a target density.
 *
 * @param base - density without the filler [kg/m³]
 * @param filler - density of the filler [kg/m³]
 * @param target - density wanted, between the two [kg/m³]
 * @returns mass fraction of filler in the whole [1]
 * @throws {RangeError} when the target does not lie between base and filler
 *
 * Valid: additive volumes.
 * Cost: constant.
 * Source: rule of mixtures solved for the fraction, w = (1/ρt − 1/ρb)/(1/ρf − 1/ρb).
 */
export function fillerMassFraction(base: number, filler: number, target: number): number {
  needPositive('fillerMassFraction', { base, filler, target });
  need(
    base !== filler && (target - base) * (target - filler) <= 0,
    'fillerMassFraction',
    `a target between ${base} and ${filler} kg/m³`,
    target,
  );
  return (1 / target - 1 / base) / (1 / filler - 1 / base);
}

/**
 * Density of a compound with a filler stirred in.
 *
 * @param base - density without it [kg/m³]
 * @param filler - density of the filler [kg/m³]
 * @param fraction - mass fraction of the filler in the whole [1], 0 to below 1
 * @returns density band [kg/m³]
 * @throws {RangeError} when the fraction is negative or reaches 1
 *
 * Valid: additive volumes, filler evenly spread.
 * Cost: five evaluations of the rule.
 * Source: rule of mixtures, 1/ρ = Σ wᵢ/ρᵢ.
 */
export function filledDensity(base: Band, filler: Band, fraction: number): Band {
  need(fraction >= 0 && fraction < 1, 'filledDensity', 'a mass fraction from 0 to below 1', fraction);
  const { value, low, high } = quadrature(
    (x) =>
      mixtureDensity([
        { fraction: 1 - fraction, density: x.base },
        { fraction, density: x.filler },
      ]),
    { base, filler },
  );
  return { value, low, high };
}
