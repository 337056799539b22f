/** A complex number: real and imaginary part, any unit. */
export type Complex = readonly [re: number, im: number];

export const times = ([a, b]: Complex, [c, d]: Complex): Complex => [a * c - b * d, a * d + b * c];
export const plus = ([a, b]: Complex, [c, d]: Complex): Complex => [a + c, b + d];
export const minus = ([a, b]: Complex, [c, d]: Complex): Complex => [a - c, b - d];
export const over = ([a, b]: Complex, [c, d]: Complex): Complex => {
  const size = c * c + d * d;
  return [(a * c + b * d) / size, (b * c - a * d) / size];
};
/** e^(i·z). */
export const turn = ([a, b]: Complex): Complex => [Math.exp(-b) * Math.cos(a), Math.exp(-b) * Math.sin(a)];

const value = (coefficients: readonly number[], z: Complex): Complex =>
  coefficients.reduce<Complex>((sum, coefficient) => plus(times(sum, z), [coefficient, 0]), [0, 0]);

/**
 * All roots of a polynomial with real coefficients.
 *
 * @param coefficients - from the highest power down, the first one 1
 * @returns as many complex roots as the degree, in no order
 *
 * Valid: distinct roots; close pairs lose half the digits.
 * Cost: at most 200 sweeps, usually some ten.
 * Source: E. Durand (1960) and I. O. Kerner, Numer. Math. 8 (1966) 290: all roots at once.
 */
export function polynomialRoots(coefficients: readonly number[]): Complex[] {
  const degree = coefficients.length - 1;
  const size = 1 + Math.max(...coefficients.slice(1).map((c, i) => Math.abs(c) ** (1 / (i + 1))));
  const roots: Complex[] = Array.from({ length: degree }, (_, i) => {
    const angle = (2 * Math.PI * i) / degree + 0.4;
    return [size * Math.cos(angle), size * Math.sin(angle)];
  });
  for (let sweep = 0; sweep < 200; sweep++) {
    let change = 0;
    roots.forEach((root, i) => {
      const others = roots.reduce<Complex>(
        (product, other, j) => (j === i ? product : times(product, minus(root, other))),
        [1, 0],
      );
      const step = over(value(coefficients, root), others);
      roots[i] = minus(root, step);
      change = Math.max(change, Math.hypot(...step));
    });
    if (change < 1e-14 * size) break;
  }
  return roots;
}
