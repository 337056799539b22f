import { needNonNegative, needPositive } from '../quantity/guard.ts';
import { integral, running, sampled, type Strip } from './strip.ts';

/** Strouhal number of vortex shedding behind a blunt body [1]; about 0.2, from memory. */
export const STROUHAL = 0.2;

/** A thin part that swings in water: shape [m], Young's modulus [Pa], densities of plastic and water [kg/m³]. */
export interface SwingingPart {
  readonly strip: Strip;
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

/** Integral from each place to the tip. */
const fromTip = (values: readonly number[], step: number): number[] =>
  running([...values].reverse(), step).reverse();

/** Most rounds of the iteration; the second mode dies out by a factor of 8 or more in each. */
const ROUNDS = 40;

/**
 * Frequency at which a thin part held at its root swings by itself in water.
 *
 * @param part - thickness and width from root to tip [m], modulus [Pa], densities [kg/m³]; `water` 0 stands for air
 * @returns first natural frequency [Hz]
 * @throws {RangeError} when a size, the modulus or the plastic's density is not positive
 *
 * Valid: small swing, little damping, longer than wide; any taper whose tip is not a point. An even strip gives
 * (3.51602/2π)·√(EI/(m + mₐ))/L².
 * Cost: some ten rounds of 240 steps, about 0.1 ms.
 * Source: Stodola's iteration with Rayleigh's quotient ω² = ∫EIy''²ds/∫(m + mₐ)y²ds; S. Timoshenko, Vibration Problems
 * in Engineering, 2nd ed. (1937), from memory; added mass as `addedMass`.
 */
export function wetFrequency({ strip, modulus, density, water }: SwingingPart): number {
  needPositive('wetFrequency', { modulus, density });
  needNonNegative('wetFrequency', { water });
  const { step, thickness, width } = sampled('wetFrequency', strip);
  const mass = width.map((b, i) => density * b * thickness[i]! + (water > 0 ? addedMass(b, water) : 0));
  const rigidity = width.map((b, i) => (modulus * b * thickness[i]! ** 3) / 12);
  let shape = width.map((_, i) => (i / (width.length - 1)) ** 2);
  let square = 0;
  for (let round = 0; round < ROUNDS; round++) {
    const force = fromTip(
      mass.map((m, i) => m * shape[i]!),
      step,
    );
    const curvature = fromTip(force, step).map((moment, i) => moment / rigidity[i]!);
    const swung = running(running(curvature, step), step);
    const bent = integral(
      curvature.map((k, i) => rigidity[i]! * k * k),
      step,
    );
    const next =
      bent /
      integral(
        mass.map((m, i) => m * swung[i]! ** 2),
        step,
      );
    const settled = Math.abs(next - square) <= 1e-13 * next;
    square = next;
    if (settled) break;
    shape = swung.map((y) => y / swung.at(-1)!);
  }
  return Math.sqrt(square) / (2 * Math.PI);
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
