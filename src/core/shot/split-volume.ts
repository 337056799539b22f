import type { Mesh, Vec3 } from '../mesh/mesh.ts';
import { need } from '../quantity/guard.ts';

/** A triangle cut by the plane x = at: what lies ahead of it. */
function ahead(corners: readonly Vec3[], at: number): Vec3[] {
  return corners.flatMap((here, i) => {
    const next = corners[(i + 1) % corners.length]!;
    const kept = here[0] <= at ? [here] : [];
    if (here[0] <= at === next[0] <= at) return kept;
    const share = (at - here[0]) / (next[0] - here[0]);
    const cut: Vec3 = [at, here[1] + share * (next[1] - here[1]), here[2] + share * (next[2] - here[2])];
    return [...kept, cut];
  });
}

/** ∫(x − at)·dy dz over a triangle: its area as seen along x, times the mean of x − at. */
function flux([a, b, c]: readonly [Vec3, Vec3, Vec3], at: number): number {
  const seen = ((b[1] - a[1]) * (c[2] - a[2]) - (c[1] - a[1]) * (b[2] - a[2])) / 2;
  return seen * ((a[0] + b[0] + c[0]) / 3 - at);
}

/**
 * Volume of the part of a solid that lies ahead of a station.
 *
 * @param mesh - closed and wound outwards [m]
 * @param at - station along x [m]
 * @returns volume of what has x below `at` [m³]; exact for the mesh
 * @throws {RangeError} when the station is not finite
 *
 * Valid: any closed oriented mesh.
 * Cost: linear in the triangles.
 * Source: divergence theorem with the field (x − at, 0, 0), which vanishes on the cut.
 */
export function volumeAhead({ positions, triangles }: Mesh, at: number): number {
  need(Number.isFinite(at), 'volumeAhead', 'a finite station', at);
  const corner = (index: number): Vec3 => {
    const row = 3 * triangles[index]!;
    return [positions[row]!, positions[row + 1]!, positions[row + 2]!];
  };
  let volume = 0;
  for (let t = 0; t < triangles.length; t += 3) {
    const kept = ahead([corner(t), corner(t + 1), corner(t + 2)], at);
    for (let k = 1; k + 1 < kept.length; k++) volume += flux([kept[0]!, kept[k]!, kept[k + 1]!], at);
  }
  return volume;
}
