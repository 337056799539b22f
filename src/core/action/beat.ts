import { needNonNegative, needPositive } from '../quantity/guard.ts';

/** Square of the first root of cos β·cosh β = −1: first mode of a cantilever [1]. */
const FIRST_MODE = 1.8751040687 ** 2;

/** Strouhal number of vortex shedding behind a blunt body [1]; about 0.2, from memory. */
export const STROUHAL = 0.2;

/** A strip that swings in water: sizes [m], Young's modulus [Pa], densities of plastic and water [kg/m³]. */
export interface SwingingStrip {
  readonly length: number;
  readonly width: number;
  readonly thickness: number;
  readonly modulus: number;
  readonly density: number;
  readonly water: number;
}

/**
 * Mass of water that swings along with each metre of a strip.
 *
 * @param width - across the motion [m]
 * @param water - density [kg/m³]
 * @returns added mass [kg/m]
 * @throws {RangeError} when a number is not positive
 *
 * Valid: strip longer than wide, small swing.
 * Cost: constant.
 * Source: πρH²/4 of a slender strip; M. J. Lighthill, J. Fluid Mech. 9 (1960) 305, from memory.
 */
export function addedMass(width: number, water: number): number {
  needPositive('addedMass', { width, water });
  return (water * Math.PI * width ** 2) / 4;
}

/**
 * Frequency at which a strip held at its root swings by itself in water.
 *
 * @param strip - sizes [m], modulus [Pa], densities [kg/m³]; `water` 0 stands for air
 * @returns first natural frequency [Hz]
 * @throws {RangeError} when a size, the modulus or the plastic's density is not positive
 *
 * Valid: even strip, small swing, little damping.
 * Cost: constant.
 * Source: first mode of a cantilever, (3.51602/2π)·√(EI/(m + mₐ))/L²; Young & Budynas, Roark's Formulas, 7th ed. (2002), from memory.
 */
export function wetFrequency({ water, ...strip }: SwingingStrip): number {
  needPositive('wetFrequency', { ...strip });
  needNonNegative('wetFrequency', { water });
  const { length, width, thickness, modulus, density } = strip;
  const rigidity = (modulus * width * thickness ** 3) / 12;
  const mass = density * width * thickness + (water > 0 ? addedMass(width, water) : 0);
  return ((FIRST_MODE / (2 * Math.PI)) * Math.sqrt(rigidity / mass)) / length ** 2;
}

/**
 * Frequency at which eddies leave a body and push what trails behind it.
 *
 * @param speed - [m/s]
 * @param size - of the body across the stream [m]
 * @returns frequency [Hz]
 * @throws {RangeError} when the size is not positive or the speed is negative
 *
 * Valid: Reynolds number of 300 to 200 000.
 * Cost: constant.
 * Source: Strouhal's law f = St·U/d with St ≈ 0.2; Blevins, Flow-Induced Vibration, 2nd ed. (1990), from memory.
 */
export function forcingFrequency(speed: number, size: number): number {
  needPositive('forcingFrequency', { size });
  needNonNegative('forcingFrequency', { speed });
  return (STROUHAL * speed) / size;
}
