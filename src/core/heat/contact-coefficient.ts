import { besselJ0, besselJ1 } from '../numeric/bessel.ts';
import { positive, rising } from '../quantity/guard.ts';
import { bisect } from '../numeric/root.ts';
import type { SimpleShape } from './conduction-series.ts';

const FIRST_ZERO_OF_J0 = 2.404825557695773;

/** First term of the series for a finite contact coefficient: θ_centre = coefficient·e^(−root²·Fo). */
export interface FirstTerm {
  /** ζ₁ [rad]. */
  readonly root: number;
  /** C₁ at the middle [1]. */
  readonly coefficient: number;
}

function slabTerm(biot: number): FirstTerm {
  const root = bisect((z) => z * Math.sin(z) - biot * Math.cos(z), 0, Math.PI / 2);
  return { root, coefficient: (4 * Math.sin(root)) / (2 * root + Math.sin(2 * root)) };
}

function cylinderTerm(biot: number): FirstTerm {
  const root = bisect((z) => z * besselJ1(z) - biot * besselJ0(z), 0, FIRST_ZERO_OF_J0);
  const [j0, j1] = [besselJ0(root), besselJ1(root)];
  return { root, coefficient: ((2 / root) * j1) / (j0 * j0 + j1 * j1) };
}

function sphereTerm(biot: number): FirstTerm {
  // Multiplied by sin ζ, so that neither 0 nor π is a pole; the low end stays off the root at 0.
  const root = bisect((z) => (1 - biot) * Math.sin(z) - z * Math.cos(z), 1e-6, Math.PI);
  const coefficient = (4 * (Math.sin(root) - root * Math.cos(root))) / (2 * root - Math.sin(2 * root));
  return { root, coefficient };
}

/**
 * First root and coefficient of the conduction series when heat crosses the surface through a finite
 * coefficient.
 *
 * @param shape - slab cooled on both faces, long cylinder, or sphere
 * @param biot - Bi = h·L/k, L the half thickness or the radius [1]
 * @returns root ζ₁ [rad] and coefficient C₁ at the middle [1]
 * @throws {RangeError} when `biot` is not positive and finite
 *
 * Valid: constant coefficient and conductivity, uniform start; one term is enough above Fo 0.2. Biot above 1e-9.
 * Cost: 60 halvings.
 * Source: Incropera et al., Fundamentals of Heat and Mass Transfer, 6th ed. (2007), table 5.1 and eq. 5.39, 5.49,
 * 5.50; numbers from memory.
 */
export function firstTerm(shape: SimpleShape, biot: number): FirstTerm {
  positive('firstTerm: biot', biot);
  if (shape === 'slab') return slabTerm(biot);
  return shape === 'cylinder' ? cylinderTerm(biot) : sphereTerm(biot);
}

/** A part that cools through a contact resistance. */
export interface ContactCooling {
  readonly shape: SimpleShape;
  /** Half thickness or radius [m]. */
  readonly halfSize: number;
  /** Melt to metal [W/(m²·K)]. */
  readonly contact: number;
  /** Conductivity of the compound [W/(m·K)]. */
  readonly conductivity: number;
  /** Diffusivity of the compound [m²/s]. */
  readonly diffusivity: number;
  /** Temperatures [K]. */
  readonly melt: number;
  readonly mold: number;
  readonly eject: number;
}

/**
 * Time until the middle has cooled to the eject temperature, with contact resistance at the wall.
 *
 * @param part - size [m], coefficient [W/(m²·K)], properties and temperatures [K]
 * @returns time [s]
 * @throws {RangeError} unless mold < eject < melt and the rest is positive
 *
 * Valid: Fo above 0.2 (one term of the series).
 * Cost: 60 halvings.
 * Source: Incropera et al. (2007), 5.5 and 5.6; Heisler, Trans. ASME 69 (1947) 227, from memory.
 */
export function contactCoolingTime(part: ContactCooling): number {
  rising('contactCoolingTime: mold < eject < melt', [part.mold, part.eject, part.melt]);
  positive('contactCoolingTime: diffusivity', part.diffusivity);
  const biot = (part.contact * part.halfSize) / part.conductivity;
  const { root, coefficient } = firstTerm(part.shape, biot);
  const theta = (part.melt - part.mold) / (part.eject - part.mold);
  return (part.halfSize ** 2 / (root ** 2 * part.diffusivity)) * Math.log(coefficient * theta);
}
