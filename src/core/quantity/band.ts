/** A number with its uncertainty, SI unless the name says otherwise: `low ≤ value ≤ high`. */
export interface Band {
  readonly value: number;
  readonly low: number;
  readonly high: number;
}

/** One input's part in the uncertainty of a result: shares of one result add up to 1. */
export interface Share {
  readonly name: string;
  readonly share: number;
}

/** A derived band and which inputs made it wide, widest first. */
export interface Spread extends Band {
  readonly shares: readonly Share[];
}

/**
 * A band from its three numbers.
 *
 * @param value - nominal, any unit
 * @param low - lowest credible, same unit; `value` when left out
 * @param high - highest credible, same unit; `value` when left out
 * @throws {RangeError} when a number is not finite or the order low ≤ value ≤ high is broken
 *
 * Cost: constant.
 * Source: definition.
 */
export function band(value: number, low: number = value, high: number = value): Band {
  if (![value, low, high].every(Number.isFinite) || low > value || value > high) {
    throw new RangeError(`band: wants finite low ≤ value ≤ high, got ${low}, ${value}, ${high}`);
  }
  return { value, low, high };
}

/**
 * A band of a relative half-width about a value.
 *
 * @param value - nominal, any unit
 * @param relative - half-width as a fraction of |value| [1], 0 or more
 * @throws {RangeError} when either is not finite
 *
 * Cost: constant.
 * Source: definition.
 */
export function within(value: number, relative: number): Band {
  const half = Math.abs(value) * relative;
  return band(value, value - half, value + half);
}

type Inputs<Name extends string> = Readonly<Record<Name, Band>>;
type Values<Name extends string> = Record<Name, number>;

function nominals<Name extends string>(inputs: Inputs<Name>): Values<Name> {
  const names = Object.keys(inputs) as Name[];
  return Object.fromEntries(names.map((name) => [name, inputs[name].value])) as Values<Name>;
}

/**
 * Band of `f(inputs)` by quadrature: each input is moved alone to its low and its high, and the changes
 * of the result add in squares. In logarithms for results that are products of powers (reach, time,
 * mass), linearly for results that are sums (temperatures).
 *
 * @param f - the relation, any units; called 1 + 2·n times for n inputs
 * @param inputs - bands by name, in the units of `f`
 * @param scale - `log` needs a positive result everywhere; `linear` takes any
 * @returns value, low, high in the unit of `f`, and each input's share of the squared width [1]
 * @throws {RangeError} when `f` gives a non-finite result, or one that is not positive on the log scale
 *
 * Valid: inputs independent, `f` monotone in each over its band.
 * Cost: 1 + 2n calls of `f`.
 * Source: law of propagation of uncertainty, JCGM 100:2008 (GUM) 5.1.2, in finite differences; logarithms as in 5.1.6.
 */
export function quadrature<Name extends string>(
  f: (values: Values<Name>) => number,
  inputs: Inputs<Name>,
  scale: 'log' | 'linear' = 'log',
): Spread {
  const base = nominals(inputs);
  const measure = (values: Values<Name>): number => {
    const result = f(values);
    if (!Number.isFinite(result) || (scale === 'log' && !(result > 0))) {
      throw new RangeError(
        `quadrature: wants a finite result${scale === 'log' ? ' above 0' : ''}, got ${result}`,
      );
    }
    return scale === 'log' ? Math.log(result) : result;
  };
  const centre = measure(base);
  const parts = (Object.keys(inputs) as Name[]).map((name) => {
    const ends = [inputs[name].low, inputs[name].high].map(
      (end) => measure({ ...base, [name]: end }) - centre,
    );
    return { name, down: Math.min(0, ...ends), up: Math.max(0, ...ends) };
  });
  const down = Math.hypot(...parts.map((part) => part.down));
  const up = Math.hypot(...parts.map((part) => part.up));
  const back = scale === 'log' ? Math.exp : (x: number) => x;
  return {
    value: back(centre),
    low: back(centre - down),
    high: back(centre + up),
    shares: sharesOf(parts.map((part) => ({ name: part.name, weight: part.down ** 2 + part.up ** 2 }))),
  };
}

/**
 * Hard bounds of `f(inputs)`: every combination of lows and highs. For figures that could hurt someone.
 *
 * @param f - the relation, any units
 * @param inputs - bands by name, at most 12 of them
 * @returns value at the nominals, lowest and highest over all corners
 * @throws {RangeError} when `f` gives a non-finite result or more than 12 inputs come
 *
 * Valid: `f` monotone in each input over its band.
 * Cost: 2ⁿ calls of `f`.
 * Source: interval evaluation at vertices; R. E. Moore, Interval Analysis (1966), from memory.
 */
export function corners<Name extends string>(
  f: (values: Values<Name>) => number,
  inputs: Inputs<Name>,
): Band {
  const names = Object.keys(inputs) as Name[];
  if (names.length > 12) throw new RangeError(`corners: takes at most 12 inputs, got ${names.length}`);
  const base = nominals(inputs);
  const centre = f(base);
  let low = centre;
  let high = centre;
  for (let mask = 0; mask < 2 ** names.length; mask++) {
    const values = { ...base };
    names.forEach((name, bit) => {
      values[name] = mask & (1 << bit) ? inputs[name].high : inputs[name].low;
    });
    const result = f(values);
    low = Math.min(low, result);
    high = Math.max(high, result);
  }
  return band(centre, low, high);
}

function sharesOf(weights: readonly { name: string; weight: number }[]): Share[] {
  const total = weights.reduce((sum, { weight }) => sum + weight, 0);
  return weights
    .map(({ name, weight }) => ({ name, share: total > 0 ? weight / total : 0 }))
    .sort((a, b) => b.share - a.share);
}
