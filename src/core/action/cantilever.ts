import { need, needPositive } from '../quantity/guard.ts';

/** An even cantilever strip: length, width and thickness [m], Young's modulus [Pa]. */
export interface EvenStrip {
  readonly length: number;
  readonly width: number;
  readonly thickness: number;
  readonly modulus: number;
}

const rigidity = ({ width, thickness, modulus }: EvenStrip): number =>
  (modulus * width * thickness ** 3) / 12;

/**
 * Tip deflection of a cantilever under a force at its tip.
 *
 * @param strip - sizes [m] and modulus [Pa]
 * @param force - at the tip, across the strip [N]
 * @returns deflection [m]
 * @throws {RangeError} when a size is not positive
 *
 * Valid: deflection below a fifth of the length.
 * Cost: constant.
 * Source: Young & Budynas, Roark's Formulas for Stress and Strain, 7th ed. (2002), δ = FL³/3EI, from memory.
 */
export function tipLoadDeflection(strip: EvenStrip, force: number): number {
  needPositive('tipLoadDeflection', { ...strip });
  return (force * strip.length ** 3) / (3 * rigidity(strip));
}

/**
 * Tip deflection of a cantilever under an even load.
 *
 * @param strip - sizes [m] and modulus [Pa]
 * @param load - force on each metre of length [N/m]
 * @returns deflection [m]
 * @throws {RangeError} when a size is not positive
 *
 * Valid: deflection below a fifth of the length.
 * Cost: constant.
 * Source: Young & Budynas, Roark's Formulas for Stress and Strain, 7th ed. (2002), δ = qL⁴/8EI, from memory.
 */
export function evenLoadDeflection(strip: EvenStrip, load: number): number {
  needPositive('evenLoadDeflection', { ...strip });
  return (load * strip.length ** 4) / (8 * rigidity(strip));
}

/**
 * Bending stiffness of a plate.
 *
 * @param modulus - Young's modulus [Pa]
 * @param thickness - [m]
 * @param poisson - Poisson's ratio [1], 0 to 0.5; rubber keeps its volume
 * @returns stiffness D for each metre of width [N·m]
 * @throws {RangeError} when modulus or thickness is not positive or the ratio is out of range
 *
 * Valid: thickness well under the other sizes.
 * Cost: constant.
 * Source: D = E·t³/12(1−ν²), Young & Budynas, Roark's Formulas, 7th ed. (2002), from memory.
 */
export function plateStiffness(modulus: number, thickness: number, poisson = 0.5): number {
  needPositive('plateStiffness', { modulus, thickness });
  need(poisson >= 0 && poisson <= 0.5, 'plateStiffness', 'a Poisson ratio of 0 to 0.5', poisson);
  return (modulus * thickness ** 3) / (12 * (1 - poisson ** 2));
}
