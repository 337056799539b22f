import type { Box, Vec3 } from '../mesh/mesh.ts';

/** A polyline by arc length [m], straight beyond both ends. */
export interface MiddleLine {
  readonly length: number;
  readonly pointAt: (s: number) => Vec3;
  /** Unit direction, taken over a short stretch about s. */
  readonly directionAt: (s: number) => Vec3;
  /** Whether a point belongs to the stretch that is to be measured. */
  readonly covers: (point: Vec3) => boolean;
}

/** Points this far outside a box still count as in it, as a part of its size [1]. */
const EDGE = 1e-9;

/** Stretch over which the direction is taken, as a part of the length: long enough to ride over the line's own noise [1]. */
const STRETCH = 1 / 12;

/**
 * A middle line by arc length.
 *
 * @param points - two or more in order from root to tip [m]; repeated ones are skipped
 * @param within - box that bounds what is measured [m]; left out, there is no bound
 * @returns point [m] and direction at any arc length [m]; beyond the ends it runs on straight
 * @throws {RangeError} when fewer than two different points come
 *
 * Cost: logarithmic a call.
 * Source: definition.
 */
export function middleLineOf(points: readonly Vec3[], within?: Box): MiddleLine {
  const kept = points.filter((point, i) => i === 0 || apart(point, points[i - 1]!) > 0);
  if (kept.length < 2)
    throw new RangeError(`middleLineOf: wants two different points or more, got ${kept.length}`);
  const arcs = [0];
  for (let i = 1; i < kept.length; i++) arcs.push(arcs[i - 1]! + apart(kept[i]!, kept[i - 1]!));
  const length = arcs.at(-1)!;
  const pointAt = (s: number): Vec3 => {
    let i = 1;
    let end = kept.length - 1;
    while (i < end) {
      const middle = (i + end) >> 1;
      if (arcs[middle]! < s) i = middle + 1;
      else end = middle;
    }
    const share = (s - arcs[i - 1]!) / (arcs[i]! - arcs[i - 1]!);
    return between(kept[i - 1]!, kept[i]!, share);
  };
  const directionAt = (s: number): Vec3 => {
    const half = (length * STRETCH) / 2;
    const [from, to] = [pointAt(s - half), pointAt(s + half)];
    const size = apart(from, to);
    return [(to[0] - from[0]) / size, (to[1] - from[1]) / size, (to[2] - from[2]) / size];
  };
  const covers = (point: Vec3) => !within || isWithin(within, point);
  return { length, pointAt, directionAt, covers };
}

/**
 * Distance between two points.
 *
 * @param a - [m]
 * @param b - [m]
 * @returns distance [m]
 *
 * Cost: constant.
 * Source: definition.
 */
export function apart(a: Vec3, b: Vec3): number {
  return Math.hypot(a[0] - b[0], a[1] - b[1], a[2] - b[2]);
}

function isWithin({ min, max }: Box, point: Vec3): boolean {
  const slack = EDGE * apart(min, max);
  return point.every((value, axis) => value >= min[axis]! - slack && value <= max[axis]! + slack);
}

const between = (a: Vec3, b: Vec3, share: number): Vec3 => [
  a[0] + share * (b[0] - a[0]),
  a[1] + share * (b[1] - a[1]),
  a[2] + share * (b[2] - a[2]),
];
