import type { Vec2 } from '../mesh/mesh.ts';
import { need, needPositive } from '../quantity/guard.ts';

/** One thing that hangs in the water: its middle (along, up) [m], its mass [kg] and its volume [m³]. */
export interface Hanging {
  readonly at: Vec2;
  readonly mass: number;
  readonly volume: number;
}

/** Centres of a rigged bait, (along, up) [m]. */
export interface Centres {
  readonly mass: Vec2;
  readonly buoyancy: Vec2;
}

function centre(parts: readonly Hanging[], weight: (part: Hanging) => number): Vec2 {
  const total = parts.reduce((sum, part) => sum + weight(part), 0);
  needPositive('centres', { total });
  return [0, 1].map(
    (axis) => parts.reduce((sum, part) => sum + weight(part) * (part.at[axis] ?? 0), 0) / total,
  ) as [number, number];
}

/**
 * Centre of mass and centre of buoyancy of a rigged bait.
 *
 * @param parts - bait, hook, weight: middle [m], mass [kg], volume [m³]
 * @returns both centres [m]
 * @throws {RangeError} when all masses or all volumes are 0
 *
 * Valid: every part of even density.
 * Cost: linear in the parts.
 * Source: definition; Archimedes.
 */
export function centresOf(parts: readonly Hanging[]): Centres {
  return { mass: centre(parts, ({ mass }) => mass), buoyancy: centre(parts, ({ volume }) => volume) };
}

/** How a rigged bait lies in the water while nothing holds it. */
export type Posture = 'nose down' | 'level' | 'tail down';

/** Arms shorter than this share of the length leave a bait about level: estimate. */
const LEVEL_SHARE = 0.01;

/**
 * How a bait turns while it sinks or hangs, from its two centres.
 *
 * @param centres - of mass and of buoyancy, stations from the nose backwards [m]
 * @param length - of the bait [m]
 * @returns `nose down` when the mass lies ahead of the buoyancy, `tail down` when behind, else `level`
 * @throws {RangeError} when the length is not positive
 *
 * Valid: still water, slack line; drag on a tail turns it too.
 * Cost: constant.
 * Source: Archimedes: weight and buoyancy turn a body until one centre hangs below the other; the limit of 1 % of the
 * length is an estimate.
 */
export function posture(centres: Centres, length: number): Posture {
  needPositive('posture', { length });
  const arm = (centres.buoyancy[0] - centres.mass[0]) / length;
  if (arm >= LEVEL_SHARE) return 'nose down';
  return arm <= -LEVEL_SHARE ? 'tail down' : 'level';
}

/** What the tail does while the nose rests on the bottom. */
export type Standing = 'tail up' | 'lies flat';

/**
 * Whether a bait stands on its nose when its weight lies on the bottom.
 *
 * @param parts - bait, hook, weight: middle [m], mass [kg], volume [m³]
 * @param nose - where it touches the bottom [m]
 * @param water - density of the water [kg/m³]
 * @returns `tail up` when the buoyant parts lift more about the nose than the heavy ones press
 * @throws {RangeError} when the density is not positive or nothing is given
 *
 * Valid: still water, slack line.
 * Cost: linear in the parts.
 * Source: moments of the submerged weights about the nose; Archimedes.
 */
export function standing(parts: readonly Hanging[], nose: number, water: number): Standing {
  needPositive('standing', { water });
  need(parts.length > 0, 'standing', 'at least one part', parts.length);
  const moment = parts.reduce(
    (sum, { at, mass, volume }) => sum + (mass - water * volume) * (at[0] - nose),
    0,
  );
  return moment < 0 ? 'tail up' : 'lies flat';
}
