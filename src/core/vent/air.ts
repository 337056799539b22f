import { positive } from '../quantity/guard.ts';

/** Specific gas constant of dry air [J/(kg·K)]. Source: ideal gas, M = 28.965 g/mol. */
export const GAS_CONSTANT_AIR = 287.05;

/** Ratio of specific heats of air [1]. Source: diatomic gas. */
export const HEAT_RATIO_AIR = 1.4;

/** Mean free path of air at room temperature and one atmosphere [m]. Source: kinetic theory, from memory. */
export const FREE_PATH_AIR = 6.8e-8;

/**
 * Viscosity of air.
 *
 * @param temperature - [K]
 * @returns dynamic viscosity [Pa·s]; 0.4 to 1.2 % below the reference equation between 20 and 180 °C
 * @throws {RangeError} when `temperature` is not positive and finite
 *
 * Valid: 170 to 1900 K, moderate pressure.
 * Cost: constant.
 * Source: Sutherland (1893), constants as in White, Viscous Fluid Flow, table 1-2, from memory.
 */
export function sutherlandViscosity(temperature: number): number {
  positive('sutherlandViscosity: temperature', temperature);
  return (1.716e-5 * (temperature / 273.15) ** 1.5 * (273.15 + 110.4)) / (temperature + 110.4);
}

/**
 * Gain of a fine slot's flow from slip at its walls.
 *
 * @param depth - of the slot [m]
 * @param freePath - mean free path of the gas [m]
 * @returns factor on the flow [1], 1 or more
 * @throws {RangeError} when an input is not positive
 *
 * Valid: Knudsen numbers below 0.1.
 * Cost: constant.
 * Source: first-order slip after Maxwell, 1 + 6·Kn, from memory.
 */
export function slipGain(depth: number, freePath: number = FREE_PATH_AIR): number {
  return 1 + (6 * positive('slipGain: freePath', freePath)) / positive('slipGain: depth', depth);
}
