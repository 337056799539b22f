import type { Outline } from '../core/section/geometry.ts';
import type { Vec2 } from '../core/mesh/mesh.ts';
import { simplifiedRing } from './path.ts';
import type { Point } from './picture.ts';

/** Outlines stay this close to the true ones [mm on paper]. */
const TOLERANCE = 0.02;

/** From the model [m] to the paper [mm]: `factor` is the drawing scale; `flip` turns the upright axis over. */
export interface View {
  readonly factor: number;
  readonly flip?: boolean;
}

/** A model point on the paper, the model's origin at the paper's. */
export function onPaper([u, v]: Vec2, { factor, flip = false }: View): Point {
  return [u * 1000 * factor, (flip ? v : -v) * 1000 * factor];
}

/** An outline on the paper, with no more points than it needs. */
export function outlineOnPaper(outline: Outline, view: View): Point[][] {
  return outline
    .map((ring) =>
      simplifiedRing(
        ring.map((point) => onPaper(point, view)),
        TOLERANCE,
      ),
    )
    .filter((ring) => ring.length > 2);
}

/** Least and most of both coordinates of an outline, in its own unit. */
export function extent(rings: readonly (readonly (readonly [number, number])[])[]): {
  readonly min: Vec2;
  readonly max: Vec2;
} {
  let [x0, y0, x1, y1] = [Infinity, Infinity, -Infinity, -Infinity];
  for (const [x, y] of rings.flat()) {
    [x0, y0, x1, y1] = [Math.min(x0, x), Math.min(y0, y), Math.max(x1, x), Math.max(y1, y)];
  }
  return { min: [x0, y0], max: [x1, y1] };
}

/** The points where an outline is lowest and highest along one of its coordinates. */
export function extremes(
  rings: readonly (readonly Point[])[],
  axis: 0 | 1,
): { readonly low: Point; readonly high: Point } {
  const points = rings.flat();
  const start: Point = points[0] ?? [0, 0];
  return {
    low: points.reduce((best, point) => (point[axis] < best[axis] ? point : best), start),
    high: points.reduce((best, point) => (point[axis] > best[axis] ? point : best), start),
  };
}
