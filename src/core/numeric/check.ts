/**
 * Refuses a number that is not positive and finite.
 *
 * @param name - function and parameter, `slotResistance: height`
 * @param value - [any unit]
 * @returns `value`, same unit
 * @throws {RangeError} when `value` is not positive and finite
 *
 * Cost: constant.
 * Source: definition.
 */
export function positive(name: string, value: number): number {
  if (!(value > 0 && value < Infinity)) {
    throw new RangeError(`${name}: wants a positive finite number, got ${value}`);
  }
  return value;
}

/**
 * Refuses a number outside a closed interval.
 *
 * @param name - function and parameter, `openFraction: theta`
 * @param value - [any unit]
 * @param low - smallest allowed, same unit
 * @param high - largest allowed, same unit
 * @returns `value`, same unit
 * @throws {RangeError} when `value` is not finite or lies outside low … high
 *
 * Cost: constant.
 * Source: definition.
 */
export function between(name: string, value: number, low: number, high: number): number {
  if (!(value >= low && value <= high && Number.isFinite(value))) {
    throw new RangeError(`${name}: wants a number from ${low} to ${high}, got ${value}`);
  }
  return value;
}

/**
 * Refuses numbers that do not rise.
 *
 * @param name - function and what is ordered, `coolingTime: mold < eject < melt`
 * @param values - two or more [same unit]
 * @throws {RangeError} when a value is not finite or not above the one before it
 *
 * Cost: linear in the count.
 * Source: definition.
 */
export function rising(name: string, values: readonly number[]): void {
  const ordered = values.every(
    (value, i) => Number.isFinite(value) && (i === 0 || value > (values[i - 1] ?? value)),
  );
  if (!ordered) throw new RangeError(`${name}: wants finite rising values, got ${values.join(', ')}`);
}
