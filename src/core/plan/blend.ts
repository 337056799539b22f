import { band, type Band } from '../quantity/band.ts';
import { need, needNonNegative, needPositive } from '../quantity/guard.ts';
import { shore00Modulus } from '../hardness/shore-modulus.ts';

/** Exponents of the power law [1]. */
const EXPONENTS: Band = band(3, 2.6, 3.4);

/**
 * Modulus of a blend by the power rule: what adds by volume is the resin, and the modulus goes with its power.
 *
 * @param share - volume share of the second compound [1], 0 to 1
 * @param first - Young's modulus of the first [Pa], 0 for plain plasticiser
 * @param second - Young's modulus of the second [Pa], 0 for plain plasticiser
 * @param exponent - of the law [1], 2.6 to 3.4
 * @returns Young's modulus [Pa]
 * @throws {RangeError} when the share lies outside 0 to 1 or a modulus is negative
 *
 * Valid: compounds of one resin, fully fused, without filler.
 * Cost: constant.
 * Source: own derivation, E = (s·E₂^(1/n) + (1 − s)·E₁^(1/n))ⁿ, from E ∝ φⁿ.
 */
export function powerRuleModulus(share: number, first: number, second: number, exponent: number): number {
  need(share >= 0 && share <= 1, 'powerRuleModulus', 'a share of 0 to 1', share);
  needNonNegative('powerRuleModulus', { first, second });
  needPositive('powerRuleModulus', { exponent });
  return (share * second ** (1 / exponent) + (1 - share) * first ** (1 / exponent)) ** exponent;
}

/**
 * Modulus of a blend by the logarithmic rule.
 *
 * @param share - volume share of the second compound [1], 0 to 1
 * @param first - Young's modulus of the first [Pa]
 * @param second - Young's modulus of the second [Pa]
 * @returns Young's modulus [Pa]
 * @throws {RangeError} when the share lies outside 0 to 1 or a modulus is not positive
 *
 * Valid: both compounds of their own stiffness; not for plain plasticiser.
 * Cost: constant.
 * Source: K. Lichtenecker, Phys. Z. 27 (1926) 115, from memory: ln E = (1 − s)·ln E₁ + s·ln E₂.
 */
export function logRuleModulus(share: number, first: number, second: number): number {
  need(share >= 0 && share <= 1, 'logRuleModulus', 'a share of 0 to 1', share);
  needPositive('logRuleModulus', { first, second });
  return first ** (1 - share) * second ** share;
}

const powerShare = (first: number, second: number, wanted: number, n: number): number => {
  const root = (modulus: number) => modulus ** (1 / n);
  return (root(wanted) - root(first)) / (root(second) - root(first));
};

const logShare = (first: number, second: number, wanted: number): number =>
  Math.log(wanted / first) / Math.log(second / first);

/**
 * How much of a second compound brings a first one to a hardness.
 *
 * @param first - Shore 00 of the compound that is changed, 0 to 98
 * @param second - Shore 00 of what is blended in; `softener` is plain plasticiser
 * @param wanted - Shore 00 to reach, between the two
 * @returns volume share of the second in the blend [1]: nominal by the power rule with exponent 3, band over the
 * exponents and the logarithmic rule
 * @throws {RangeError} when `wanted` does not lie between the two or they are alike
 *
 * Valid: readings of one durometer; its own error falls out of the ratio, and is not in the band. Measure a trial.
 * Cost: four evaluations.
 * Source: own derivation and Lichtenecker (1926); Shore 00 to modulus by `shore00Modulus`.
 */
export function blendShare(first: number, second: number | 'softener', wanted: number): Band {
  const from = shore00Modulus(first);
  const other = second === 'softener' ? 0 : shore00Modulus(second);
  const aim = shore00Modulus(wanted);
  const between = from !== other && (aim - from) * (aim - other) <= 0;
  need(between, 'blendShare', `a hardness between ${first} and ${second}`, wanted);
  const shares = [
    ...[EXPONENTS.value, EXPONENTS.low, EXPONENTS.high].map((n) => powerShare(from, other, aim, n)),
    ...(other > 0 ? [logShare(from, other, aim)] : []),
  ].map((share) => Math.min(1, Math.max(0, share)));
  return band(shares[0]!, Math.min(...shares), Math.max(...shares));
}
