import { need, needPositive } from '../quantity/guard.ts';
import { interpolate } from '../numeric/root.ts';

/** A thin part as a strip that is held at its root: thickness and width along it [m]. */
export interface Strip {
  /** From root to tip [m]. */
  readonly length: number;
  /** From the root (s = 0) on, at rising arc lengths; the last one is carried on to the tip. */
  readonly stations: readonly { readonly s: number; readonly thickness: number; readonly width: number }[];
}

/** Even steps along the strip in every integral; an even number, for Simpson's rule. */
const STEPS = 240;

/** A strip at even steps [m]. */
export interface Sampled {
  readonly step: number;
  readonly thickness: readonly number[];
  readonly width: readonly number[];
}

/**
 * Thickness and width at even steps along a strip.
 *
 * @param where - name of the function that asks, for its errors
 * @param strip - thickness and width from root to tip [m]
 * @returns step [m], and 241 thicknesses and widths [m]
 * @throws {RangeError} when a size is not positive or there is no station
 *
 * Valid: straight between stations.
 * Cost: 240 steps.
 * Source: definition.
 */
export function sampled(where: string, { length, stations }: Strip): Sampled {
  needPositive(where, { length });
  need(stations.length > 0, where, 'at least one station', stations.length);
  for (const { thickness, width } of stations) needPositive(where, { thickness, width });
  const s = stations.map((station) => station.s);
  const at = (values: readonly number[]) =>
    Array.from({ length: STEPS + 1 }, (_, i) =>
      s.length === 1 ? (values[0] ?? NaN) : interpolate(s, values, (length * i) / STEPS),
    );
  return {
    step: length / STEPS,
    thickness: at(stations.map(({ thickness }) => thickness)),
    width: at(stations.map(({ width }) => width)),
  };
}

/**
 * Integral over even steps.
 *
 * @param values - an odd number of them, any unit
 * @param step - between two of them [m]
 * @returns integral [unit of the values times m]
 *
 * Valid: smooth values; exact for cubics.
 * Cost: linear.
 * Source: Simpson's rule.
 */
export function integral(values: readonly number[], step: number): number {
  const weight = (i: number) => (i === 0 || i === values.length - 1 ? 1 : i % 2 === 1 ? 4 : 2);
  return (values.reduce((sum, value, i) => sum + weight(i) * value, 0) * step) / 3;
}

/**
 * Integral from the first place to each one, over even steps.
 *
 * @param values - at least three, any unit
 * @param step - between two of them [m]
 * @returns as many integrals as values [unit of the values times m], the first one 0
 *
 * Valid: smooth values; exact for parabolas.
 * Cost: linear.
 * Source: the parabola through three neighbours, integrated over one step.
 */
export function running(values: readonly number[], step: number): number[] {
  const sums = [0];
  const last = values.length - 1;
  for (let i = 0; i < last; i++) {
    const [near, far] = [values[i]!, values[i + 1]!];
    const beside = i + 2 <= last ? 5 * near + 8 * far - values[i + 2]! : 5 * far + 8 * near - values[i - 1]!;
    sums.push(sums[i]! + (step / 12) * beside);
  }
  return sums;
}

/** ∫ₛᴸ b(x)·(x − s) dx at every step: the moment of an even pressure of 1 Pa beyond s [m³]. */
function pressureMoments({ step, width }: Sampled): number[] {
  const moments = width.map(() => 0);
  let force = 0;
  for (let i = STEPS - 1; i >= 0; i--) {
    const [near, far] = [width[i]!, width[i + 1]!];
    const piece = (step * (near + far)) / 2;
    moments[i] = moments[i + 1]! + force * step + (step ** 2 * (near + 2 * far)) / 6;
    force += piece;
  }
  return moments;
}

/**
 * How far an even crossflow pressure bends a strip: tip deflection over length, for a pressure as large as
 * Young's modulus.
 *
 * @param strip - thickness and width from root to tip [m]
 * @returns G in δ/L = (p/E)·G [1]; 1.5·(L/t)³ for an even strip
 * @throws {RangeError} when a size is not positive
 *
 * Valid: small deflection, thickness well under width; as a measure of limpness beyond that.
 * Cost: 240 steps.
 * Source: unit-load theorem for a cantilever, Young & Budynas, Roark's Formulas for Stress and Strain, 7th ed. (2002), ch. 8, from memory.
 */
export function stripLimpness(strip: Strip): number {
  const samples = sampled('stripLimpness', strip);
  const moments = pressureMoments(samples);
  const curvature = moments.map((moment, i) => {
    const inertia = (samples.width[i]! * samples.thickness[i]! ** 3) / 12;
    return ((strip.length - i * samples.step) * moment) / inertia;
  });
  return integral(curvature, samples.step) / strip.length;
}

/**
 * Thickness of the even strip that bends as far as a tapered one.
 *
 * @param strip - thickness and width from root to tip [m]
 * @returns thickness [m], between the strip's thinnest and thickest
 * @throws {RangeError} when a size is not positive
 *
 * Cost: as `stripLimpness`.
 * Source: `stripLimpness` of an even strip, solved for its thickness.
 */
export function equivalentThickness(strip: Strip): number {
  return strip.length * Math.cbrt(1.5 / stripLimpness(strip));
}

/**
 * Stiffness of a strip per width, averaged along it.
 *
 * @param strip - thickness and width from root to tip [m]
 * @param modulus - Young's modulus [Pa]
 * @returns mean of E·t³/12 over the length [N·m]
 * @throws {RangeError} when a size or the modulus is not positive
 *
 * Valid: bending only; the ratio of two strips is their stiffness ratio.
 * Cost: 240 steps.
 * Source: I = b·t³/12, Young & Budynas, Roark's Formulas for Stress and Strain, 7th ed. (2002), from memory.
 */
export function meanStiffness(strip: Strip, modulus: number): number {
  needPositive('meanStiffness', { modulus });
  const { thickness, step } = sampled('meanStiffness', strip);
  const cubes = thickness.map((t) => (modulus * t ** 3) / 12);
  return integral(cubes, step) / strip.length;
}

/**
 * Width of a strip, averaged along it as its added mass is.
 *
 * @param strip - thickness and width from root to tip [m]
 * @returns root mean square width [m]
 * @throws {RangeError} when a size is not positive
 *
 * Cost: 240 steps.
 * Source: added mass of a slender strip ∝ width²; M. J. Lighthill, J. Fluid Mech. 9 (1960) 305, from memory.
 */
export function meanWidth(strip: Strip): number {
  const { width, step } = sampled('meanWidth', strip);
  const squares = width.map((b) => b ** 2);
  return Math.sqrt(integral(squares, step) / strip.length);
}
