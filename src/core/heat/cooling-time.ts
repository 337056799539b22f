import { besselJ0Zeros } from '../numeric/bessel.ts';
import { positive, rising } from '../quantity/guard.ts';
import { interpolate } from '../numeric/root.ts';
import type { SimpleShape } from './conduction-series.ts';

/** What cools, from what to what. */
export interface Cooling {
  /** Diffusivity of the compound [m²/s]. */
  readonly diffusivity: number;
  /** Temperature of the melt [K]. */
  readonly melt: number;
  /** Temperature of the mold's surface, mid-cycle [K]. */
  readonly mold: number;
  /** Temperature to which it has to cool [K]. */
  readonly eject: number;
}

/** Factors of the one-term forms: t = D²/(decay·α)·ln(first·θ). */
export interface CoolingConstants {
  /** 4·λ₁², on the full thickness or diameter [1]. */
  readonly decay: number;
  /** First coefficient at the middle [1]. */
  readonly centre: number;
  /** First coefficient of the mean [1]. */
  readonly mean: number;
}

/**
 * Constants of the one-term cooling times on the full thickness or diameter.
 *
 * @param shape - slab, long cylinder or sphere
 * @returns decay 4λ₁², coefficients at the middle and in the mean [1]
 *
 * Cost: constant.
 * Source: Ballman & Shusman, Modern Plastics (1959); Menges, Michaeli & Mohren, How to Make Injection Molds, 3rd ed.
 * (2001); from memory; constants from the series of Carslaw & Jaeger (1959).
 */
export function coolingConstants(shape: SimpleShape): CoolingConstants {
  const squared = Math.PI ** 2;
  if (shape === 'slab') return { decay: squared, centre: 4 / Math.PI, mean: 8 / squared };
  if (shape === 'sphere') return { decay: 4 * squared, centre: 2, mean: 6 / squared };
  const { root, slope } = besselJ0Zeros(1)[0]!;
  return { decay: 4 * root * root, centre: 2 / (root * slope), mean: 4 / (root * root) };
}

/** θ = (melt − mold)/(eject − mold), above 1. */
function ratio(name: string, cooling: Cooling): number {
  rising(`${name}: mold < eject < melt`, [cooling.mold, cooling.eject, cooling.melt]);
  positive(`${name}: diffusivity`, cooling.diffusivity);
  return (cooling.melt - cooling.mold) / (cooling.eject - cooling.mold);
}

/**
 * Time until the middle of a slab, cylinder or sphere has cooled to the eject temperature.
 *
 * @param shape - slab cooled on both faces, long cylinder, or sphere
 * @param size - thickness or diameter [m]
 * @param cooling - diffusivity [m²/s] and temperatures [K]
 * @returns time [s]
 * @throws {RangeError} unless mold < eject < melt and size and diffusivity are positive
 *
 * Valid: surface held at the mold's temperature, no latent heat; within 1 % above Fo 0.2 on the half size.
 * Cost: constant.
 * Source: Ballman & Shusman, Modern Plastics (1959); Menges, Michaeli & Mohren (2001); from memory.
 */
export function centreCoolingTime(shape: SimpleShape, size: number, cooling: Cooling): number {
  const theta = ratio('centreCoolingTime', cooling);
  positive('centreCoolingTime: size', size);
  const { decay, centre } = coolingConstants(shape);
  return (size ** 2 / (decay * cooling.diffusivity)) * Math.log(centre * theta);
}

/**
 * Time until a slab, cylinder or sphere has cooled to the eject temperature in the mean.
 *
 * @param shape - slab cooled on both faces, long cylinder, or sphere
 * @param size - thickness or diameter [m]
 * @param cooling - diffusivity [m²/s] and temperatures [K]
 * @returns time [s]
 * @throws {RangeError} unless mold < eject < melt and the drop is large enough for one term to hold
 *
 * Valid: surface held at the mold's temperature, no latent heat; not near the start of cooling.
 * Cost: constant.
 * Source: Ballman & Shusman (1959); Menges, Michaeli & Mohren (2001); from memory.
 */
export function meanCoolingTime(shape: SimpleShape, size: number, cooling: Cooling): number {
  const theta = ratio('meanCoolingTime', cooling);
  positive('meanCoolingTime: size', size);
  const { decay, mean } = coolingConstants(shape);
  if (!(mean * theta > 1)) {
    throw new RangeError(
      `meanCoolingTime: wants (melt − mold)/(eject − mold) above ${1 / mean}, got ${theta}`,
    );
  }
  return (size ** 2 / (decay * cooling.diffusivity)) * Math.log(mean * theta);
}

/**
 * Time until the middle of a long rectangular bar has cooled to the eject temperature.
 *
 * @param width - one side [m]
 * @param height - the other side [m]
 * @param cooling - diffusivity [m²/s] and temperatures [K]
 * @returns time [s]
 * @throws {RangeError} unless mold < eject < melt and the rest is positive
 *
 * Valid: surface held at the mold's temperature; one term of the product of two slabs.
 * Cost: constant.
 * Source: Carslaw & Jaeger (1959), 5.6 (product solution), section number from memory.
 */
