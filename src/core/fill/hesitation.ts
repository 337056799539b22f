import { positive } from '../quantity/guard.ts';
import { freezeConstant, freezeReach } from './freeze-constant.ts';
import { closing } from './open-fraction.ts';

/** A thin branch off a thick body that is still filling. */
export interface Branch {
  /** Gap at the root of the branch [m]. */
  readonly gap: number;
  /** Resistance of the body from the branch to its far end, a pascal second of viscosity [1/m³]. */
  readonly bodyDrag: number;
  /** Volume of the body still to fill when the front passes the branch [m³]. */
  readonly bodyVolume: number;
  /** Fill rate [m³/s]. */
  readonly flow: number;
  /** Of the melt [Pa·s]. */
  readonly viscosity: number;
  /** α [m²/s]. */
  readonly diffusivity: number;
  /** Dimensionless no-flow temperature [1], 0.005 to 0.985. */
  readonly theta: number;
}

/** Whether a branch freezes before the body is full. */
export interface Hesitation {
  /** Largest pressure at the branch while the body fills [Pa]. */
  readonly pressure: number;
  /** Time the body takes to fill from there [s]. */
  readonly bodyTime: number;
  /** Time in which still melt at the root of the branch freezes through [s]. */
  readonly freezeTime: number;
  /** Most that the melt creeps into the branch meanwhile [m]. */
  readonly creep: number;
  /** True when the root freezes first: it will not fill, whatever its length. */
  readonly freezesFirst: boolean;
}

/**
 * Time in which still melt in a slot freezes through.
 *
 * @param gap - [m]
 * @param diffusivity - α [m²/s]
 * @param theta - dimensionless no-flow temperature [1], 0.005 to 0.985
 * @returns time [s]
 * @throws {RangeError} when an input is out of range
 *
 * Valid: both walls held at the contact temperature.
 * Cost: as `closing`.
 * Source: Carslaw & Jaeger (1959), 3.3, section number from memory.
 */
export function slotFreezeTime(gap: number, diffusivity: number, theta: number): number {
  const scale =
    positive('slotFreezeTime: gap', gap) ** 2 / (4 * positive('slotFreezeTime: diffusivity', diffusivity));
  return closing('slot', theta).shut * scale;
}

/**
 * What becomes of a thin branch while the thick body beyond it fills.
 *
 * @param branch - gap [m], body's drag [1/m³] and volume [m³], flow [m³/s], melt
 * @returns pressure at the branch [Pa], times [s], creep [m], and whether it freezes first
 * @throws {RangeError} when an input is not positive or θ out of range
 *
 * Valid: the branch takes little of the flow; its pressure is the body's loss when the body is nearly full (high end).
 * Cost: about 5 ms.
 * Source: Poiseuille flow and conduction (own derivation); the effect is described in any text on mold filling.
 */
export function branchHesitation(branch: Branch): Hesitation {
  positive('branchHesitation: bodyDrag', branch.bodyDrag);
  positive('branchHesitation: flow', branch.flow);
  const pressure = positive('branchHesitation: viscosity', branch.viscosity) * branch.bodyDrag * branch.flow;
  const bodyTime = positive('branchHesitation: bodyVolume', branch.bodyVolume) / branch.flow;
  const freezeTime = slotFreezeTime(branch.gap, branch.diffusivity, branch.theta);
  const creep = freezeReach(freezeConstant('slot', branch.theta), branch.gap, { ...branch, pressure });
  return { pressure, bodyTime, freezeTime, creep, freezesFirst: bodyTime >= freezeTime };
}
