import { positive } from '../../quantity/guard.ts';
import { cutCavity, cutHalf, type Cavity } from './cavity.ts';
import { mirrorPlace } from './mirror.ts';
import { planWidths, type CavityMap } from './plan-width.ts';

/** A cavity's map and the entries that its gate opens into. */
export interface GatedMap {
  readonly map: CavityMap;
  readonly gate: readonly number[];
}

/** Four entries become one where at least this many lie in the cavity. */
const ENOUGH = 2;

/**
 * The same cavity on a grid of twice the pitch: four entries of the old grid become one, as high, thick and wide as those
 * of them that lie in the cavity are on the mean.
 *
 * @param cavity - heights, thicknesses and widths [m], gate
 * @returns the map [m] and the gate's entries in it; those that have no cavity left are dropped
 * @throws {RangeError} when the pitch is not positive
 *
 * Valid: what hangs together stays together where it is two cells wide; a row of single cells may come apart.
 * Cost: as `planWidths`.
 * Source: definition.
 */
export function coarsened({ map, gate }: GatedMap): GatedMap {
  const { nx, ny, x0, y0, cell } = map;
  positive('coarsened: cell', cell);
  const [across, up] = [Math.ceil(nx / 2), Math.ceil(ny / 2)];
  const blockOf = (place: number) => ((place % nx) >> 1) + across * (Math.floor(place / nx) >> 1);
  const count = new Uint8Array(across * up);
  map.height.forEach((height, place) => {
    if (height > 0) count[blockOf(place)]! += 1;
  });
  const mean = (values: Float64Array) => {
    const sum = new Float64Array(across * up);
    values.forEach((value, place) => {
      if (map.height[place]! > 0) sum[blockOf(place)]! += value;
    });
    return sum.map((value, block) => (count[block]! < ENOUGH ? 0 : value / count[block]!));
  };
  return {
    map: {
      ...{ nx: across, ny: up, x0: x0 + cell / 2, y0: y0 + cell / 2, cell: 2 * cell },
      height: mean(map.height),
      width: mean(map.width ?? planWidths(map)),
      ...(map.thickness && { thickness: mean(map.thickness) }),
    },
    gate: [...new Set(gate.map(blockOf))].filter((block) => count[block]! >= ENOUGH),
  };
}

const coarse = new WeakMap<Cavity, { readonly cavity: Cavity | null }>();

/**
 * The same cavity cut on a grid of twice the pitch.
 *
 * @param cavity - from `cutCavity`
 * @returns its columns; null where none of its gate is left
 *
 * Valid: as `coarsened`.
 * Cost: as `cutCavity`, once a cavity.
 * Source: definition.
 */
export function coarseCavity(cavity: Cavity): Cavity | null {
  const known = coarse.get(cavity);
  if (known) return known.cavity;
  const own = cavity.gate.map((cell) => cavity.place[cell]!);
  const mirrored = cavity.halved ? own.map((place) => mirrorPlace(cavity.map, place)) : [];
  const { map, gate } = coarsened({ map: cavity.map, gate: [...mirrored, ...own] });
  const cut = gate.length === 0 ? null : (cavity.halved ? cutHalf : cutCavity)(map, gate);
  coarse.set(cavity, { cavity: cut });
  return cut;
}
