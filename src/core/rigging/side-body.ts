import type { Mesh, Vec2 } from '../mesh/mesh.ts';
import { need } from '../quantity/guard.ts';
import type { Outline } from '../section/geometry.ts';
import { outlineOf, sectionAt } from '../section/slice.ts';

/** How a bait lies in the mold: which way is up when it swims. */
export type Lies = 'on its belly' | 'on its side';

/** The body of a bait as a hook finds it, in the plane that parts left from right: stations along x, heights up [m]. */
export interface SideBody {
  /** Foremost point. */
  readonly nose: Vec2;
  /** Overall length [m]. */
  readonly length: number;
  /** Lowest and highest point of the body at a station [m]; both 0 where there is none. */
  readonly bellyAt: (x: number) => number;
  readonly backAt: (x: number) => number;
}

/**
 * Section of a bait by the plane that a hook lies in: left from right, as it swims.
 *
 * @param mesh - the bait in the mold's frame [m]
 * @param lies - which way is up when it swims
 * @returns outline (x, up) [m]
 * @throws {RangeError} when the plane misses the bait
 *
 * Valid: a bait on its side is parted left from right by the parting plane, one on its belly by the plane y = 0.
 * Cost: one section.
 * Source: definition.
 */
export function hookPlaneSection(mesh: Mesh, lies: Lies): Outline {
  const outline = outlineOf(sectionAt(mesh, lies === 'on its side' ? 'z' : 'y', 0));
  need(outline.length > 0, 'hookPlaneSection', 'a bait that its own middle plane cuts', 'nothing');
  return outline;
}

/** Where an outline is crossed by the upright line at x, from low to high. */
function crossings(outline: Outline, x: number): number[] {
  const found: number[] = [];
  for (const ring of outline) {
    for (let i = 0, j = ring.length - 1; i < ring.length; j = i++) {
      const a = ring[j]!;
      const b = ring[i]!;
      if (a[0] > x === b[0] > x) continue;
      found.push(a[1] + ((b[1] - a[1]) * (x - a[0])) / (b[0] - a[0]));
    }
  }
  return found.sort((a, b) => a - b);
}

type Stretch = readonly [low: number, high: number];

/** Of the stretches over a station the one nearest to the axis: a tail that curls past the body is left out. */
function bodyStretch(outline: Outline, x: number): Stretch {
  const ys = crossings(outline, x);
  let best: Stretch = [0, 0];
  let least = Infinity;
  for (let i = 0; i + 1 < ys.length; i += 2) {
    const [low, high] = [ys[i]!, ys[i + 1]!];
    const away = Math.max(low, -high, 0);
    if (away < least) [best, least] = [[low, high], away];
  }
  return best;
}

/** Stations this close to the ends have no height worth the name [share of the length]. */
const ENDS = 0.002;

/**
 * The body in a side section: belly and back by station.
 *
 * @param outline - (x, up) [m], see `hookPlaneSection`
 * @returns nose, length, belly and back [m]; exact chords of the outline
 * @throws {RangeError} when the outline is empty
 *
 * Valid: stations from nose to tail; those within 0.2 % of an end give the height there.
 * Cost: linear in the points, each time a station is asked for.
 * Source: chord of a polygon; definition.
 */
export function sideBody(outline: Outline): SideBody {
  const points = outline.flat();
  need(points.length > 2, 'sideBody', 'an outline', `${points.length} points`);
  let [first, last] = [points[0]!, points[0]!];
  for (const point of points) {
    if (point[0] < first[0]) first = point;
    if (point[0] > last[0]) last = point;
  }
  const length = last[0] - first[0];
  const stretchAt = (x: number) =>
    bodyStretch(outline, Math.min(last[0] - ENDS * length, Math.max(first[0] + ENDS * length, x)));
  const [low, high] = stretchAt(first[0]);
  return {
    nose: [first[0], (low + high) / 2],
    length,
    bellyAt: (x) => stretchAt(x)[0],
    backAt: (x) => stretchAt(x)[1],
  };
}

/**
 * How far a body's middle line bows away from a straight shank.
 *
 * @param body - belly and back by station [m]
 * @param from - where the shank begins, from the nose [m]
 * @param to - where it ends, from the nose [m]
 * @returns greatest distance of the middle line from its own chord [m]
 * @throws {RangeError} when the stretch is not positive
 *
 * Valid: gentle slopes; measured upright, at 17 stations.
 * Cost: 17 stations.
 * Source: sagitta; definition.
 */
export function bodyBow(body: SideBody, from: number, to: number): number {
  need(to > from, 'bodyBow', 'an end behind the beginning', `${from} to ${to}`);
  const middle = (share: number) => {
    const x = body.nose[0] + from + share * (to - from);
    return (body.bellyAt(x) + body.backAt(x)) / 2;
  };
  const [start, end] = [middle(0), middle(1)];
  const shares = Array.from({ length: 17 }, (_, i) => i / 16);
  return Math.max(...shares.map((share) => Math.abs(middle(share) - start - share * (end - start))));
}
