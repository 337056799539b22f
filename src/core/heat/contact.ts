import { positive } from '../quantity/guard.ts';

/**
 * Thermal effusivity: how much heat a material gives to what it touches.
 *
 * @param conductivity - k [W/(m·K)]
 * @param density - ρ [kg/m³]
 * @param specificHeat - c [J/(kg·K)]
 * @returns √(kρc) [W·√s/(m²·K)]
 * @throws {RangeError} when a value is not positive and finite
 *
 * Cost: constant.
 * Source: Carslaw & Jaeger (1959), 2.15, section number from memory.
 */
export function effusivity(conductivity: number, density: number, specificHeat: number): number {
  positive('effusivity: conductivity', conductivity);
  positive('effusivity: density', density);
  return Math.sqrt(conductivity * density * positive('effusivity: specificHeat', specificHeat));
}

/** A body that touches another. */
export interface ContactSide {
  /** √(kρc) [W·√s/(m²·K)]. */
  readonly effusivity: number;
  /** Before they touch [K]. */
  readonly temperature: number;
}

/**
 * Temperature that two bodies take where they touch.
 *
 * @param one - effusivity [W·√s/(m²·K)] and temperature [K]
 * @param other - the same of the other body
 * @returns temperature of the interface [K]
 * @throws {RangeError} when an effusivity is not positive and finite
 *
 * Valid: perfect contact, while both stay thick against √(αt).
 * Cost: constant.
 * Source: Carslaw & Jaeger (1959), 2.15, section number from memory.
 */
export function contactTemperature(one: ContactSide, other: ContactSide): number {
  const e1 = positive('contactTemperature: effusivity', one.effusivity);
  const e2 = positive('contactTemperature: effusivity', other.effusivity);
  return (e1 * one.temperature + e2 * other.temperature) / (e1 + e2);
}
