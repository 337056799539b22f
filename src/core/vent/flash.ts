import { between, positive } from '../quantity/guard.ts';
import { erfInverse } from '../numeric/error-function.ts';
import { bisect } from '../numeric/root.ts';

/** Melt that stands before a vent. */
export interface VentMelt {
  /** Gauge pressure at the vent [Pa]; the full injection pressure is the worst case. */
  readonly pressure: number;
  /** Viscosity [Pa·s]. */
  readonly viscosity: number;
  /** α [m²/s]. */
  readonly diffusivity: number;
  /** Dimensionless no-flow temperature [1], 0 to 1. */
  readonly theta: number;
  /** Melt to metal [W/(m²·K)]. */
  readonly contact: number;
  /** ρ·c of the melt [J/(m³·K)]. */
  readonly heatCapacity: number;
}

/** Times after which a vent has frozen shut. */
export interface VentFreeze {
  /** By conduction alone [s]. */
  readonly conduction: number;
  /** What the contact resistance adds [s]. */
  readonly contact: number;
}

/**
 * Time until the melt in a vent no longer flows.
 *
 * @param depth - of the vent [m]
 * @param melt - diffusivity [m²/s], θ [1], contact [W/(m²·K)], ρc [J/(m³·K)]
 * @returns conduction and contact parts [s]
 * @throws {RangeError} when an input is not positive or θ is not between 0 and 1
 *
 * Valid: skins grown from both walls into a core that stays at melt temperature; the two parts simply add (estimate).
 * Cost: constant.
 * Source: t = d²/(16η²α), η = erf⁻¹θ, from Carslaw & Jaeger (1959), ch. 2, from memory; contact part as a lumped film
 * (own derivation).
 */
export function ventFreezeTime(depth: number, melt: VentMelt): VentFreeze {
  positive('ventFreezeTime: depth', depth);
  between('ventFreezeTime: theta', melt.theta, 1e-9, 1 - 1e-9);
  const eta = erfInverse(melt.theta);
  const conduction = depth ** 2 / (16 * eta ** 2 * positive('ventFreezeTime: diffusivity', melt.diffusivity));
  const film = (positive('ventFreezeTime: heatCapacity', melt.heatCapacity) * depth) / 2;
  const contact = (film / positive('ventFreezeTime: contact', melt.contact)) * Math.log(1 / melt.theta);
  return { conduction, contact };
}

/**
 * How far melt enters a vent before it freezes.
 *
 * @param depth - of the vent [m]
 * @param melt - pressure [Pa], viscosity [Pa·s] and thermal properties
 * @returns length of the flash [m]
 * @throws {RangeError} when an input is not positive or θ is not between 0 and 1
 *
 * Valid: contact resistance included; full pressure held at the vent; uniform closing of the wetted length.
 * Cost: constant.
 * Source: x = d·√(P·t/(60μ)), own derivation from plane Poiseuille flow in a closing slot.
 */
export function flashLength(depth: number, melt: VentMelt): number {
  const { conduction, contact } = ventFreezeTime(depth, melt);
  const drive =
    positive('flashLength: pressure', melt.pressure) / positive('flashLength: viscosity', melt.viscosity);
  return depth * Math.sqrt((drive * (conduction + contact)) / 60);
}

/**
 * Depth of vent through which flash would run the whole land.
 *
 * @param land - length of the vent in the direction of flow [m]
 * @param melt - as `flashLength`
 * @returns depth [m]
 * @throws {RangeError} when an input is not positive or θ is not between 0 and 1
 *
 * Valid: as `flashLength`.
 * Cost: 60 halvings.
 * Source: inverse of `flashLength`.
 */
export function flashThroughDepth(land: number, melt: VentMelt): number {
  positive('flashThroughDepth: land', land);
  let high = 1e-6;
  while (flashLength(high, melt) < land) high *= 2;
  return bisect((depth) => flashLength(depth, melt) - land, high / 1024, high);
}

/**
 * Ratio of vent depths that flash alike under other conditions.
 *
 * @param known - pressure [Pa] and viscosity [Pa·s] for which a depth is known
 * @param wanted - pressure [Pa] and viscosity [Pa·s] for which it is wanted
 * @returns wanted over known depth [1]
 * @throws {RangeError} when an input is not positive
 *
 * Valid: freezing by conduction alone, equal θ and α.
 * Cost: constant.
 * Source: x ∝ d²·√(P/μ), own derivation.
 */
export function similarDepthRatio(
  known: Pick<VentMelt, 'pressure' | 'viscosity'>,
  wanted: Pick<VentMelt, 'pressure' | 'viscosity'>,
): number {
  const stiff = (melt: Pick<VentMelt, 'pressure' | 'viscosity'>) =>
    positive('similarDepthRatio: viscosity', melt.viscosity) /
    positive('similarDepthRatio: pressure', melt.pressure);
  return (stiff(wanted) / stiff(known)) ** 0.25;
}
