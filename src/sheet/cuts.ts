import { outlineOf, sectionAt } from '../core/section/slice.ts';
import type { BaitGeometry, Outline } from '../core/section/geometry.ts';

/** A cross-section of the bait: station from the nose [m] and outline there, (y, z) [m]. */
export interface Cut {
  readonly x: number;
  readonly outline: Outline;
}

const SHARES = [0.2, 0.45, 0.8] as const;

/**
 * Cross-sections that a drawing shows: through the thickest place, and at a fifth, before the middle and at four
 * fifths of the length unless the thickest place is near. A station where the solid has no section is left out.
 */
export function cutsOf({ mesh, box, thickest }: Pick<BaitGeometry, 'mesh' | 'box' | 'thickest'>): Cut[] {
  const length = box.max[0] - box.min[0];
  const even = SHARES.map((share) => box.min[0] + share * length);
  const near = (x: number) => Math.abs(x - thickest.at[0]) < 0.12 * length;
  const stations = [...even.filter((x) => !near(x)), thickest.at[0]].sort((a, b) => a - b);
  return stations
    .map((x) => ({ x, outline: outlineOf(sectionAt(mesh, 'x', x)) }))
    .filter(({ outline }) => outline.length > 0);
}
