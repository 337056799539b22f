import { need, needPositive } from '../quantity/guard.ts';

/** The tapered hole that the injector sits on [m]. */
export interface Sprue {
  readonly mouth: number;
  readonly end: number;
  readonly length: number;
}

/** Round channels from the sprue to the gates; `length` is that of all of them together [m]. */
export interface Runner {
  readonly diameter: number;
  readonly length: number;
}

/** The last passage into one cavity [m]. */
export interface Gate {
  readonly width: number;
  readonly depth: number;
  readonly length: number;
}

/**
 * Volume of a tapered sprue: a frustum of a cone.
 *
 * @param sprue - diameters of mouth and end, length [m]
 * @returns volume [m³]
 * @throws {RangeError} when a length is not positive
 *
 * Cost: constant.
 * Source: frustum, π·L·(D² + Dd + d²)/12; any handbook of mathematics.
 */
export function sprueVolume(sprue: Sprue): number {
  const { mouth, end, length } = sprue;
  needPositive('sprueVolume', { mouth, end, length });
  return (Math.PI * length * (mouth ** 2 + mouth * end + end ** 2)) / 12;
}

/**
 * Volume of round runners.
 *
 * @param runner - diameter and length of all runners together [m]
 * @returns volume [m³]
 * @throws {RangeError} when a length is not positive
 *
 * Cost: constant.
 * Source: cylinder, π·D²·L/4.
 */
export function runnerVolume(runner: Runner): number {
  needPositive('runnerVolume', { diameter: runner.diameter, length: runner.length });
  return (Math.PI * runner.diameter ** 2 * runner.length) / 4;
}

/**
 * Volume of one gate.
 *
 * @param gate - width, depth over both halves, length [m]
 * @returns volume [m³]
 * @throws {RangeError} when a length is not positive
 *
 * Valid: rectangular section.
 * Cost: constant.
 * Source: box.
 */
export function gateVolume(gate: Gate): number {
  needPositive('gateVolume', { width: gate.width, depth: gate.depth, length: gate.length });
  return gate.width * gate.depth * gate.length;
}

/** What feeds the cavities of one mold. */
export interface Channels {
  readonly sprue: Sprue;
  readonly runner?: Runner | undefined;
  readonly gate: Gate;
  readonly cavities: number;
}

/**
 * Volume of everything that feeds the cavities: sprue, runners and one gate a cavity.
 *
 * @param channels - sprue, runner if there is one, gate [m], number of cavities
 * @returns volume of one mold's channels [m³]
 * @throws {RangeError} when a length is not positive or the cavities are not a whole number from 1
 *
 * Cost: constant.
 * Source: sum of the parts.
 */
export function channelVolume(channels: Channels): number {
  const { sprue, runner, gate, cavities } = channels;
  need(
    Number.isInteger(cavities) && cavities >= 1,
    'channelVolume',
    'a whole number of cavities from 1',
    cavities,
  );
  return sprueVolume(sprue) + (runner ? runnerVolume(runner) : 0) + cavities * gateVolume(gate);
}
