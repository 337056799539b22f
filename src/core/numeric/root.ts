/**
 * Root of a function that changes sign once between two ends, by halving.
 *
 * @param f - continuous, any units
 * @param low - one end, unit of the argument
 * @param high - other end, same unit, above `low`
 * @param steps - halvings; 60 reach double precision [1]
 * @returns the argument where `f` changes sign, same unit
 * @throws {RangeError} when `f` has the same sign at both ends
 *
 * Cost: `steps` + 2 calls of `f`.
 * Source: bisection; any textbook of numerical analysis.
 */
export function bisect(f: (x: number) => number, low: number, high: number, steps = 60): number {
  const atLow = f(low);
  const atHigh = f(high);
  if (atLow === 0) return low;
  if (atHigh === 0) return high;
  if (!(atLow < 0 !== atHigh < 0) || Number.isNaN(atLow + atHigh)) {
    throw new RangeError(`bisect: wants a change of sign, got ${atLow} at ${low} and ${atHigh} at ${high}`);
  }
  let [a, b] = [low, high];
  for (let step = 0; step < steps; step++) {
    const middle = (a + b) / 2;
    if (f(middle) < 0 === atLow < 0) a = middle;
    else b = middle;
  }
  return (a + b) / 2;
}

/**
 * Value on a broken line through points with rising abscissas.
 *
 * @param xs - rising abscissas, two or more [any unit]
 * @param ys - ordinates, as many, any unit
 * @param x - where, unit of `xs`
 * @returns ordinate, unit of `ys`; the nearest end value outside the points
 *
 * Cost: a binary search.
 * Source: linear interpolation.
 */
export function interpolate(xs: ArrayLike<number>, ys: ArrayLike<number>, x: number): number {
  let low = 0;
  let high = xs.length - 1;
  if (x <= (xs[0] as number)) return ys[0] as number;
  if (x >= (xs[high] as number)) return ys[high] as number;
  while (high - low > 1) {
    const middle = (low + high) >> 1;
    if ((xs[middle] as number) <= x) low = middle;
    else high = middle;
  }
  const [x0, x1, y0, y1] = [xs[low], xs[high], ys[low], ys[high]] as [number, number, number, number];
  return y0 + ((y1 - y0) * (x - x0)) / (x1 - x0);
}
