import { positive } from '../quantity/guard.ts';
import { GAS_CONSTANT_AIR, HEAT_RATIO_AIR, slipGain, sutherlandViscosity } from './air.ts';

/** One fine slot. */
export interface VentSlot {
  /** Cut into the parting face [m]. */
  readonly depth: number;
  /** Across the flow [m]. */
  readonly width: number;
  /** Length in the direction of flow [m]. */
  readonly land: number;
}

function checked(name: string, slot: VentSlot): VentSlot {
  positive(`${name}: depth`, slot.depth);
  positive(`${name}: width`, slot.width);
  positive(`${name}: land`, slot.land);
  return slot;
}

/**
 * Resistance of a slot to slow air.
 *
 * @param slot - depth, width, land [m]
 * @param temperature - of the air [K]
 * @returns pressure drop over volume flow [Pa·s/m³]
 * @throws {RangeError} when a measure or the temperature is not positive
 *
 * Valid: laminar, pressure drop small against one atmosphere, no slip (see `slipGain`).
 * Cost: constant.
 * Source: plane Poiseuille flow; White, Viscous Fluid Flow, ch. 3, from memory.
 */
export function airResistance(slot: VentSlot, temperature: number): number {
  const { depth, width, land } = checked('airResistance', slot);
  return (12 * sutherlandViscosity(temperature) * land) / (width * depth ** 3);
}

/**
 * Width of slots needed so that a fill rate builds up no more than an allowed pressure.
 *
 * @param flow - air to be pushed out [m³/s]
 * @param allowed - back-pressure allowed [Pa]
 * @param slot - depth and land [m]
 * @param temperature - of the air [K]
 * @returns total width of all slots [m]
 * @throws {RangeError} when an input is not positive
 *
 * Valid: as `airResistance`.
 * Cost: constant.
 * Source: inverse of plane Poiseuille flow.
 */
export function ventWidthNeeded(
  flow: number,
  allowed: number,
  slot: Pick<VentSlot, 'depth' | 'land'>,
  temperature: number,
): number {
  const perMetre = airResistance({ ...slot, width: 1 }, temperature);
  return (perMetre * positive('ventWidthNeeded: flow', flow)) / positive('ventWidthNeeded: allowed', allowed);
}

/** Pressures at the two ends of a slot, and the air's temperature. */
export interface AirState {
  /** Before the slot [Pa]. */
  readonly inside: number;
  /** After it [Pa]. */
  readonly outside: number;
  /** [K]. */
  readonly temperature: number;
}

/**
 * Mass flow of air through a slot, compressible and viscous.
 *
 * @param slot - depth, width, land [m]
 * @param air - absolute pressures [Pa] and temperature [K]
 * @returns mass flow [kg/s]
 * @throws {RangeError} when an input is not positive
 *
 * Valid: isothermal, laminar, inertia neglected: compare `chokedMassFlow` and take the smaller.
 * Cost: constant.
 * Source: isothermal lubrication flow of an ideal gas; White, Viscous Fluid Flow, from memory.
 */
export function isothermalMassFlow(slot: VentSlot, air: AirState): number {
  const { depth, width, land } = checked('isothermalMassFlow', slot);
  positive('isothermalMassFlow: outside', air.outside);
  const drive = positive('isothermalMassFlow: inside', air.inside) ** 2 - air.outside ** 2;
  const drag = 24 * sutherlandViscosity(air.temperature) * GAS_CONSTANT_AIR * air.temperature * land;
  return (width * depth ** 3 * drive) / drag;
}

/** Outlet over inlet pressure below which air runs at the speed of sound [1]. Source: isentropic nozzle, γ = 1.4. */
export const CRITICAL_RATIO = (2 / (HEAT_RATIO_AIR + 1)) ** (HEAT_RATIO_AIR / (HEAT_RATIO_AIR - 1));

/**
 * Largest mass flow of air through an opening, at the speed of sound.
 *
 * @param area - of the opening [m²]
 * @param pressure - absolute, before it [Pa]
 * @param temperature - before it [K]
 * @returns mass flow [kg/s]
 * @throws {RangeError} when an input is not positive
 *
 * Valid: ideal gas, no friction: an upper bound.
 * Cost: constant.
 * Source: isentropic nozzle; White, Fluid Mechanics, ch. 9, from memory.
 */
export function chokedMassFlow(area: number, pressure: number, temperature: number): number {
  positive('chokedMassFlow: area', area);
  positive('chokedMassFlow: temperature', temperature);
  const gamma = HEAT_RATIO_AIR;
  const shape = (2 / (gamma + 1)) ** ((gamma + 1) / (2 * (gamma - 1)));
  const density =
    positive('chokedMassFlow: pressure', pressure) * Math.sqrt(gamma / (GAS_CONSTANT_AIR * temperature));
  return area * density * shape;
}

/** Mass flow through a slot and what limits it. */
export interface VentFlow {
  /** [kg/s]. */
  readonly mass: number;
  readonly limit: 'friction' | 'speed of sound';
  /** On twice the depth [1]; friction law holds below about 2000. */
  readonly reynolds: number;
}

/**
 * Mass flow of air through a slot: friction with slip, capped by the speed of sound.
 *
 * @param slot - depth, width, land [m]
 * @param air - absolute pressures [Pa] and temperature [K]
 * @returns mass flow [kg/s], what limits it, Reynolds number [1]
 * @throws {RangeError} when an input is not positive
 *
 * Valid: Knudsen number below 0.1; Reynolds number below 2000 where friction limits.
 * Cost: constant.
 * Source: as `isothermalMassFlow`, `chokedMassFlow`, `slipGain`.
 */
export function ventMassFlow(slot: VentSlot, air: AirState): VentFlow {
  const friction = isothermalMassFlow(slot, air) * slipGain(slot.depth);
  const sonic = chokedMassFlow(slot.depth * slot.width, air.inside, air.temperature);
  const mass = Math.min(friction, sonic);
  const reynolds = (2 * mass) / (slot.width * sutherlandViscosity(air.temperature));
  return { mass, limit: friction <= sonic ? 'friction' : 'speed of sound', reynolds };
}
