import type { Vec3 } from '../core/mesh/mesh.ts';

/** Sum of products of two vectors. */
export const dot = (a: Vec3, b: Vec3): number => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];

/** Vector product. */
export const cross = (a: Vec3, b: Vec3): Vec3 => [
  a[1] * b[2] - a[2] * b[1],
  a[2] * b[0] - a[0] * b[2],
  a[0] * b[1] - a[1] * b[0],
];

/** A vector of length one in the same direction. */
export function unit(a: Vec3): Vec3 {
  const length = Math.sqrt(dot(a, a));
  return [a[0] / length, a[1] / length, a[2] / length];
}

/** a + b·times. */
export const along = (a: Vec3, b: Vec3, times: number): Vec3 => [
  a[0] + b[0] * times,
  a[1] + b[1] * times,
  a[2] + b[2] * times,
];

/** Direction at an azimuth from +x towards +y and an elevation above the plane z = 0 [rad]. */
export const direction = (azimuth: number, elevation: number): Vec3 => [
  Math.cos(elevation) * Math.cos(azimuth),
  Math.cos(elevation) * Math.sin(azimuth),
  Math.sin(elevation),
];
