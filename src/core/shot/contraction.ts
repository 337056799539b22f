import { meanExcess } from '../heat/conduction-series.ts';
import { rectangleCoolingTime } from '../heat/cooling-time.ts';
import { band, type Band } from '../quantity/band.ts';
import { need, needNonNegative, needPositive } from '../quantity/guard.ts';

/**
 * Share of its volume that a melt loses while it cools.
 *
 * @param expansion - volumetric expansion [1/K]
 * @param drop - temperature fall [K], 0 or more
 * @returns contraction as a share of the warmer volume [1]
 * @throws {RangeError} when either is negative
 *
 * Valid: constant expansion coefficient, no change of phase.
 * Cost: constant.
 * Source: definition of the coefficient, V_warm/V_cool = 1 + βΔT.
 */
export function volumetricContraction(expansion: number, drop: number): number {
  needNonNegative('volumetricContraction', { expansion, drop });
  return 1 - 1 / (1 + expansion * drop);
}

/**
 * Share of its length that a part loses while it cools freely.
 *
 * @param expansion - volumetric expansion [1/K]
 * @param drop - temperature fall after the gate has shut [K], 0 or more
 * @returns contraction as a share of the warmer length [1]
 * @throws {RangeError} when either is negative
 *
 * Valid: the same in every direction.
 * Cost: constant.
 * Source: cube root of the volumetric contraction.
 */
export function linearContraction(expansion: number, drop: number): number {
  return 1 - Math.cbrt(1 - volumetricContraction(expansion, drop));
}

/** The temperatures that decide how much is drawn in, all on one scale [K]. */
export interface TopOffTemperatures {
  readonly pour: number;
  readonly noFlow: number;
  readonly mold: number;
}

/** A gate's section and the body behind it [m]. */
export interface GateAndBody {
  readonly gateWidth: number;
  readonly gateDepth: number;
  /** Diameter of the thickest section of the bait. */
  readonly bodyDiameter: number;
}

/**
 * How far the mean temperature of a bait has fallen when its gate shuts.
 *
 * Gate and body start to cool together; the gate shuts when its centre reaches the no-flow temperature. The
 * diffusivity cancels, so only the two sections and the three temperatures count.
 *
 * @param temperatures - pour, no-flow and mold [K]
 * @param sections - gate width and depth, body diameter [m]
 * @returns fall of the body's mean temperature [K], never more than down to the no-flow temperature
 * @throws {RangeError} when a length is not positive or mold < no-flow < pour is broken
 *
 * Valid: gate and body walls held at the mold's temperature; body taken as a long cylinder; the gate's one-term
 * form needs a no-flow temperature well below the pour.
 * Cost: one series.
 * Source: Carslaw & Jaeger, Conduction of Heat in Solids, 2nd ed. (1959), 5.6 and 7.6, section numbers from memory.
 */
export function gateShutDrop(temperatures: TopOffTemperatures, sections: GateAndBody): number {
  const { pour, noFlow, mold } = temperatures;
  const { gateWidth, gateDepth, bodyDiameter } = sections;
  needPositive('gateShutDrop', { gateWidth, gateDepth, bodyDiameter });
  need(
    mold < noFlow && noFlow < pour,
    'gateShutDrop',
    'mold < no-flow < pour',
    `${mold}, ${noFlow}, ${pour} K`,
  );
  // With a diffusivity of 1 m²/s the time is αt itself, and only the Fourier number of the body is wanted.
  const cooling = { diffusivity: 1, melt: pour, mold, eject: noFlow };
  const shut = rectangleCoolingTime(gateWidth, gateDepth, cooling);
  if (!(shut > 0)) return 0;
  const excess = meanExcess('cylinder', shut / (bodyDiameter / 2) ** 2);
  return Math.min(pour - noFlow, (pour - mold) * (1 - excess));
}

/**
 * Top-off: hot melt that thermal contraction draws into a full cavity while the gate is open, as a share of
 * the cavity.
 *
 * @param expansion - volumetric expansion [1/K]
 * @param drop - fall of the bait's mean temperature until the gate shuts, from `gateShutDrop` [K]
 * @param largestDrop - pour less no-flow temperature: nothing moves below it [K]
 * @returns share [1]: 0 when no pressure is held, `expansion`·`drop`, at most fed down to no-flow
 * @throws {RangeError} when a number is negative or the drop exceeds the largest
 *
 * Valid: walls rigid, plunger kept under pressure.
 * Cost: constant.
 * Source: mass balance of a cavity of fixed volume, (ρ_after − ρ_before)/ρ_before = βΔT; own derivation.
 */
export function topOffShare(expansion: Band, drop: number, largestDrop: number): Band {
  needNonNegative('topOffShare', { expansion: expansion.low, drop });
  need(drop <= largestDrop, 'topOffShare', `a drop of at most ${largestDrop} K`, drop);
  return band(expansion.value * drop, 0, expansion.high * largestDrop);
}
