import type { Vec2 } from '../mesh/mesh.ts';
import type { Section } from './slice.ts';

/** Size and second moments of a plane section. */
export interface SectionMoments {
  /** [m²]. */
  readonly area: number;
  /** Length of all rings [m]. */
  readonly perimeter: number;
  /** In the section's two coordinates [m]; (0, 0) of an empty section. */
  readonly centroid: Vec2;
  /** ∫(u − ū)² dA, ∫(v − v̄)² dA and ∫(u − ū)(v − v̄) dA about the centroid [m⁴]. */
  readonly uu: number;
  readonly vv: number;
  readonly uv: number;
}

/**
 * Area of a section.
 *
 * @param section - closed rings, holes clockwise [m]
 * @returns area [m²], 0 when it is empty
 *
 * Cost: linear in the points.
 * Source: Green's theorem.
 */
export function sectionArea(section: Section): number {
  const { points, rings } = section;
  let twice = 0;
  for (let r = 0; r + 1 < rings.length; r++) {
    const end = 2 * rings[r + 1]!;
    // About the ring's own first point, so that a section far from the axis loses no digits.
    const [u0, v0] = [points[2 * rings[r]!]!, points[2 * rings[r]! + 1]!];
    for (let i = 2 * rings[r]! + 2; i + 2 < end; i += 2) {
      twice += (points[i]! - u0) * (points[i + 3]! - v0) - (points[i + 2]! - u0) * (points[i + 1]! - v0);
    }
  }
  return twice / 2;
}

/**
 * Area, perimeter, centroid and second moments of a section.
 *
 * @param section - closed rings, holes clockwise [m]
 * @returns area [m²], perimeter and centroid [m], second moments about the centroid [m⁴]
 *
 * Cost: linear in the points.
 * Source: Green's theorem over polygons; C. Steger, On the calculation of arbitrary moments of polygons,
 * TU München report FGBV-96-05 (1996), from memory.
 */
export function sectionMoments(section: Section): SectionMoments {
  const { points, rings } = section;
  const [u0, v0] = [points[0] ?? 0, points[1] ?? 0];
  let [area, u, v, uu, vv, uv, perimeter] = [0, 0, 0, 0, 0, 0, 0];
  for (let r = 0; r + 1 < rings.length; r++) {
    let [au, av] = [points[2 * rings[r + 1]! - 2]! - u0, points[2 * rings[r + 1]! - 1]! - v0];
    for (let i = rings[r]!; i < rings[r + 1]!; i++) {
      const [bu, bv] = [points[2 * i]! - u0, points[2 * i + 1]! - v0];
      const cross = au * bv - bu * av;
      area += cross / 2;
      u += (cross * (au + bu)) / 6;
      v += (cross * (av + bv)) / 6;
      uu += (cross * (au * au + au * bu + bu * bu)) / 12;
      vv += (cross * (av * av + av * bv + bv * bv)) / 12;
      uv += (cross * (au * bv + 2 * au * av + 2 * bu * bv + bu * av)) / 24;
      perimeter += Math.hypot(bu - au, bv - av);
      [au, av] = [bu, bv];
    }
  }
  if (!(area > 0)) return { area: 0, perimeter, centroid: [0, 0], uu: 0, vv: 0, uv: 0 };
  const [cu, cv] = [u / area, v / area];
  return {
    area,
    perimeter,
    centroid: [u0 + cu, v0 + cv],
    uu: uu - area * cu * cu,
    vv: vv - area * cv * cv,
    uv: uv - area * cu * cv,
  };
}
