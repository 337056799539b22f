import type { Vec3 } from '../core/mesh/mesh.ts';
import type { BaitGeometry } from '../core/section/geometry.ts';
import { outlineOf, sectionAt, type Section } from '../core/section/slice.ts';

type Points = readonly (readonly [number, number])[];

function signedArea(ring: Points): number {
  let sum = 0;
  ring.forEach(([x, y], i) => {
    const [nextX, nextY] = ring[(i + 1) % ring.length] as readonly [number, number];
    sum += x * nextY - nextX * y;
  });
  return sum / 2;
}

/** The largest ring of a section: the body, not a tail that curls past it. */
function bodyRing(section: Section): Points {
  const rings = outlineOf(section);
  return [...rings].sort((a, b) => Math.abs(signedArea(b)) - Math.abs(signedArea(a)))[0] ?? [];
}

/** Area of the body's section at the station of a point [m²]. */
export function sectionAreaAt(geometry: BaitGeometry, at: Vec3): number {
  return Math.abs(signedArea(bodyRing(sectionAt(geometry.mesh, 'x', at[0]))));
}
