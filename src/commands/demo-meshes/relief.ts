import type { Mesh, Vec3 } from '../../core/mesh/mesh.ts';
import { monotoneCurve, type Curve } from '../../core/solid/pchip.ts';
import { skin, type Ring } from '../../core/solid/skin.ts';

/** A body as a relief over a middle line that runs along x in the plane z = 0 [mm]. */
export interface Relief {
  readonly from: number;
  readonly to: number;
  /** Lengths over which nose and tail are rounded off; 0 leaves an end flat. */
  readonly rounding: readonly [number, number];
  /** Height y of the middle line. */
  readonly middle: Curve;
  /** Half sizes across y and across z. */
  readonly y: Curve;
  readonly z: Curve;
  /** What stands out of that (or is cut into it, when negative), by x and angle about the middle line. */
  readonly carve?: (x: number, angle: number) => number;
  /** How far a section is bowed backwards there; sections must not cross. */
  readonly bow?: (x: number, angle: number) => number;
}

/** A smooth curve through [x, value] pairs. */
export function curve(points: readonly (readonly [number, number])[]): Curve {
  return monotoneCurve(
    points.map(([x]) => x),
    points.map(([, value]) => value),
  );
}

/** Smooth step from 0 at `from` to 1 at `to`. */
export function ramp(from: number, to: number, x: number): number {
  const t = Math.min(1, Math.max(0, (x - from) / (to - from)));
  return t * t * (3 - 2 * t);
}

/** Closed mesh of a ball [m]. */
export function ball(radius: number, around = 16): Mesh {
  const size = () => radius;
  const middle = () => 0;
  return reliefMesh(
    { from: -radius, to: radius, rounding: [radius, radius], middle, y: size, z: size },
    around,
    radius,
  );
}

const quarter = (t: number): number => (t < 1 ? Math.sqrt(Math.max(0, t * (2 - t))) : 1);

/** Closed mesh of a relief [m], `around` points a section and a section about every `step` [mm]. */
export function reliefMesh(relief: Relief, around: number, step: number): Mesh {
  return skin(levels(relief, step).map((x) => ringOf(relief, x, around)));
}

function levels({ from, to, rounding: [nose, tail] }: Relief, step: number): number[] {
  const cap = 9;
  const [start, end] = [from + nose, to - tail];
  const even = Math.ceil((end - start) / step);
  return [
    ...Array.from(
      { length: nose > 0 ? cap : 0 },
      (_, i) => start - nose * Math.cos((i * Math.PI) / (2 * cap)),
    ),
    ...Array.from({ length: even + 1 }, (_, i) => start + ((end - start) * i) / Math.max(1, even)),
    ...Array.from(
      { length: tail > 0 ? cap : 0 },
      (_, i) => end + tail * Math.sin(((i + 1) * Math.PI) / (2 * cap)),
    ),
  ];
}

function ringOf(relief: Relief, x: number, around: number): Ring {
  const { from, to, rounding } = relief;
  const scale = quarter((x - from) / rounding[0]) * quarter((to - x) / rounding[1]);
  const centre = relief.middle(x);
  const place = (y: number, z: number, back = 0): Vec3 => [(x + back) / 1e3, (centre + y) / 1e3, z / 1e3];
  if (scale < 1e-6) return { points: [place(0, 0)], middle: place(0, 0) };
  const [a, b] = [relief.y(x) * scale, relief.z(x) * scale];
  const points = Array.from({ length: around }, (_, i) => {
    const angle = (2 * Math.PI * i) / around;
    const [cos, sin] = [Math.cos(angle), Math.sin(angle)];
    const radius = 1 / Math.hypot(cos / a, sin / b) + (relief.carve?.(x, angle) ?? 0) * scale;
    return place(radius * cos, radius * sin, relief.bow?.(x, angle));
  });
  return { points, middle: place(0, 0) };
}
