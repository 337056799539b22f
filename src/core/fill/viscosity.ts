import { positive } from '../quantity/guard.ts';

/** Molar gas constant [J/(mol·K)]. Source: CODATA 2018, exact. */
export const GAS_CONSTANT = 8.31446261815324;

/** Viscosity of a melt over temperature. */
export interface MeltViscosity {
  /** At the reference temperature [Pa·s]. */
  readonly reference: number;
  /** Reference temperature [K]. */
  readonly at: number;
  /** Activation energy [J/mol]. */
  readonly activation: number;
}

/**
 * Viscosity of a melt at a temperature.
 *
 * @param melt - reference viscosity [Pa·s] at a temperature [K], activation energy [J/mol]
 * @param temperature - [K]
 * @returns viscosity [Pa·s]
 * @throws {RangeError} when viscosity or a temperature is not positive
 *
 * Valid: above the no-flow temperature; shear thinning neglected, which is on the safe side for filling.
 * Cost: constant.
 * Source: Arrhenius law; Osswald & Hernández-Ortiz, Polymer Processing (2006), from memory.
 */
export function arrheniusViscosity(melt: MeltViscosity, temperature: number): number {
  positive('arrheniusViscosity: temperature', temperature);
  positive('arrheniusViscosity: at', melt.at);
  const reference = positive('arrheniusViscosity: reference', melt.reference);
  return reference * Math.exp((melt.activation / GAS_CONSTANT) * (1 / temperature - 1 / melt.at));
}

/** A viscosity measured at a temperature; any unit of viscosity, [K]. */
export interface ViscosityPoint {
  readonly viscosity: number;
  readonly temperature: number;
}

/**
 * Activation energy between two measured viscosities.
 *
 * @param one - viscosity [Pa·s] at a temperature [K]
 * @param other - the same at another temperature
 * @returns activation energy [J/mol]
 * @throws {RangeError} when an input is not positive or the temperatures are equal
 *
 * Cost: constant.
 * Source: Arrhenius law; Osswald & Hernández-Ortiz (2006), from memory.
 */
export function activationEnergy(one: ViscosityPoint, other: ViscosityPoint): number {
  const step = 1 / positive('activationEnergy: temperature', one.temperature) - 1 / other.temperature;
  if (step === 0)
    throw new RangeError(`activationEnergy: wants two temperatures, got ${one.temperature} twice`);
  const ratio = positive('activationEnergy: viscosity', one.viscosity) / other.viscosity;
  return (GAS_CONSTANT * Math.log(positive('activationEnergy: ratio', ratio))) / step;
}

/**
 * Ratio of viscosities by the free-volume law with universal constants.
 *
 * @param glass - glass transition temperature [K]
 * @param one - temperature of the numerator [K]
 * @param other - temperature of the denominator [K]
 * @returns μ(one)/μ(other) [1]
 * @throws {RangeError} when a temperature lies more than 50 K below the glass transition
 *
 * Valid: from the glass transition to about 100 K above it; beyond that Arrhenius is usual.
 * Cost: constant.
 * Source: Williams, Landel & Ferry, J. Am. Chem. Soc. 77 (1955) 3701: 17.44 and 51.6 K, from memory.
 */
export function freeVolumeRatio(glass: number, one: number, other: number): number {
  const shift = (temperature: number) => {
    const above = temperature - glass;
    positive('freeVolumeRatio: temperature − glass + 51.6', above + 51.6);
    return (-17.44 * above) / (51.6 + above);
  };
  return 10 ** (shift(one) - shift(other));
}

/** A volume timed through a heated round tube. */
export interface TubeTiming {
  /** Radius of the bore [m]. */
  readonly radius: number;
  /** Length of the bore [m]. */
  readonly length: number;
  /** Pressure along it [Pa]. */
  readonly pressure: number;
  /** Time taken [s]. */
  readonly time: number;
  /** Volume that came out [m³]. */
  readonly volume: number;
}

/**
 * Viscosity from a timed volume through a heated tube.
 *
 * @param run - bore [m], pressure [Pa], time [s], volume [m³]
 * @returns viscosity [Pa·s]
 * @throws {RangeError} when an input is not positive
 *
 * Valid: laminar, long tube, tube as hot as the melt.
 * Cost: constant.
 * Source: Hagen–Poiseuille.
 */
export function tubeViscosity(run: TubeTiming): number {
  for (const [name, value] of Object.entries(run)) positive(`tubeViscosity: ${name}`, value);
  return (Math.PI * run.radius ** 4 * run.pressure * run.time) / (8 * run.length * run.volume);
}
