import type { Cavity } from './cavity.ts';
import { mirrorPlace } from './mirror.ts';
import type { CavityFill } from './fill-cavity.ts';
import type { FillState } from './state.ts';

/** Cells of a whole cavity and what a run did to them, as `Cavity` and `FillState` have them. */
export type LaidOut = Pick<Cavity, 'map' | 'place' | 'cellAt' | 'neighbours'> &
  Pick<FillState, 'stage' | 'share' | 'filledAt' | 'cameFrom'>;

/** The sides of a cell where those of its mirror image are: east, west, south, north. */
const ACROSS = [0, 1, 3, 2] as const;

/** Four entries a cell, those of the mirror images behind them. */
function doubledSides<List extends Int32Array | Float64Array>(
  sides: List,
  mirrored: (side: number) => number,
): List {
  const all = new (sides.constructor as new (length: number) => List)(2 * sides.length);
  all.set(sides);
  for (let side = 0; side < sides.length; side++) {
    all[sides.length + side] = mirrored((side & ~3) + ACROSS[side & 3]!);
  }
  return all;
}

/** One entry a cell, those of the mirror images behind them. */
function doubled<List extends Int32Array | Float64Array | Uint8Array>(values: List): List {
  const all = new (values.constructor as new (length: number) => List)(2 * values.length);
  all.set(values);
  all.set(values, values.length);
  return all;
}

/** Neighbours of both halves; cells at the middle line have their own mirror image beyond it. */
function joinedNeighbours({ map, count, place, neighbours }: Cavity): Int32Array {
  const all = doubledSides(neighbours, (side) => (neighbours[side]! < 0 ? -1 : count + neighbours[side]!));
  place.forEach((at, cell) => {
    if (mirrorPlace(map, at) !== at - map.nx) return;
    all[4 * cell + 3] = count + cell;
    all[4 * (count + cell) + 2] = cell;
  });
  return all;
}

/**
 * A run over the cells of the whole cavity, both halves of it where only one was filled.
 *
 * @param fill - a run
 * @returns its cells in their order, the mirror images behind them in the same order
 *
 * Cost: linear in the cells; nothing for a cavity that is not halved.
 * Source: definition.
 */
export function laidOut(fill: CavityFill): LaidOut {
  const { cavity, stage, share, filledAt, cameFrom } = fill.state;
  const { map, place, cellAt, neighbours, count } = cavity;
  if (!cavity.halved) return { map, place, cellAt, neighbours, stage, share, filledAt, cameFrom };
  const places = doubled(place);
  const cells = cellAt.slice();
  for (let cell = 0; cell < count; cell++) {
    places[count + cell] = mirrorPlace(map, place[cell]!);
    cells[places[count + cell]!] = count + cell;
  }
  return {
    ...{ map, place: places, cellAt: cells, neighbours: joinedNeighbours(cavity) },
    ...{ stage: doubled(stage), share: doubled(share), filledAt: doubled(filledAt) },
    cameFrom: doubledSides(cameFrom, (side) => cameFrom[side]!),
  };
}
