import type { Mesh, Vec2, Vec3 } from '../../src/core/mesh/mesh.ts';
import { skinned } from './solids.ts';

/** Corners of a bar's section before its folds: the foot of the wall, and the edge of the first flat. */
export const BEFORE = 2;
/** Flats before the first fold and after the last [m]. */
export const FLAT_ENDS = 5e-3;

/**
 * A bar along x whose upper side is flat but for some folds, seen from above everywhere; its walls stand upright.
 *
 * @param folds - turn of each fold from +y to −y [°], convex ones positive
 * @param gaps - way from each fold to the next [m]
 * @param length - along x [m], in `steps` even steps
 * @returns the bar; vertex 1 + around·step + BEFORE + n lies on fold n
 */
export function foldedBar(
  folds: readonly number[],
  gaps: readonly number[],
  { length = 0.02, steps = 5 } = {},
): { mesh: Mesh; around: number; profile: readonly Vec2[] } {
  let heading = folds.reduce((sum, fold) => sum + fold, 0) / 2;
  let at: Vec2 = [0.01, 0.02];
  const profile: Vec2[] = [at];
  const flats = [FLAT_ENDS, ...gaps, FLAT_ENDS];
  flats.forEach((flat, i) => {
    const angle = (heading * Math.PI) / 180;
    at = [at[0] - flat * Math.cos(angle), at[1] + flat * Math.sin(angle)];
    profile.push(at);
    heading -= folds[i] ?? 0;
  });
  const corners: Vec2[] = [[profile[0]![0], 0], ...profile, [at[0], 0]];
  const rings = Array.from({ length: steps + 1 }, (_, step) =>
    corners.map(([y, z]): Vec3 => [(step * length) / steps, y, z]),
  );
  const middle = (profile[0]![0] + at[0]) / 2;
  return {
    mesh: skinned([0, middle, 0.01], rings, [length, middle, 0.01]),
    around: corners.length,
    profile,
  };
}
