import type { Vec3 } from '../core/mesh/mesh.ts';

/** 0 below the first edge, 1 above the second, smooth between. */
export function smoothStep(low: number, high: number, value: number): number {
  const share = Math.min(1, Math.max(0, (value - low) / (high - low)));
  return share * share * (3 - 2 * share);
}

/** Light that a shiny surface mirrors from a direction: a sky over paper, and the soft box of the key light. */
export function mirroredLight(x: number, y: number, z: number, key: Vec3): number {
  const sky = z > 0 ? 0.3 + 0.45 * z : 0.3 + 0.1 * z;
  return sky + 5 * smoothStep(0.9, 0.965, x * key[0] + y * key[1] + z * key[2]);
}

/** What machined metal mirrors of the same: softened by its marks, darker towards the horizon. */
export function brushedLight(x: number, y: number, z: number, key: Vec3): number {
  const sky = 0.16 + 0.62 * smoothStep(0.1, 0.95, z) + 0.16 * smoothStep(0, -0.6, z);
  return sky + 0.9 * smoothStep(0.6, 1, x * key[0] + y * key[1] + z * key[2]);
}