export function rectangleCoolingTime(width: number, height: number, cooling: Cooling): number {
  const theta = ratio('rectangleCoolingTime', cooling);
  positive('rectangleCoolingTime: width', width);
  positive('rectangleCoolingTime: height', height);
  const rate = Math.PI ** 2 * cooling.diffusivity * (1 / width ** 2 + 1 / height ** 2);
  return Math.log((16 / Math.PI ** 2) * theta) / rate;
}

// Remainder c(ε) of k₁²b² = π²/4 + (π/2)ε + c·ε², ε = b/a: 3/4 in the flat limit (own derivation, harmonic
// approximation along the long axis), else from eigenvalues by Rayleigh–Ritz converged to 1e-7.
const ELLIPSE_EPSILON = [0, 1 / 5, 1 / 4, 1 / 3, 1 / 2, 2 / 3, 1];
const ELLIPSE_EIGENVALUE = [
  NaN,
  2.818070472763072,
  2.920251003355007,
  3.1081287003766525,
  3.5667266029288673,
  4.15798690372034,
  5.783185962946783,
];
const ELLIPSE_REMAINDER = ELLIPSE_EIGENVALUE.map((value, i) => {
  const epsilon = ELLIPSE_EPSILON[i] as number;
  return epsilon === 0 ? 0.75 : (value - Math.PI ** 2 / 4 - (Math.PI / 2) * epsilon) / epsilon ** 2;
});

/**
 * First eigenvalue of an ellipse held at zero on its rim, on the small semi-axis: how fast it forgets its heat.
 *
 * @param flatness - small over large axis [1], above 0 up to 1
 * @returns k₁²·b² [1], from π²/4 (flat) to 5.7832 (round)
 * @throws {RangeError} when `flatness` is not in (0, 1]
 *
 * Valid: all ellipses; within 0.1 % between the tabulated ratios 1, 1.5, 2, 3, 4, 5 and the flat limit.
 * Cost: constant.
 * Source: own computation by Rayleigh–Ritz; flat limit by the harmonic approximation (own derivation).
 */
export function ellipseEigenvalue(flatness: number): number {
  positive('ellipseEigenvalue: flatness', flatness);
  if (flatness > 1) throw new RangeError(`ellipseEigenvalue: wants flatness up to 1, got ${flatness}`);
  const remainder = interpolate(ELLIPSE_EPSILON, ELLIPSE_REMAINDER, flatness);
  return Math.PI ** 2 / 4 + (Math.PI / 2) * flatness + remainder * flatness ** 2;
}

/**
 * Time until the middle of a long elliptic bar has cooled to the eject temperature.
 *
 * @param width - one full axis [m]
 * @param height - the other full axis [m]
 * @param cooling - diffusivity [m²/s] and temperatures [K]
 * @returns time [s]
 * @throws {RangeError} unless mold < eject < melt and the rest is positive
 *
 * Valid: surface held at the mold's temperature; first coefficient of the circle, never longer than the slab of that
 * thickness: from 1 % short to 3.5 % long against a finite-difference computation for ratios 1 to 8.
 * Cost: constant.
 * Source: first eigenvalue as `ellipseEigenvalue`; limits: Ballman & Shusman (1959), from memory.
 */
export function ellipseCoolingTime(width: number, height: number, cooling: Cooling): number {
  const theta = ratio('ellipseCoolingTime', cooling);
  const small = Math.min(
    positive('ellipseCoolingTime: width', width),
    positive('ellipseCoolingTime: height', height),
  );
  const flatness = small / Math.max(width, height);
  const rate = (ellipseEigenvalue(flatness) * cooling.diffusivity) / (small / 2) ** 2;
  const oval = Math.log(coolingConstants('cylinder').centre * theta) / rate;
  return Math.min(oval, centreCoolingTime('slab', small, cooling));
}

/**
 * Time until the hottest point of a section of any shape has cooled to the eject temperature: the section is
 * taken as the ellipse with the same inscribed circle and the same area.
 *
 * @param inscribed - diameter of the largest circle that fits [m]
 * @param area - area of the section [m²], at least that of the circle
 * @param cooling - diffusivity [m²/s] and temperatures [K]
 * @returns time [s]: never below that of the circle, never above that of a slab of that thickness
 * @throws {RangeError} when the area is smaller than the circle, or unless mold < eject < melt
 *
 * Valid: surface held at the mold's temperature. For convex sections the true rate lies between circle and slab; the
 * equivalent ellipse is within 7 % of the product series for rectangles from 1:1 to 10:1 (estimate between).
 * Cost: constant.
 * Source: bounds: J. Hersch, Z. angew. Math. Phys. 11 (1960) 387, and monotonicity of Dirichlet eigenvalues, from
 * memory; equivalent ellipse: own derivation.
 */
export function sectionCoolingTime(inscribed: number, area: number, cooling: Cooling): number {
  const circle = (Math.PI / 4) * positive('sectionCoolingTime: inscribed', inscribed) ** 2;
  positive('sectionCoolingTime: area', area);
  if (area < circle * (1 - 1e-3)) {
    throw new RangeError(`sectionCoolingTime: wants an area of at least the circle's ${circle}, got ${area}`);
  }
  return ellipseCoolingTime(inscribed * Math.max(1, area / circle), inscribed, cooling);
}
