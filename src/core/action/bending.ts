import { needNonNegative, needPositive } from '../quantity/guard.ts';

/** Drag coefficient of a flat strip square to the flow [1]: long plate; Hoerner, Fluid-Dynamic Drag (1965), from memory. */
export const STRIP_DRAG = 1.95;

/** Cauchy number at which the straight-line theory lays the strip over by its own length: it folds back. */
export const FOLDING_CAUCHY = 8;

/** A strip in a stream: how far it bends under its own modulus (`stripLimpness` [1]), modulus [Pa], water [kg/m³]. */
export interface BendingStrip {
  readonly limpness: number;
  readonly modulus: number;
  readonly water: number;
}

/**
 * Cauchy number of a strip held across a stream: drag over bending stiffness.
 *
 * @param strip - limpness [1], Young's modulus [Pa], density of the water [kg/m³]
 * @param speed - of the water past it [m/s]
 * @returns Cauchy number [1]; below 1 the strip stays stiff, above 10 it folds back; tip over length is an eighth of it
 * @throws {RangeError} when a number is not positive, or the speed is negative
 *
 * Valid: drag coefficient 1.95; an even strip gives ½ρU²·C_D·b·L³/(EI).
 * Cost: constant.
 * Source: E. de Langre, Annu. Rev. Fluid Mech. 40 (2008) 141; M. Luhar & H. Nepf, Limnol. Oceanogr. 56 (2011) 2003, from memory.
 */
export function cauchyNumber(strip: BendingStrip, speed: number): number {
  needPositive('cauchyNumber', { ...strip });
  needNonNegative('cauchyNumber', { speed });
  return (8 * 0.5 * strip.water * speed ** 2 * STRIP_DRAG * strip.limpness) / strip.modulus;
}

/**
 * Speed at which a strip reaches a Cauchy number.
 *
 * @param strip - limpness [1], Young's modulus [Pa], density of the water [kg/m³]
 * @param cauchy - Cauchy number [1]; 8 lays the strip over
 * @returns speed [m/s]
 * @throws {RangeError} when a number is not positive
 *
 * Cost: constant.
 * Source: `cauchyNumber`, solved for the speed.
 */
export function bendingSpeed(strip: BendingStrip, cauchy: number = FOLDING_CAUCHY): number {
  needPositive('bendingSpeed', { ...strip, cauchy });
  return Math.sqrt((cauchy * strip.modulus) / (4 * strip.water * STRIP_DRAG * strip.limpness));
}
