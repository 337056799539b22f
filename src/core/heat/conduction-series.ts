import { besselJ0Zeros } from '../numeric/bessel.ts';
import { positive } from '../quantity/guard.ts';
import { erfc } from '../numeric/error-function.ts';

/** Shapes whose cooling has a plain series. */
export type SimpleShape = 'slab' | 'cylinder' | 'sphere';

/** Below this Fourier number the short-time forms are better than 150 terms of the series. */
const SHORT = 2e-4;
const SMALLEST_EXPONENT = 45;

/** 2, −2, 2, … */
const alternating = (n: number): number => (n % 2 === 0 ? 2 : -2);

/** Sum of coefficient(n)·exp(−eigenvalue(n)²·Fo) until the exponent is spent; n counts from 0. */
function decaySum(fourier: number, root: (n: number) => number, coefficient: (n: number) => number): number {
  let sum = 0;
  for (let n = 0; root(n) ** 2 * fourier < SMALLEST_EXPONENT; n++) {
    sum += coefficient(n) * Math.exp(-(root(n) ** 2) * fourier);
  }
  return sum;
}

function cylinderSum(fourier: number, coefficient: (root: number, slope: number) => number): number {
  const terms = Math.ceil(Math.sqrt(SMALLEST_EXPONENT / fourier) / Math.PI) + 1;
  let sum = 0;
  for (const { root, slope } of besselJ0Zeros(terms)) {
    sum += coefficient(root, slope) * Math.exp(-root * root * fourier);
  }
  return sum;
}

/**
 * Excess temperature left at the middle of a slab, cylinder or sphere whose surface was put at another
 * temperature at t = 0.
 *
 * @param shape - slab cooled on both faces, long cylinder, or sphere
 * @param fourier - Fo = α·t/L², L the half thickness or the radius [1]
 * @returns (T − T_wall)/(T_start − T_wall) at the middle [1], 0 to 1
 * @throws {RangeError} when `fourier` is not positive and finite
 *
 * Valid: constant properties, surface held at T_wall, no latent heat.
 * Cost: up to 150 terms; error within 1e-9.
 * Source: Carslaw & Jaeger, Conduction of Heat in Solids, 2nd ed. (1959), 3.3, 7.6, 9.3; section numbers from memory.
 */
export function centreExcess(shape: SimpleShape, fourier: number): number {
  positive('centreExcess: fourier', fourier);
  if (fourier < SHORT) return 1;
  if (shape === 'cylinder') return cylinderSum(fourier, (root, slope) => 2 / (root * slope));
  if (shape === 'slab') {
    const root = (n: number) => (n + 0.5) * Math.PI;
    return decaySum(fourier, root, (n) => alternating(n) / root(n));
  }
  if (fourier < 0.02) return 1 - (2 / Math.sqrt(Math.PI * fourier)) * Math.exp(-1 / (4 * fourier));
  return decaySum(fourier, (n) => (n + 1) * Math.PI, alternating);
}

/**
 * Excess temperature left in the mean over a slab, cylinder or sphere whose surface was put at another
 * temperature at t = 0.
 *
 * @param shape - slab cooled on both faces, long cylinder, or sphere
 * @param fourier - Fo = α·t/L², L the half thickness or the radius [1]
 * @returns (T_mean − T_wall)/(T_start − T_wall) [1], 0 to 1
 * @throws {RangeError} when `fourier` is not positive and finite
 *
 * Valid: constant properties, surface held at T_wall, no latent heat.
 * Cost: up to 150 terms; error within 1e-8.
 * Source: Carslaw & Jaeger (1959), 3.3, 7.6, 9.3; short times after Crank, The Mathematics of Diffusion, 2nd ed.
 * (1975), ch. 4 to 6; section numbers from memory.
 */
export function meanExcess(shape: SimpleShape, fourier: number): number {
  positive('meanExcess: fourier', fourier);
  const thin = Math.sqrt(fourier / Math.PI);
  if (shape === 'slab') {
    if (fourier < SHORT) return 1 - 2 * thin;
    const root = (n: number) => (n + 0.5) * Math.PI;
    return decaySum(fourier, root, (n) => 2 / root(n) ** 2);
  }
  if (shape === 'sphere') {
    if (fourier < SHORT) return 1 - 6 * thin + 3 * fourier;
    const root = (n: number) => (n + 1) * Math.PI;
    return decaySum(fourier, root, (n) => 6 / root(n) ** 2);
  }
  if (fourier < SHORT) return 1 - 4 * thin + fourier + (fourier * thin) / 3;
  return cylinderSum(fourier, (root) => 4 / (root * root));
}

/**
 * Excess temperature left at a depth in a slab cooled alike on both faces.
 *
 * @param place - distance from the middle as a fraction of the half thickness [1], 0 to 1
 * @param fourier - Fo = α·t/L², L the half thickness [1]
 * @returns (T − T_wall)/(T_start − T_wall) [1], 0 to 1
 *
 * Valid: surface held at T_wall; constant properties.
 * Cost: a few terms: images below Fo 0.06, the cosine series above; error within 1e-12.
 * Source: Carslaw & Jaeger (1959), 3.3 (series and images); section number from memory.
 */
export function slabExcess(place: number, fourier: number): number {
  if (fourier < 0.06) {
    const width = 2 * Math.sqrt(fourier);
    let lost = 0;
    for (let n = 0; n < 3; n++) {
      const odd = 2 * n + 1;
      lost += (-1) ** n * (erfc((odd - place) / width) + erfc((odd + place) / width));
    }
    return 1 - lost;
  }
  const root = (n: number) => (n + 0.5) * Math.PI;
  return decaySum(fourier, root, (n) => (alternating(n) * Math.cos(root(n) * place)) / root(n));
}
