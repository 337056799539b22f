import type { Vec2 } from '../../src/core/mesh/mesh.ts';
import type { Section } from '../../src/core/section/slice.ts';

/** A plane section of some rings, outer ones counter-clockwise, holes clockwise. */
export function sectionOf(...rings: readonly (readonly Vec2[])[]): Section {
  const starts = [0];
  for (const ring of rings) starts.push(starts.at(-1)! + ring.length);
  return { at: 0, points: Float64Array.from(rings.flat(2)), rings: Uint32Array.from(starts) };
}
