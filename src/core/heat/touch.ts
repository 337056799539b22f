import { between } from '../quantity/guard.ts';
import { interpolate } from '../numeric/root.ts';

const KELVIN = 273.15;

/** Lower burn thresholds of bare smooth metal: contact time [s] and temperature [°C]. */
const METAL_SECONDS = [1, 10, 60, 600, 28800];
const METAL_LOW = [65, 55, 51, 48, 43];

/**
 * Lowest temperature of bare smooth metal at which healthy adult skin may burn.
 *
 * @param time - of contact [s], 1 s to 8 h
 * @returns temperature [K], the lower end where the standard gives a spread
 * @throws {RangeError} when `time` is outside 1 s … 28 800 s
 *
 * Valid: healthy adults, uncoated metal. Between the tabulated times linear in log t (own interpolation).
 * Cost: constant.
 * Source: ISO 13732-1:2006, burn thresholds for bare smooth metal, from memory.
 */
export function metalTouchThreshold(time: number): number {
  between('metalTouchThreshold: time', time, 1, 28800);
  return KELVIN + interpolate(METAL_SECONDS.map(Math.log), METAL_LOW, Math.log(time));
}

/** The two threshold curves of ASTM C1055. */
export interface BurnThresholds {
  /** Outer skin destroyed through its depth [K]. */
  readonly transepidermal: number;
  /** Reversible injury [K]. */
  readonly reversible: number;
}

/**
 * Skin burn thresholds after contact of a given time.
 *
 * @param time - of contact [s], 1 to 600
 * @returns temperatures of the surface [K]
 * @throws {RangeError} when `time` is outside 1 s … 600 s
 *
 * Valid: 1 to 600 s.
 * Cost: constant.
 * Source: ASTM C1055, equations 1 and 2, coefficients from memory; skin data after Henriques & Moritz (1947).
 */
export function skinBurnThresholds(time: number): BurnThresholds {
  between('skinBurnThresholds: time', time, 1, 600);
  const x = Math.log(1000 * time);
  return {
    transepidermal: KELVIN + 15.005 + 0.51907 * x + 352.97 / x,
    reversible: KELVIN + 39.468 - 0.41352 * x + 190.6 / x,
  };
}

/**
 * Temperature up to which a bare metal surface may be touched for a given time: the lowest of the published
 * thresholds.
 *
 * @param time - of contact [s], 1 to 600
 * @returns temperature [K]
 * @throws {RangeError} when `time` is outside 1 s … 600 s
 *
 * Valid: healthy adult skin; children and the elderly need lower ones.
 * Cost: constant.
 * Source: the lower of ISO 13732-1:2006 and ASTM C1055, both from memory.
 */
export function touchSafeTemperature(time: number): number {
  return Math.min(metalTouchThreshold(time), skinBurnThresholds(time).reversible);
}

/** Effusivity of human skin: low, nominal, high [W·√s/(m²·K)]. Source: review in Burns 43 (2017) 909, table 3. */
export const SKIN_EFFUSIVITY = { value: 1229, low: 981, high: 1594 } as const;
