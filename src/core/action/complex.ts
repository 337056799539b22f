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

function value(coefficients: readonly number[], z: Complex): Complex {
  const re = z[0];
  const im = z[1];
  let a = 0;
  let b = 0;
  for (let i = 0; i < coefficients.length; i++) {
    const next = a * re - b * im + coefficients[i]!;
    b = a * im + b * re;
    a = next;
  }
  return [a, b];
}

/** Product of the differences of a root from all others. */
function apart(roots: readonly Complex[], i: number): Complex {
  const re = roots[i]![0];
  const im = roots[i]![1];
  let a = 1;
  let b = 0;
  for (let j = 0; j < roots.length; j++) {
    if (j === i) continue;
    const c = re - roots[j]![0];
    const d = im - roots[j]![1];
    const next = a * c - b * d;
    b = a * d + b * c;
    a = next;
  }
  return [a, b];
}

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
      const step = over(value(coefficients, root), apart(roots, i));
      roots[i] = minus(root, step);
      change = Math.max(change, Math.hypot(step[0], step[1]));
    });
    if (change < 1e-14 * size) break;
  }
  return roots;
}
