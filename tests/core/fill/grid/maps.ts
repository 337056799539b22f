import { cutCavity, type Cavity } from '../../../../src/core/fill/grid/cavity.ts';
import type { GridFeed } from '../../../../src/core/fill/grid/feed.ts';
import type { CavityMap } from '../../../../src/core/fill/grid/plan-width.ts';
import type { GridMelt } from '../../../../src/core/fill/grid/state.ts';

/** Middle of entry k [m]. */
export function middle(map: CavityMap, place: number): [number, number] {
  return [map.x0 + (place % map.nx) * map.cell, map.y0 + Math.floor(place / map.nx) * map.cell];
}

/** A map of nx × ny cells whose height follows a rule; without side walls when `open`. */
export function mapOf(
  size: { nx: number; ny: number; cell: number; open?: boolean },
  height: (x: number, y: number) => number,
): CavityMap {
  const { nx, ny, cell } = size;
  const map: CavityMap = {
    ...{ nx, ny, cell, x0: cell / 2, y0: (-(ny - 1) * cell) / 2 },
    height: new Float64Array(nx * ny),
    ...(size.open ? { width: new Float64Array(nx * ny).fill(1e6) } : {}),
  };
  for (let place = 0; place < nx * ny; place++) map.height[place] = height(...middle(map, place));
  return map;
}

/** A flat strip, gated across its whole left end, with no side walls. */
export function strip(nx: number, ny: number, cell: number, height: (x: number) => number): Cavity {
  const map = mapOf({ nx, ny, cell, open: true }, height);
  return cutCavity(
    map,
    Array.from({ length: ny }, (_, j) => nx * j),
  );
}

/** A body with a curling thin tail and two pairs of thin legs: some 110 mm long, 60 mm across. */
export function bait(cell: number): CavityMap {
  const body = (x: number, y: number) => {
    if (x >= 0.06) return 0;
    const along = x < 0.02 ? (0.25 * (x + 0.001)) / 0.01 : 0.5 + x / 0.2;
    const radius = 0.006 * Math.sqrt(Math.sin(Math.PI * Math.max(0.02, along)));
    return Math.abs(y) < radius ? 2 * Math.sqrt(radius * radius - y * y) : 0;
  };
  const tail = (x: number, y: number) => {
    const t = (x - 0.055) / 0.055;
    if (t < 0 || Math.abs(y - 0.01 * Math.sin(3 * t)) > 0.004 * (1 - 0.4 * t)) return 0;
    return 1.6e-3 - 0.8e-3 * t;
  };
  const legs = (x: number, y: number) => {
    const out = (Math.abs(y) - 0.004) / 0.021;
    const near = [0.02, 0.045].some(
      (root) => Math.abs(x - root - 0.3 * (Math.abs(y) - 0.005)) < 0.002 - 0.001 * out,
    );
    return out > 0 && out < 1 && near ? 2e-3 - 0.8e-3 * out : 0;
  };
  const size = { nx: Math.round(0.11 / cell), ny: Math.round(0.06 / cell), cell };
  return mapOf(size, (x, y) => Math.max(body(x, y), tail(x, y), legs(x, y)));
}

const VISCOSITY = { reference: 3, at: 448.15, activation: 35000 };

/** Nominal melt on a cold mold, at the temperature at which its viscosity is stated. */
export const MELT: GridMelt = {
  ...{ temperature: 448.15, wall: 302, noFlow: 373.15, diffusivity: 7.5e-8 },
  ...{ viscosity: VISCOSITY, closing: 'own age', cools: false },
};

/** Melt that keeps its heat: no diffusion to speak of. */
export const HOT: GridMelt = { ...MELT, diffusivity: 1e-20 };

/** Melt with a given dimensionless no-flow temperature. */
export const at = (theta: number): GridMelt => ({
  ...MELT,
  noFlow: MELT.wall + theta * (MELT.temperature - MELT.wall),
});

/** A hand that pushes at two bar straight at the gate. */
export const PUSH: GridFeed = { pressure: 2e5, flowLimit: Infinity, stretches: [] };
