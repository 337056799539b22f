import { positive } from '../quantity/guard.ts';
import { closing, openFraction, type Closing, type ClosingLaw } from './open-fraction.ts';

const STEPS = 240;

/** Exponent of the open share in the conductance, and the factor of the closed form K² = J/factor. */
const LAWS: Record<ClosingLaw, { readonly power: number; readonly factor: number }> = {
  slot: { power: 3, factor: 24 },
  'fresh core': { power: 3, factor: 24 },
  round: { power: 4, factor: 4 },
};

/**
 * Freeze-off constant when the whole wetted length is taken to be as old as the gate: the low end.
 *
 * @param law - how the section closes
 * @param theta - dimensionless no-flow temperature [1], 0.005 to 0.985
 * @returns K of x = K·h²·√(P/(μα)) for a slot of gap h, x = K·R²·√(P/(μα)) for a round channel [1]
 * @throws {RangeError} when `theta` is outside 0.005 … 0.985
 *
 * Valid: constant pressure, uniform section; within 0.1 %.
 * Cost: table of `closing` and 241 look-ups.
 * Source: own derivation: K² = ∫s³dFo/24 (slot), ∫s⁴dFo/4 (round).
 */
export function freezeConstantUniform(law: ClosingLaw, theta: number): number {
  const table = closing(law, theta);
  const { power, factor } = LAWS[law];
  let sum = 0;
  for (let i = 0; i < STEPS; i++) {
    // Steps even in √Fo, where the open share is smooth.
    const [a, b] = [i / STEPS, (i + 1) / STEPS];
    const value = (z: number) => openFraction(table, z * z * table.shut) ** power * 2 * z;
    sum += ((value(a) + 4 * value((a + b) / 2) + value(b)) / 6 / STEPS) * table.shut;
  }
  return Math.sqrt(sum / factor);
}

/** Reach in units of the scale of K, marching in √Fo; every wetted stretch closes from its own time. */
function marchOwnAge(table: Closing): number {
  const { power, factor } = LAWS[table.law];
  const at = (i: number) => (i / STEPS) ** 2 * table.shut;
  const middles = new Float64Array(STEPS);
  const lengths = new Float64Array(STEPS);
  let reach = 0;
  for (let j = 1; j <= STEPS; j++) {
    const now = (at(j - 1) + at(j)) / 2;
    let drag = 0;
    for (let i = 0; i < j - 1; i++) drag += lengths[i]! / openFraction(table, now - middles[i]!) ** power;
    const span = at(j) - at(j - 1);
    // speed·(drag + speed·span/2) = 1/(2·factor): the stretch being filled counts half.
    const speed = 2 / factor / 2 / (drag + Math.sqrt(drag * drag + span / factor));
    if (!(speed > 0)) break;
    middles[j - 1] = now;
    lengths[j - 1] = speed * span;
    reach += speed * span;
  }
  return reach;
}

/**
 * Freeze-off constant when every wetted stretch closes from the time at which the front passed it.
 *
 * @param law - how the section closes; `slot` is the nominal one, `fresh core` the high end
 * @param theta - dimensionless no-flow temperature [1], 0.005 to 0.985
 * @returns K of x = K·h²·√(P/(μα)) for a slot of gap h, x = K·R²·√(P/(μα)) for a round channel [1]
 * @throws {RangeError} when `theta` is outside 0.005 … 0.985
 *
 * Valid: constant pressure, uniform section; within 0.5 %.
 * Cost: table of `closing` and 29 000 look-ups, about 1 ms.
 * Source: own derivation: front speed × ∫dx/s³ = const, solved by marching.
 */
export function freezeConstant(law: ClosingLaw, theta: number): number {
  return marchOwnAge(closing(law, theta));
}

/** What drives a front and what stops it. */
export interface Drive {
  /** At the root [Pa]. */
  readonly pressure: number;
  /** Of the melt [Pa·s]. */
  readonly viscosity: number;
  /** α [m²/s]. */
  readonly diffusivity: number;
}

/**
 * Distance at which a front freezes off in a uniform slot or round channel at constant pressure.
 *
 * @param constant - K from `freezeConstant` [1]
 * @param size - gap of the slot or radius of the round channel [m]
 * @param drive - pressure [Pa], viscosity [Pa·s], diffusivity [m²/s]
 * @returns K·size²·√(P/(μα)) [m]
 * @throws {RangeError} when an input is not positive
 *
 * Valid: as `freezeConstant`.
 * Cost: constant.
 * Source: own derivation.
 */
export function freezeReach(constant: number, size: number, drive: Drive): number {
  positive('freezeReach: size', size);
  const ratio =
    positive('freezeReach: pressure', drive.pressure) / positive('freezeReach: viscosity', drive.viscosity);
  return constant * size ** 2 * Math.sqrt(ratio / positive('freezeReach: diffusivity', drive.diffusivity));
}

/**
 * Viscosity from how far a short shot got in a uniform slot.
 *
 * @param constant - K from `freezeConstant` [1]
 * @param gap - of the slot [m]
 * @param reach - measured length of the short shot [m]
 * @param drive - pressure [Pa] and diffusivity [m²/s]
 * @returns viscosity [Pa·s]
 * @throws {RangeError} when an input is not positive
 *
 * Valid: as `freezeConstant`.
 * Cost: constant.
 * Source: inverse of `freezeReach`.
 */
export function shortShotViscosity(
  constant: number,
  gap: number,
  reach: number,
  drive: Pick<Drive, 'pressure' | 'diffusivity'>,
): number {
  const scale =
    (constant * positive('shortShotViscosity: gap', gap) ** 2) / positive('shortShotViscosity: reach', reach);
  const ratio =
    positive('shortShotViscosity: pressure', drive.pressure) /
    positive('shortShotViscosity: diffusivity', drive.diffusivity);
  return scale ** 2 * ratio;
}

/**
 * Distance of a front at constant pressure when nothing freezes.
 *
 * @param shape - slot or round channel
 * @param size - gap of the slot or radius of the round channel [m]
 * @param drive - pressure [Pa] and viscosity [Pa·s]
 * @param time - since it entered [s]
 * @returns h√(Pt/6μ) for a slot, R√(Pt/4μ) for a round channel [m]
 * @throws {RangeError} when an input is not positive
 *
 * Valid: laminar, uniform section.
 * Cost: constant.
 * Source: Poiseuille flow with a moving front; White, Viscous Fluid Flow, ch. 3, from memory.
 */
export function hotFront(
  shape: 'slot' | 'round',
  size: number,
  drive: Pick<Drive, 'pressure' | 'viscosity'>,
  time: number,
): number {
  const push =
    (positive('hotFront: pressure', drive.pressure) * positive('hotFront: time', time)) /
    positive('hotFront: viscosity', drive.viscosity);
  return positive('hotFront: size', size) * Math.sqrt(push / (shape === 'slot' ? 6 : 4));
}
