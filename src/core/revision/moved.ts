import type { Vec2 } from '../mesh/mesh.ts';
import { needPositive } from '../quantity/guard.ts';
import type { Outline } from '../section/geometry.ts';

/** Longest step between the places at which an outline is looked at [m]. */
const STEP = 0.0004;

function distance([x, y]: Vec2, [ax, ay]: Vec2, [bx, by]: Vec2): number {
  const [ux, uy] = [bx - ax, by - ay];
  const size = ux * ux + uy * uy;
  const share = size > 0 ? Math.min(1, Math.max(0, ((x - ax) * ux + (y - ay) * uy) / size)) : 0;
  return Math.hypot(x - ax - share * ux, y - ay - share * uy);
}

function away(point: Vec2, other: Outline): number {
  let least = Infinity;
  for (const ring of other) {
    for (let i = 0; i < ring.length; i++) {
      least = Math.min(least, distance(point, ring[i]!, ring[(i + 1) % ring.length]!));
    }
  }
  return least;
}

/** A ring with its first point again at its end, in steps of at most `STEP`. */
function walked(ring: readonly Vec2[]): Vec2[] {
  return ring.flatMap((start, i) => {
    const end = ring[(i + 1) % ring.length]!;
    const pieces = Math.max(1, Math.ceil(Math.hypot(end[0] - start[0], end[1] - start[1]) / STEP));
    return Array.from({ length: pieces }, (_, k): Vec2 => {
      const share = k / pieces;
      return [start[0] + share * (end[0] - start[0]), start[1] + share * (end[1] - start[1])];
    });
  });
}

/**
 * The stretches of an outline that lie away from another one.
 *
 * @param outline - closed rings [m]
 * @param other - the outline it is laid over [m]
 * @param tolerance - nearer than this counts as unmoved [m]
 * @returns open runs of points along `outline` [m]; a ring that has moved all round is one run that ends at its start
 * @throws {RangeError} when the tolerance is not positive
 *
 * Cost: points of the one times edges of the other.
 * Source: distance of a point from a broken line.
 */
export function movedRuns(outline: Outline, other: Outline, tolerance: number): Vec2[][] {
  needPositive('movedRuns', { tolerance });
  return outline.flatMap((ring) => {
    const points = walked(ring);
    const off = points.map((point) => away(point, other) > tolerance);
    const still = off.indexOf(false);
    if (still < 0) return points.length > 0 ? [[...points, points[0]!]] : [];
    const runs: Vec2[][] = [];
    for (let i = 0; i < points.length; i++) {
      const at = (still + i) % points.length;
      if (!off[at]) continue;
      if (off[(at - 1 + points.length) % points.length]) runs.at(-1)!.push(points[at]!);
      else runs.push([points[at]!]);
    }
    return runs.filter((run) => run.length > 1);
  });
}
