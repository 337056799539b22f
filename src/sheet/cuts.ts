import type { BaitGeometry, Outline } from '../core/section/geometry.ts';
import { outlineOf, sectionAt } from '../core/section/slice.ts';

/** A cross-section of the bait: station from the nose [m] and outline there, (y, z) [m]. */
export interface Cut {
  readonly x: number;
  readonly outline: Outline;
}

/** Where a drawing would like to cut, as shares of the length, and how far it may step aside for a clean section. */
const SHARES = [0.18, 0.42, 0.66] as const;
const STEPS = [0, -0.03, 0.03, -0.06, 0.06, -0.09, 0.09] as const;

/**
 * Cross-sections that a drawing shows: three along the body, each moved aside as little as it takes to cut one closed
 * ring, so that a leg, an arm or the bow of a tail is not cut beside the body. A place without such a section is left out.
 *
 * @param geometry - the solid and its box [m]
 * @returns cuts from nose to tail
 */
export function cutsOf({ mesh, box }: Pick<BaitGeometry, 'mesh' | 'box'>): Cut[] {
  const length = box.max[0] - box.min[0];
  return SHARES.flatMap((share) => {
    const candidates = STEPS.map((step) => box.min[0] + (share + step) * length);
    for (const x of candidates) {
      const outline = outlineOf(sectionAt(mesh, 'x', x));
      if (outline.length === 1) return [{ x, outline }];
    }
    return [];
  });
}
