/**
 * Refuses a bad argument in the one form that errors of `core` have.
 *
 * @param ok - what has to hold
 * @param where - name of the function that was called, and of its parameter: `slotResistance: height`
 * @param wanted - what it wants, as it follows "wants": "a diameter above 0 m"
 * @param got - what came
 * @throws {RangeError} `where: wants …, got …` when `ok` is false
 *
 * Cost: constant.
 * Source: definition.
 */
export function need(ok: boolean, where: string, wanted: string, got: unknown): asserts ok {
  if (!ok) throw new RangeError(`${where}: wants ${wanted}, got ${String(got)}`);
}

/**
 * Refuses a number that is not finite and above zero.
 *
 * @param where - function and parameter, `slotResistance: height`
 * @param value - [any unit]
 * @returns `value`, same unit
 * @throws {RangeError} when `value` is not finite and above 0
 *
 * Cost: constant.
 * Source: definition.
 */
export function positive(where: string, value: number): number {
  need(value > 0 && value < Infinity, where, 'a finite number above 0', value);
  return value;
}

/**
 * Refuses a number outside a closed interval.
 *
 * @param where - function and parameter, `openFraction: theta`
 * @param value - [any unit]
 * @param low - smallest allowed, same unit
 * @param high - largest allowed, same unit
 * @returns `value`, same unit
 * @throws {RangeError} when `value` is not finite or lies outside low … high
 *
 * Cost: constant.
 * Source: definition.
 */
export function between(where: string, value: number, low: number, high: number): number {
  const inside = value >= low && value <= high && Number.isFinite(value);
  need(inside, where, `a number from ${low} to ${high}`, value);
  return value;
}

/**
 * Refuses numbers that do not rise.
 *
 * @param where - function and what is ordered, `coolingTime: mold < eject < melt`
 * @param values - two or more [same unit]
 * @throws {RangeError} when a value is not finite or not above the one before it
 *
 * Cost: linear in the count.
 * Source: definition.
 */
export function rising(where: string, values: readonly number[]): void {
  const ordered = values.every((value, i) => Number.isFinite(value) && (i === 0 || value > values[i - 1]!));
  need(ordered, where, 'finite rising values', values.join(', '));
}

/**
 * Refuses arguments that are not finite and above zero.
 *
 * @param where - name of the function that was called
 * @param values - arguments by name, any units
 * @throws {RangeError} at the first value that is not finite and above 0
 *
 * Cost: linear in the number of values.
 * Source: definition.
 */
export function needPositive(where: string, values: Readonly<Record<string, number>>): void {
  for (const [name, value] of Object.entries(values)) positive(`${where}: ${name}`, value);
}

/**
 * Refuses arguments that are not finite or lie below zero.
 *
 * @param where - name of the function that was called
 * @param values - arguments by name, any units
 * @throws {RangeError} at the first value that is not finite or is negative
 *
 * Cost: linear in the number of values.
 * Source: definition.
 */
export function needNonNegative(where: string, values: Readonly<Record<string, number>>): void {
  for (const [name, value] of Object.entries(values)) {
    need(value >= 0 && value < Infinity, `${where}: ${name}`, 'a finite number of 0 or more', value);
  }
}
