/** A smooth curve through given points that never overshoots them. */
export type Curve = (x: number) => number;

/**
 * Monotone piecewise cubic through points: between two points it stays between their values, so a bait never
 * bulges where its table does not.
 *
 * @param xs - abscissas, strictly increasing, any unit, at least 2
 * @param ys - values at them, any unit
 * @returns the curve in the unit of `ys`; constant beyond both ends
 * @throws {RangeError} when fewer than two points come, the lengths differ or `xs` does not increase
 *
 * Valid: everywhere; first derivative continuous, third-order accurate away from extrema.
 * Cost: linear to set up, logarithmic to evaluate.
 * Source: F. N. Fritsch and J. Butland, SIAM J. Sci. Stat. Comput. 5 (1984) 300-304 (three-point ends after
 * Moler, Numerical Computing with MATLAB, 2004, ch. 3), from memory.
 */
export function monotoneCurve(xs: readonly number[], ys: readonly number[]): Curve {
  if (xs.length < 2 || xs.length !== ys.length) {
    throw new RangeError(
      `monotoneCurve: wants as many values as points and at least 2, got ${xs.length}, ${ys.length}`,
    );
  }
  const gaps = xs.slice(1).map((x, i) => x - xs[i]!);
  if (!gaps.every((gap) => gap > 0))
    throw new RangeError('monotoneCurve: wants increasing points, got others');
  const slopes = gaps.map((gap, i) => (ys[i + 1]! - ys[i]!) / gap);
  const rates = xs.map((_, i) => rateAt(i, gaps, slopes));
  return (x) => {
    if (x <= xs[0]!) return ys[0]!;
    if (x >= xs.at(-1)!) return ys.at(-1)!;
    const i = intervalOf(xs, x);
    const gap = gaps[i]!;
    const t = (x - xs[i]!) / gap;
    const u = 1 - t;
    return (
      ys[i]! * u * u * (1 + 2 * t) +
      ys[i + 1]! * t * t * (1 + 2 * u) +
      gap * t * u * (rates[i]! * u - rates[i + 1]! * t)
    );
  };
}

function intervalOf(xs: readonly number[], x: number): number {
  let low = 0;
  let high = xs.length - 1;
  while (high - low > 1) {
    const middle = (low + high) >> 1;
    if (xs[middle]! <= x) low = middle;
    else high = middle;
  }
  return low;
}

function rateAt(i: number, gaps: readonly number[], slopes: readonly number[]): number {
  if (slopes.length === 1) return slopes[0]!;
  if (i === 0) return endRate(gaps[0]!, gaps[1]!, slopes[0]!, slopes[1]!);
  if (i === slopes.length) return endRate(gaps.at(-1)!, gaps.at(-2)!, slopes.at(-1)!, slopes.at(-2)!);
  const [before, after] = [slopes[i - 1]!, slopes[i]!];
  if (before * after <= 0) return 0;
  const first = 2 * gaps[i]! + gaps[i - 1]!;
  const second = gaps[i]! + 2 * gaps[i - 1]!;
  return (first + second) / (first / before + second / after);
}

/** Three-point rate at an end, on the side of the slope beside it and no more than three times as steep. */
function endRate(gap: number, next: number, slope: number, nextSlope: number): number {
  const rate = ((2 * gap + next) * slope - gap * nextSlope) / (gap + next);
  const side = Math.sign(slope);
  return side * Math.min(3 * Math.abs(slope), Math.max(0, side * rate));
}
