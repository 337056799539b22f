import { sutherlandViscosity, GAS_CONSTANT_AIR } from '../vent/air.ts';
import { positive } from '../quantity/guard.ts';

const STEFAN_BOLTZMANN = 5.670374419e-8;
const GRAVITY = 9.80665;
const SPECIFIC_HEAT_AIR = 1007;
const PRANDTL_AIR = 0.706;
const ATMOSPHERE = 101325;

/** Air at one temperature and one atmosphere. */
export interface AirProperties {
  /** k [W/(m·K)]. */
  readonly conductivity: number;
  /** ν [m²/s]. */
  readonly kinematic: number;
  /** α [m²/s]. */
  readonly diffusivity: number;
}

/**
 * Air's conductivity, kinematic viscosity and diffusivity at one atmosphere.
 *
 * @param temperature - [K]
 * @returns k [W/(m·K)], ν [m²/s], α [m²/s]; within 3 % of tables between 280 and 370 K
 * @throws {RangeError} when `temperature` is not positive and finite
 *
 * Valid: dry air, 280 to 370 K: Prandtl number 0.706 and c_p 1007 J/(kg·K) are held constant.
 * Cost: constant.
 * Source: ideal gas; Sutherland's viscosity; c_p and Pr after Incropera et al. (2007), table A.4, from memory.
 */
export function airProperties(temperature: number): AirProperties {
  const viscosity = sutherlandViscosity(temperature);
  const density = ATMOSPHERE / (GAS_CONSTANT_AIR * temperature);
  const kinematic = viscosity / density;
  return {
    conductivity: (viscosity * SPECIFIC_HEAT_AIR) / PRANDTL_AIR,
    kinematic,
    diffusivity: kinematic / PRANDTL_AIR,
  };
}

/**
 * Nusselt number of natural convection on an upright face.
 *
 * @param rayleigh - gβΔT·L³/(να) on the height L [1]
 * @param prandtl - ν/α [1]
 * @returns mean Nusselt number on L [1]
 * @throws {RangeError} when an input is not positive and finite
 *
 * Valid: Ra up to 1e12.
 * Cost: constant.
 * Source: Churchill & Chu, Int. J. Heat Mass Transfer 18 (1975) 1323, all-range form; Incropera et al. (2007), eq. 9.26,
 * number from memory.
 */
export function nusseltChurchillChu(rayleigh: number, prandtl: number): number {
  positive('nusseltChurchillChu: rayleigh', rayleigh);
  positive('nusseltChurchillChu: prandtl', prandtl);
  const damping = (1 + (0.492 / prandtl) ** (9 / 16)) ** (8 / 27);
  return (0.825 + (0.387 * rayleigh ** (1 / 6)) / damping) ** 2;
}

/**
 * Radiation as a heat transfer coefficient.
 *
 * @param surface - temperature of the surface [K]
 * @param ambient - temperature of the surroundings [K]
 * @param emissivity - of the surface [1], 0 to 1
 * @returns εσ(T_s + T_a)(T_s² + T_a²) [W/(m²·K)]
 * @throws {RangeError} when a temperature is not positive
 *
 * Valid: small grey body in large surroundings.
 * Cost: constant.
 * Source: Incropera et al. (2007), eq. 1.9, number from memory; σ from CODATA 2018.
 */
export function radiationCoefficient(surface: number, ambient: number, emissivity: number): number {
  positive('radiationCoefficient: surface', surface);
  positive('radiationCoefficient: ambient', ambient);
  return emissivity * STEFAN_BOLTZMANN * (surface + ambient) * (surface ** 2 + ambient ** 2);
}

/** How a block stands in still air. */
export interface StandingBlock {
  /** Height of its upright faces [m]. */
  readonly height: number;
  /** Surface temperature [K], above ambient. */
  readonly surface: number;
  /** Air and surroundings [K]. */
  readonly ambient: number;
  /** Of the surface [1]. */
  readonly emissivity: number;
  /** Air at the film temperature; worked out when left out. */
  readonly air?: AirProperties;
}

/** The two ways in which a block sheds heat to a room. */
export interface SurfaceLoss {
  /** [W/(m²·K)]. */
  readonly convection: number;
  /** [W/(m²·K)]. */
  readonly radiation: number;
  /** Sum of both [W/(m²·K)]. */
  readonly total: number;
}

/**
 * Coefficient by which a block standing in still air sheds heat.
 *
 * @param block - height [m], temperatures [K], emissivity [1]
 * @returns convection, radiation and their sum [W/(m²·K)]
 * @throws {RangeError} when the surface is not warmer than the air or the height is not positive
 *
 * Valid: still air, all faces taken as upright; conduction into a bench or clamp comes on top, a fan multiplies it.
 * Cost: constant.
 * Source: Churchill & Chu (1975); linearised radiation, Incropera et al. (2007), eq. 1.9, number from memory.
 */
export function blockLoss(block: StandingBlock): SurfaceLoss {
  const excess = positive('blockLoss: surface − ambient', block.surface - block.ambient);
  const height = positive('blockLoss: height', block.height);
  const film = (block.surface + block.ambient) / 2;
  const air = block.air ?? airProperties(film);
  const rayleigh = ((GRAVITY / film) * excess * height ** 3) / (air.kinematic * air.diffusivity);
  const nusselt = nusseltChurchillChu(rayleigh, air.kinematic / air.diffusivity);
  const convection = (nusselt * air.conductivity) / height;
  const radiation = radiationCoefficient(block.surface, block.ambient, block.emissivity);
  return { convection, radiation, total: convection + radiation };
}
