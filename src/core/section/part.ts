import type { Vec2 } from '../mesh/mesh.ts';
import type { Outline } from './geometry.ts';
import { largestCircleDiameter } from './pole.ts';
import { outlineOf, type Section } from './slice.ts';

/** One connected part of a section, measured; thickness and width when they are first asked for. */
export interface SectionPart {
  readonly area: number;
  /** Diameter of the largest circle in it [m]. */
  readonly thickness: number;
  /** Longer side of the smallest rectangle about it, at least its thickness [m]. */
  readonly width: number;
  /** Middle of its area [m]. */
  readonly centroid: Vec2;
}

/**
 * The connected part of a section that holds a point, or comes nearest to it.
 *
 * @param section - closed rings [m]
 * @param point - in the section's coordinates [m]
 * @returns its area [m²], thickness, width and centroid [m]; null when the point lies outside every part and farther from
 * the nearest one than half that part's thickness
 *
 * Valid: rings that do not cross.
 * Cost: linear in the points; thickness as `largestCircleDiameter`, at once where the point lies outside.
 * Source: definition; width by the smallest enclosing rectangle, H. Freeman and R. Shapira, Comm. ACM 18 (1975).
 */
export function partAt(section: Section, point: Vec2): SectionPart | null {
  const rings = outlineOf(section).map((ring) => ({
    ring,
    ...ringSums(ring),
    away: distanceTo(ring, point),
  }));
  const outers = rings.filter(({ area }) => area > 0);
  const nearest = outers.toSorted((a, b) => a.away - b.away || a.area - b.area)[0];
  if (!nearest) return null;
  const holes = rings.filter(({ area, ring }) => area < 0 && distanceTo(nearest.ring, ring[0]!) === 0);
  const all = [nearest, ...holes];
  const total = (pick: (ring: (typeof all)[number]) => number) =>
    all.reduce((sum, ring) => sum + pick(ring), 0);
  const area = total((ring) => ring.area);
  if (!(area > 0)) return null;
  let thickness: number | undefined;
  let width: number | undefined;
  const part: SectionPart = {
    area,
    centroid: [total((ring) => ring.u) / area, total((ring) => ring.v) / area],
    get thickness() {
      thickness ??= largestCircleDiameter(
        all.map(({ ring }) => ring),
        area,
        total((ring) => ring.perimeter),
      );
      return thickness;
    },
    get width() {
      width ??= Math.max(part.thickness, longSide(nearest.ring));
      return width;
    },
  };
  return nearest.away > 0 && nearest.away > part.thickness / 2 ? null : part;
}

type Ring = Outline[number];

/** Signed area [m²], its first moments [m³] and the length of a ring [m]. */
function ringSums(ring: Ring): { area: number; u: number; v: number; perimeter: number } {
  const [u0, v0] = ring[0]!;
  let [area, u, v, perimeter] = [0, 0, 0, 0];
  ring.forEach(([au, av], i) => {
    const [bu, bv] = ring[(i + 1) % ring.length]!;
    const twice = (au - u0) * (bv - v0) - (bu - u0) * (av - v0);
    area += twice / 2;
    u += (twice * (au + bu + u0)) / 6;
    v += (twice * (av + bv + v0)) / 6;
    perimeter += Math.hypot(bu - au, bv - av);
  });
  return { area, u, v, perimeter };
}

/** Distance from a point to a ring's inside [m]: 0 within. */
function distanceTo(ring: Ring, [u, v]: Vec2): number {
  let within = false;
  let least = Infinity;
  ring.forEach(([au, av], i) => {
    const [bu, bv] = ring[(i + 1) % ring.length]!;
    if (av > v !== bv > v && u < au + ((bu - au) * (v - av)) / (bv - av)) within = !within;
    const [du, dv] = [bu - au, bv - av];
    const share = Math.min(1, Math.max(0, ((u - au) * du + (v - av) * dv) / (du * du + dv * dv)));
    least = Math.min(least, Math.hypot(au + share * du - u, av + share * dv - v));
  });
  return within ? 0 : least;
}

/** Longer side of the rectangle of least area about a ring; one of its sides lies along the convex hull. */
function longSide(ring: Ring): number {
  const hull = convexHull(ring);
  let [best, side] = [Infinity, 0];
  hull.forEach(([au, av], i) => {
    const [bu, bv] = hull[(i + 1) % hull.length]!;
    const size = Math.hypot(bu - au, bv - av);
    const [du, dv] = [(bu - au) / size, (bv - av) / size];
    const along = extent(hull, du, dv);
    const across = extent(hull, -dv, du);
    if (along * across < best) [best, side] = [along * across, Math.max(along, across)];
  });
  return side;
}

function extent(points: Ring, du: number, dv: number): number {
  let [low, high] = [Infinity, -Infinity];
  for (const [u, v] of points) {
    const along = u * du + v * dv;
    if (along < low) low = along;
    if (along > high) high = along;
  }
  return high - low;
}

/** A. M. Andrew's monotone chain (1979). */
function convexHull(ring: Ring): Ring {
  const sorted = ring.toSorted((a, b) => a[0] - b[0] || a[1] - b[1]);
  const half = (points: Ring): Vec2[] => {
    const chain: Vec2[] = [];
    for (const point of points) {
      while (chain.length > 1 && turn(chain.at(-2)!, chain.at(-1)!, point) <= 0) chain.pop();
      chain.push(point);
    }
    return chain.slice(0, -1);
  };
  return [...half(sorted), ...half(sorted.toReversed())];
}

const turn = (a: Vec2, b: Vec2, c: Vec2): number =>
  (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0]);
