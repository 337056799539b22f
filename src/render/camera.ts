import type { Vec3 } from '../core/mesh/mesh.ts';
import { along, cross, direction, unit } from './vector.ts';

/** Width and height of a picture [px]. */
export interface Size {
  readonly width: number;
  readonly height: number;
}

/** Where a scene is looked at from [rad]. */
export interface View {
  /** Of the eye, seen from the scene, from +x towards +y. */
  readonly azimuth: number;
  /** Of the eye above the ground. */
  readonly elevation: number;
  /** Picture turned clockwise. */
  readonly roll?: number;
}

/** A pinhole camera: depth is measured along its axis, away from the eye. */
export interface Camera {
  readonly eye: Vec3;
  readonly right: Vec3;
  readonly up: Vec3;
  readonly back: Vec3;
  /** Pixels for one unit across at a depth of one unit. */
  readonly focal: number;
  /** Where the axis meets the picture [px]. */
  readonly centre: readonly [number, number];
}

/** Distance of the eye in diagonals of the scene: a long lens, so that near parts are not swollen. */
const STAND_OFF = 3.2;
/** Depth of what is never reached [mm]. */
const FAR = 1e6;

function axes({ azimuth, elevation, roll = 0 }: View): Pick<Camera, 'right' | 'up' | 'back'> {
  const back = direction(azimuth, elevation);
  const level = unit(cross([0, 0, 1], back));
  const upright = cross(back, level);
  const [cos, sin] = [Math.cos(roll), Math.sin(roll)];
  const turned = (a: Vec3, b: Vec3, sign: number): Vec3 =>
    along([a[0] * cos, a[1] * cos, a[2] * cos], b, sign * sin);
  return { right: turned(level, upright, 1), up: turned(upright, level, -1), back };
}

/** Smallest and largest of each coordinate of points, row by row. */
export function bounds(points: Float64Array): { min: Vec3; max: Vec3 } {
  const min: [number, number, number] = [Infinity, Infinity, Infinity];
  const max: [number, number, number] = [-Infinity, -Infinity, -Infinity];
  for (const axis of [0, 1, 2] as const) {
    let low = Infinity;
    let high = -Infinity;
    for (let i: number = axis; i < points.length; i += 3) {
      const value = points[i]!;
      if (value < low) low = value;
      if (value > high) high = value;
    }
    min[axis] = low;
    max[axis] = high;
  }
  return { min, max };
}

/**
 * Points as the camera sees them.
 *
 * @param points - shape (V, 3) [mm]
 * @returns shape (V, 3): x and y in the picture [px], y downwards, and 1/depth [1/mm], which is linear across a triangle
 */
export function projected(
  points: Float64Array,
  { eye, right, up, back, focal, centre }: Camera,
): Float64Array {
  const seen = new Float64Array(points.length);
  for (let i = 0; i < points.length; i += 3) {
    const x = points[i]! - eye[0];
    const y = points[i + 1]! - eye[1];
    const z = points[i + 2]! - eye[2];
    const near = -1 / (x * back[0] + y * back[1] + z * back[2]);
    seen[i] = centre[0] + focal * near * (x * right[0] + y * right[1] + z * right[2]);
    seen[i + 1] = centre[1] - focal * near * (x * up[0] + y * up[1] + z * up[2]);
    seen[i + 2] = near;
  }
  return seen;
}

/**
 * A camera that shows all points as large as the picture allows, in its middle.
 *
 * @param points - shape (V, 3) [mm]
 * @param view - where it stands
 * @param size - of the picture [px]
 * @param margin - kept free on every side, as a share of the smaller side
 */
export function framed(points: Float64Array, view: View, size: Size, margin: number): Camera {
  const { min, max } = bounds(points);
  const middle: Vec3 = [(min[0] + max[0]) / 2, (min[1] + max[1]) / 2, (min[2] + max[2]) / 2];
  const diagonal = Math.hypot(max[0] - min[0], max[1] - min[1], max[2] - min[2]);
  const looking = axes(view);
  const eye = along(middle, looking.back, STAND_OFF * diagonal);
  const loose: Camera = { ...looking, eye, focal: 1, centre: [0, 0] };
  const seen = bounds(projected(points, loose));
  const free = margin * Math.min(size.width, size.height);
  const focal = Math.min(
    (size.width - 2 * free) / (seen.max[0] - seen.min[0]),
    (size.height - 2 * free) / (seen.max[1] - seen.min[1]),
  );
  return {
    ...loose,
    focal,
    centre: [
      size.width / 2 - (focal * (seen.min[0] + seen.max[0])) / 2,
      size.height / 2 - (focal * (seen.min[1] + seen.max[1])) / 2,
    ],
  };
}

/** Where the line of sight through a place in the picture meets the level plane at a height; far off where it does not. */
export function onGround(
  { eye, right, up, back, focal, centre }: Camera,
  x: number,
  y: number,
  height: number,
): Vec3 {
  const across = along([-back[0], -back[1], -back[2]], right, (x - centre[0]) / focal);
  const sight = along(across, up, (centre[1] - y) / focal);
  const depth = (height - eye[2]) / sight[2];
  return along(eye, sight, depth > 0 && depth < FAR ? depth : FAR);
}
