/**
 * Refuses a bad argument in the one form that errors of `core` have.
 *
 * @param ok - what has to hold
 * @param where - name of the function that was called
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
  for (const [name, value] of Object.entries(values)) {
    need(value > 0 && value < Infinity, where, `${name} finite and above 0`, value);
  }
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
    need(value >= 0 && value < Infinity, where, `${name} finite and 0 or more`, value);
  }
}
