import { between, positive } from '../quantity/guard.ts';
import { slipGain } from './air.ts';
import { airResistance, type VentSlot } from './slot-flow.ts';

/** Standard atmosphere: absolute pressure outside [Pa]. Source: ISO 2533. */
export const ATMOSPHERE = 101325;

/** Equal slots side by side; tiers follow one another from the cavity outwards. */
export interface VentTier extends VentSlot {
  /** How many [1]. */
  readonly count: number;
}

/**
 * Resistance of equal slots side by side, slip at the walls included.
 *
 * @param tier - measures [m] and count [1]
 * @param temperature - of the air [K]
 * @returns [Pa·s/m³]
 * @throws {RangeError} when a measure, the count or the temperature is not positive
 *
 * Valid: as `airResistance`; Knudsen number below 0.1.
 * Cost: constant.
 * Source: plane Poiseuille flow, resistances in parallel; slip as `slipGain`.
 */
export function tierResistance(tier: VentTier, temperature: number): number {
  return (
    airResistance(tier, temperature) / (slipGain(tier.depth) * positive('tierResistance: count', tier.count))
  );
}

/**
 * Resistances in parallel.
 *
 * @param resistances - one or more [Pa·s/m³]
 * @returns 1/Σ(1/R) [Pa·s/m³]
 * @throws {RangeError} when one is not positive and finite
 *
 * Cost: linear.
 * Source: flows add at equal pressure.
 */
export function parallelResistance(resistances: readonly number[]): number {
  return (
    1 /
    resistances.reduce(
      (sum, resistance) => sum + 1 / positive('parallelResistance: resistance', resistance),
      0,
    )
  );
}

/** What each tier adds to the way out. */
export interface VentPath {
  /** All tiers in series [Pa·s/m³]. */
  readonly total: number;
  /** Each tier's share of `total` [1], in the order given. */
  readonly shares: readonly number[];
}

/**
 * Resistance of the whole way out: tiers in series, slots of a tier in parallel.
 *
 * @param tiers - from the cavity outwards, one or more
 * @param temperature - of the air [K]
 * @returns total [Pa·s/m³] and shares [1]
 * @throws {RangeError} when there is no tier, or as `tierResistance`
 *
 * Valid: as `tierResistance`.
 * Cost: linear.
 * Source: pressures add at equal flow.
 */
export function ventPath(tiers: readonly VentTier[], temperature: number): VentPath {
  between('ventPath: tiers', tiers.length, 1, 100);
  const parts = tiers.map((tier) => tierResistance(tier, temperature));
  const total = parts.reduce((sum, part) => sum + part, 0);
  return { total, shares: parts.map((part) => part / total) };
}

/**
 * Pressure that the air builds up before the melt at a fill rate.
 *
 * @param resistance - of the way out [Pa·s/m³]
 * @param flow - fill rate [m³/s]
 * @param atmosphere - absolute pressure outside [Pa]
 * @returns gauge pressure [Pa]
 * @throws {RangeError} when an input is negative or not finite
 *
 * Valid: laminar; the air expands on its way out, so the result is above R·Q where that is not small against
 * one atmosphere.
 * Cost: constant.
 * Source: isothermal lubrication flow: (P₁² − P₂²)/(2P₁) = R·Q with Q at the inner pressure (own rearrangement).
 */
export function backPressure(resistance: number, flow: number, atmosphere = ATMOSPHERE): number {
  between('backPressure: resistance', resistance, 0, Number.MAX_VALUE);
  between('backPressure: flow', flow, 0, Number.MAX_VALUE);
  const drop = resistance * flow;
  return drop + Math.sqrt(drop * drop + positive('backPressure: atmosphere', atmosphere) ** 2) - atmosphere;
}
