import { positive } from '../quantity/guard.ts';
import { meanExcess } from './conduction-series.ts';

/**
 * Mean temperature of melt that stands in a cold injector.
 *
 * @param radius - of the bore [m]
 * @param diffusivity - of the compound [m²/s]
 * @param time - standing [s]
 * @param temperatures - melt as drawn and wall while wetted [K]
 * @returns mean temperature of the melt [K]
 * @throws {RangeError} when radius, diffusivity or time is not positive
 *
 * Valid: long bore, wall held at the contact temperature.
 * Cost: up to 150 terms.
 * Source: Carslaw & Jaeger (1959), 7.6, section number from memory.
 */
export function standingMeltTemperature(
  radius: number,
  diffusivity: number,
  time: number,
  temperatures: { readonly melt: number; readonly wall: number },
): number {
  positive('standingMeltTemperature: radius', radius);
  positive('standingMeltTemperature: diffusivity', diffusivity);
  const fourier = (diffusivity * positive('standingMeltTemperature: time', time)) / radius ** 2;
  return temperatures.wall + (temperatures.melt - temperatures.wall) * meanExcess('cylinder', fourier);
}

/** Something with heat in it. */
export interface HeatBody {
  /** [kg]. */
  readonly mass: number;
  /** [J/(kg·K)]. */
  readonly specificHeat: number;
  /** [K]. */
  readonly temperature: number;
}

/**
 * Temperature that two bodies come to when they share their heat.
 *
 * @param one - mass [kg], specific heat [J/(kg·K)], temperature [K]
 * @param other - the same of the other body
 * @returns common temperature [K]
 * @throws {RangeError} when a mass or specific heat is not positive
 *
 * Valid: no loss to the surroundings; for melt in an injector a bound of what it may lose.
 * Cost: constant.
 * Source: energy balance.
 */
export function sharedTemperature(one: HeatBody, other: HeatBody): number {
  const heat = ({ mass, specificHeat }: HeatBody) =>
    positive('sharedTemperature: mass', mass) * positive('sharedTemperature: specificHeat', specificHeat);
  const [a, b] = [heat(one), heat(other)];
  return (a * one.temperature + b * other.temperature) / (a + b);
}
