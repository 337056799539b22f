import type { Mesh } from '../mesh/mesh.ts';
import type { Body, Section } from './body.ts';
import { skin, type Ring } from './skin.ts';

/** How finely a solid is meshed. */
export interface Resolution {
  /** Points round a section, a multiple of 4, at least 8. */
  readonly around: number;
  /** Steps along the whole length, at least 4; every stretch between two stations gets its share. */
  readonly along: number;
}

/** Fine enough that a bait's volume is within about 0.2 % of its smooth shape. */
export const FINE: Resolution = { around: 64, along: 160 };

/**
 * Point of a superellipse with its own heights above and below, by its polar angle in the unit square; the points
 * lie evenly enough for any exponent.
 *
 * @param section - half width, heights [m], exponent [1]
 * @param angle - 0 towards +y, π/2 towards +z [rad]
 * @returns y and z [m]
 *
 * Valid: exponent 1 and more.
 * Cost: constant.
 * Source: |y/a|ⁿ + |z/b|ⁿ = 1, G. Lamé (1818), in polar form.
 */
export function outlinePoint(section: Section, angle: number): readonly [number, number] {
  const [cos, sin] = [Math.cos(angle), Math.sin(angle)];
  const n = section.roundness;
  const radius = (Math.abs(cos) ** n + Math.abs(sin) ** n) ** (-1 / n);
  return [radius * cos * section.halfWidth, radius * sin * (sin > 0 ? section.above : section.below)];
}

/**
 * One closed mesh from a body: rings of points in planes across it, joined by triangles; sections are star-shaped
 * and their planes in order, so it cannot cut itself.
 *
 * @param body - sections by distance from the nose [m]
 * @param resolution - points round and steps along
 * @returns closed mesh [m], wound outwards; corners lie on the smooth shape, corners of the sections on z = 0 too
 * @throws {RangeError} when the resolution is too coarse or not a multiple of 4
 *
 * Valid: any body of `bodyOf`; volume and surface come within second order of both steps.
 * Cost: linear in around × along.
 * Source: own derivation.
 */
export function loft(body: Body, resolution: Resolution = FINE): Mesh {
  const { around, along } = resolution;
  if (!(Number.isInteger(around) && around >= 8 && around % 4 === 0 && along >= 4)) {
    throw new RangeError(
      `loft: wants around a multiple of 4 from 8 up and along from 4 up, got ${around}, ${along}`,
    );
  }
  const rings = levels(body, resolution).map((x) => ring(x, body.sectionAt(x), around));
  return skin(rings);
}

function ring(x: number, section: Section, around: number): Ring {
  const middle = [x, 0, (section.above - section.below) / 2] as const;
  if (section.halfWidth === 0) return { points: [[x, 0, 0]], middle };
  const points = Array.from({ length: around }, (_, i) => {
    const quarters = (4 * i) / around;
    // Exact zeros on the axes keep the parting line in the mesh.
    const [y, z] = outlinePoint(section, (quarters * Math.PI) / 2);
    return [x, quarters % 2 === 1 ? 0 : y, quarters % 2 === 0 ? 0 : z] as const;
  });
  return { points, middle };
}

/** Where the rings lie: crowded as a circle needs it in the rounded ends, even between the breaks. */
function levels(body: Body, { around, along }: Resolution): number[] {
  const { from, to, breaks } = body;
  const xs: number[] = [from];
  const cap = Math.ceil(around / 4);
  for (let i = 1; i < breaks.length; i++) {
    const [a, b] = [breaks[i - 1]!, breaks[i]!];
    const rounded =
      i === 1 && body.noseRounding > 0
        ? 'nose'
        : i === breaks.length - 1 && body.tailRounding > 0
          ? 'tail'
          : '';
    const steps = rounded ? cap : Math.max(2, Math.ceil((along * (b - a)) / (to - from)));
    for (let step = 1; step < steps; step++) {
      const t = step / steps;
      const place =
        rounded === 'nose'
          ? 1 - Math.cos((t * Math.PI) / 2)
          : rounded === 'tail'
            ? Math.sin((t * Math.PI) / 2)
            : t;
      xs.push(a + (b - a) * place);
    }
    xs.push(b);
  }
  return xs;
}
