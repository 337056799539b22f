import { between, positive } from '../quantity/guard.ts';
import { erf, erfc, erfInverse } from '../numeric/error-function.ts';
import { bisect } from '../numeric/root.ts';

/**
 * Stefan's root for one phase: the front stands at 2λ√(αt).
 *
 * @param stefan - c·(T_melting − T_wall)/L [1]
 * @returns λ [1]
 * @throws {RangeError} when `stefan` is not positive and finite
 *
 * Valid: semi-infinite body at its melting point, wall at constant temperature.
 * Cost: 60 halvings.
 * Source: Carslaw & Jaeger (1959), ch. 11; Alexiades & Solomon, Mathematical Modeling of Melting and Freezing
 * Processes (1993), 2.1; from memory.
 */
export function stefanRoot(stefan: number): number {
  positive('stefanRoot: stefan', stefan);
  return bisect((x) => x * Math.exp(x * x) * erf(x) - stefan / Math.sqrt(Math.PI), 0, 6);
}

/**
 * Neumann's root for two phases: the front stands at 2λ√(α_solid·t).
 *
 * @param solid - c_S·(T_melting − T_wall)/L [1]
 * @param liquid - c_L·(T_far − T_melting)/L [1], 0 or more
 * @param diffusivityRatio - √(α_solid/α_liquid) [1]
 * @returns λ [1]
 * @throws {RangeError} when an input is not positive and finite (`liquid` may be 0)
 *
 * Valid: semi-infinite body, constant properties in each phase.
 * Cost: 60 halvings.
 * Source: Carslaw & Jaeger (1959), ch. 11; Alexiades & Solomon (1993), 2.2; from memory.
 */
export function neumannRoot(solid: number, liquid: number, diffusivityRatio: number): number {
  positive('neumannRoot: solid', solid);
  positive('neumannRoot: diffusivityRatio', diffusivityRatio);
  between('neumannRoot: liquid', liquid, 0, Number.MAX_VALUE);
  const balance = (x: number) => {
    const y = diffusivityRatio * x;
    const given = liquid / (diffusivityRatio * Math.exp(y * y) * erfc(y));
    return x * Math.sqrt(Math.PI) + given - solid / (Math.exp(x * x) * erf(x));
  };
  return bisect(balance, 1e-9, 5);
}

/**
 * Dimensionless no-flow temperature: how far the melt may cool before it stops.
 *
 * @param noFlow - temperature below which it does not flow [K]
 * @param contact - temperature of the wetted wall [K]
 * @param melt - temperature of the melt [K]
 * @returns (T_noFlow − T_contact)/(T_melt − T_contact) [1]; 0 or less when the wall is too warm to freeze it, 1 or
 *   more when the melt is too cold to flow
 * @throws {RangeError} when the melt is not hotter than the wall
 *
 * Cost: constant.
 * Source: definition; no-flow temperature after Kennedy, Flow Analysis of Injection Molds (1995), from memory.
 */
export function noFlowFraction(noFlow: number, contact: number, melt: number): number {
  if (!(melt > contact))
    throw new RangeError(`noFlowFraction: wants melt above contact ${contact}, got ${melt}`);
  return (noFlow - contact) / (melt - contact);
}

/**
 * Thickness of the skin that no longer flows, on one wall.
 *
 * @param theta - dimensionless no-flow temperature [1], 0 to 1
 * @param diffusivity - α [m²/s]
 * @param time - since the wall was wetted [s]
 * @returns depth [m]
 * @throws {RangeError} when `theta` is not between 0 and 1 or the rest is not positive
 *
 * Valid: no latent heat; while the skin is thin against the gap.
 * Cost: constant.
 * Source: Carslaw & Jaeger (1959), ch. 2 and 11: Neumann's solution without latent heat; from memory.
 */
export function skinDepth(theta: number, diffusivity: number, time: number): number {
  between('skinDepth: theta', theta, 0, 1 - 1e-12);
  const reach = positive('skinDepth: diffusivity', diffusivity) * positive('skinDepth: time', time);
  return 2 * erfInverse(theta) * Math.sqrt(reach);
}
