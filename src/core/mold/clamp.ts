import { band, type Band } from '../quantity/band.ts';
import { need, needNonNegative, needPositive } from '../quantity/guard.ts';

/**
 * Pressure under a plunger.
 *
 * @param force - on the plunger [N]
 * @param piston - diameter [m]
 * @returns pressure [Pa]
 * @throws {RangeError} when either is not positive
 *
 * Valid: no friction of the piston.
 * Cost: constant.
 * Source: definition, P = F/(πd²/4).
 */
export function plungerPressure(force: number, piston: number): number {
  needPositive('plungerPressure', { force, piston });
  return force / ((Math.PI * piston ** 2) / 4);
}

/**
 * Pressure band of a hand injector.
 *
 * @param piston - diameter [m]
 * @param force - of the hand [N]: gentle, usual, leaning on it
 * @returns pressure band [Pa]
 * @throws {RangeError} when the diameter or the force is not positive
 *
 * Cost: constant.
 * Source: definition, P = F/A.
 */
export function handPressure(piston: number, force: Band): Band {
  const at = (newtons: number) => plungerPressure(newtons, piston);
  return band(at(force.value), at(force.low), at(force.high));
}

/**
 * Force that holds a mold shut: full pressure over all of the plan, with a factor.
 *
 * @param pressure - in the full cavity [Pa]
 * @param area - of cavities and channels seen on the parting plane [m²]
 * @param factor - over the opening force [1], 1 or more
 * @returns force [N]
 * @throws {RangeError} when an input is negative or the factor is below 1
 *
 * Valid: static pressure reaches everywhere once the mold is full.
 * Cost: constant.
 * Source: F = ∫P dA ≤ P·A; the factor of 1.5 is common practice.
 */
export function clampForce(pressure: number, area: number, factor: number): number {
  needNonNegative('clampForce', { pressure, area });
  need(factor >= 1 && factor < Infinity, 'clampForce', 'a factor of 1 or more', factor);
  return pressure * area * factor;
}

/**
 * Opening force while a slot fills: pressure falls evenly from gate to front.
 *
 * @param pressure - at the gate [Pa]
 * @param area - wetted, on the parting plane [m²]
 * @returns force [N]
 * @throws {RangeError} when either is negative
 *
 * Valid: even gap, filled from one end.
 * Cost: constant.
 * Source: mean of a linear fall, P/2.
 */
export function fillingForce(pressure: number, area: number): number {
  return clampForce(pressure, area, 1) / 2;
}

/**
 * Clamping force of a tightened screw.
 *
 * @param torque - on the screw [N·m]
 * @param diameter - nominal [m]
 * @param nutFactor - 0.2 for dry steel [1]
 * @returns axial force [N], ±30 %
 * @throws {RangeError} when an input is not positive
 *
 * Cost: constant.
 * Source: F = T/(K·d), Shigley's Mechanical Engineering Design, from memory.
 */
export function screwForce(torque: number, diameter: number, nutFactor = 0.2): number {
  needPositive('screwForce', { torque, diameter, nutFactor });
  return torque / (nutFactor * diameter);
}

/** A square thread: mean diameter and lead [m], friction coefficient [1]. */
export interface SquareThread {
  readonly meanDiameter: number;
  readonly lead: number;
  readonly friction: number;
}

/**
 * Clamping force of a C-clamp's screw.
 *
 * @param torque - on the screw [N·m]
 * @param thread - mean diameter, lead [m], friction [1]
 * @returns axial force [N]
 * @throws {RangeError} when an input is not positive
 *
 * Valid: square thread, friction of the swivel ignored.
 * Cost: constant.
 * Source: raising torque of a power screw, Shigley's Mechanical Engineering Design, ch. 8, from memory.
 */
export function powerScrewForce(torque: number, thread: SquareThread): number {
  const { meanDiameter, lead, friction } = thread;
  needPositive('powerScrewForce', { torque, meanDiameter, lead, friction });
  const turn = Math.PI * meanDiameter;
  return (2 * torque * (turn - friction * lead)) / (meanDiameter * (lead + friction * turn));
}

/**
 * How many times a pair of toggle links multiplies the push on its knee.
 *
 * @param angle - of a link from the straight line [rad], above 0 and below π/2
 * @returns force along the line over force on the knee [1]
 * @throws {RangeError} outside 0 to π/2
 *
 * Valid: no friction, rigid links.
 * Cost: constant.
 * Source: equilibrium of the knee, cot(angle)/2.
 */
export function toggleMultiplier(angle: number): number {
  need(angle > 0 && angle < Math.PI / 2, 'toggleMultiplier', 'an angle between 0 and π/2', angle);
  return 1 / (2 * Math.tan(angle));
}
