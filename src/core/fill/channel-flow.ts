import { positive } from '../quantity/guard.ts';

/** Area and resistance to laminar flow, a metre of channel at 1 Pa·s. */
export interface ChannelSection {
  /** [m²]. */
  readonly area: number;
  /** Pressure gradient over viscosity and volume flow [1/m⁴]. */
  readonly drag: number;
}

/**
 * Wide flat slot.
 *
 * @param width - [m]
 * @param height - the gap [m]
 * @returns area [m²] and drag 12/(wh³) [1/m⁴]
 * @throws {RangeError} when a measure is not positive
 *
 * Valid: laminar, width well above height.
 * Cost: constant.
 * Source: White, Viscous Fluid Flow, ch. 3, from memory.
 */
export function slotSection(width: number, height: number): ChannelSection {
  positive('slotSection: width', width);
  positive('slotSection: height', height);
  return { area: width * height, drag: 12 / (width * height ** 3) };
}

/**
 * Round channel.
 *
 * @param radius - [m]
 * @returns area [m²] and drag 8/(πR⁴) [1/m⁴]
 * @throws {RangeError} when the radius is not positive
 *
 * Valid: laminar.
 * Cost: constant.
 * Source: Hagen–Poiseuille; White, Viscous Fluid Flow, ch. 3, from memory.
 */
export function roundSection(radius: number): ChannelSection {
  positive('roundSection: radius', radius);
  return { area: Math.PI * radius ** 2, drag: 8 / (Math.PI * radius ** 4) };
}

/**
 * Elliptic channel.
 *
 * @param a - one semi-axis [m]
 * @param b - the other semi-axis [m]
 * @returns area [m²] and drag 4(a² + b²)/(πa³b³) [1/m⁴]
 * @throws {RangeError} when a semi-axis is not positive
 *
 * Valid: laminar.
 * Cost: constant.
 * Source: White, Viscous Fluid Flow, ch. 3; Shah & London, Laminar Flow Forced Convection in Ducts (1978), from memory.
 */
export function ellipseSection(a: number, b: number): ChannelSection {
  positive('ellipseSection: a', a);
  positive('ellipseSection: b', b);
  return { area: Math.PI * a * b, drag: (4 * (a * a + b * b)) / (Math.PI * (a * b) ** 3) };
}

/**
 * Share of the slot's flow that a rectangle of finite width carries.
 *
 * @param aspect - height over width [1], above 0 up to 1
 * @returns factor on wh³/12 [1]
 * @throws {RangeError} when `aspect` is not in (0, 1]
 *
 * Valid: laminar.
 * Cost: 60 terms; error within 1e-12.
 * Source: Shah & London (1978); White, Viscous Fluid Flow, ch. 3, from memory.
 */
export function rectangleFactor(aspect: number): number {
  positive('rectangleFactor: aspect', aspect);
  if (aspect > 1) throw new RangeError(`rectangleFactor: wants aspect up to 1, got ${aspect}`);
  let sum = 0;
  for (let n = 1; n < 240; n += 2) sum += Math.tanh((n * Math.PI) / (2 * aspect)) / n ** 5;
  return 1 - ((192 * aspect) / Math.PI ** 5) * sum;
}

/**
 * Rectangular channel.
 *
 * @param width - one side [m]
 * @param height - the other side [m]
 * @returns area [m²] and drag [1/m⁴]
 * @throws {RangeError} when a side is not positive
 *
 * Valid: laminar.
 * Cost: as `rectangleFactor`.
 * Source: Shah & London (1978); White, Viscous Fluid Flow, ch. 3, from memory.
 */
export function rectangleSection(width: number, height: number): ChannelSection {
  positive('rectangleSection: width', width);
  positive('rectangleSection: height', height);
  const [small, large] = [Math.min(width, height), Math.max(width, height)];
  const slot = slotSection(large, small);
  return { area: slot.area, drag: slot.drag / rectangleFactor(small / large) };
}

/**
 * Friction constant of a rectangular channel.
 *
 * @param aspect - height over width [1], above 0 up to 1
 * @returns Fanning friction factor times Reynolds number on the hydraulic diameter [1]: 24 for a slot, 14.227 for a
 *   square
 * @throws {RangeError} when `aspect` is not in (0, 1]
 *
 * Valid: laminar, fully developed.
 * Cost: as `rectangleFactor`.
 * Source: Shah & London (1978), exact series, from memory.
 */
export function rectangleFriction(aspect: number): number {
  return 24 / (rectangleFactor(aspect) * (1 + aspect) ** 2);
}

/**
 * Resistance of a tapered round channel, such as a sprue.
 *
 * @param mouth - radius at one end [m]
 * @param end - radius at the other end [m]
 * @param length - [m]
 * @returns ∫drag ds [1/m³]; times viscosity and flow it is the pressure drop [Pa]
 * @throws {RangeError} when a measure is not positive
 *
 * Valid: laminar, gentle taper.
 * Cost: constant.
 * Source: Hagen–Poiseuille integrated over a cone (own derivation).
 */
export function coneDrag(mouth: number, end: number, length: number): number {
  const [a, b] = [positive('coneDrag: mouth', mouth), positive('coneDrag: end', end)];
  const mean = (a * a + a * b + b * b) / (3 * (a * b) ** 3);
  return ((8 * positive('coneDrag: length', length)) / Math.PI) * mean;
}
