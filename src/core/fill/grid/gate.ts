import { positive } from '../../quantity/guard.ts';
import { isMirrored } from './mirror.ts';
import type { CavityMap } from './plan-width.ts';

/** Where a gate opens into the cavity. */
export interface GridGate {
  /** End or side of the bait: the nose lies at the low end of x. */
  readonly at: 'nose' | 'tail' | 'side';
  /** Width in the parting plane [m]. */
  readonly width: number;
  /** Depth over both halves [m]. */
  readonly depth: number;
}

/** How far inwards a gate may reach, in its larger measure [1]. */
const REACH = 3;

/** Entries of the map along a line from the gate's side inwards. */
function line(map: CavityMap, at: GridGate['at'], across: number): number[] {
  const { nx, ny } = map;
  if (at === 'side') return Array.from({ length: ny }, (_, k) => across + nx * (ny - 1 - k));
  return Array.from({ length: nx }, (_, k) => (at === 'nose' ? k : nx - 1 - k) + nx * across);
}

/**
 * Line that meets the cavity first, or for a side gate the one through the middle of the volume; between two lines where the
 * cavity is its own mirror image about there.
 */
function middleLine(map: CavityMap, at: GridGate['at']): number {
  const { nx, ny, height } = map;
  if (at === 'side') {
    let [moment, total] = [0, 0];
    height.forEach((value, place) => {
      moment += value * (place % nx);
      total += value;
    });
    return Math.round(moment / total);
  }
  if (isMirrored(map)) return (ny - 1) / 2;
  const first = Array.from({ length: ny }, (_, across) =>
    line(map, at, across).findIndex((p) => height[p]! > 0),
  );
  const reach = Math.min(...first.filter((k) => k >= 0));
  const hits = first.flatMap((k, across) => (k === reach ? [across] : []));
  return hits[Math.floor((hits.length - 1) / 2)]!;
}

/** Entries in one piece from the first in the cavity inwards, no further than the gate could reach. */
function reachable(map: CavityMap, along: readonly number[], gate: GridGate): number[] {
  const first = along.findIndex((place) => map.height[place]! > 0);
  if (first < 0) return [];
  const most = Math.max(1, Math.ceil((REACH * Math.max(gate.width, gate.depth)) / map.cell));
  const near = along.slice(first, first + most);
  const gap = near.findIndex((place) => !(map.height[place]! > 0));
  return gap < 0 ? near : near.slice(0, gap);
}

/**
 * Entries of a map that a gate opens into: along each line within its width the first one as high as the gate is deep,
 * or the highest near the end where none is.
 *
 * @param map - cavity heights on the plan grid [m]
 * @param gate - end or side, width and depth [m]
 * @returns entries of the map, one or more
 * @throws {RangeError} when a measure is not positive or the map is empty
 *
 * Valid: a gate cut straight into the bait, as deep as itself, no further than three times its larger measure.
 * Cost: linear in the map.
 * Source: definition.
 */
export function gateEntries(map: CavityMap, gate: GridGate): number[] {
  positive('gateEntries: width', gate.width);
  positive('gateEntries: depth', gate.depth);
  positive(
    'gateEntries: highest',
    map.height.reduce((a, b) => Math.max(a, b), 0),
  );
  const middle = middleLine(map, gate.at);
  // Whole lines on either side of a line, or of the middle between two.
  const least = middle % 1;
  const half = least + Math.max(0, Math.round((gate.width / map.cell - 1) / 2 - least));
  const lines = gate.at === 'side' ? map.nx : map.ny;
  const entries: number[] = [];
  for (let across = Math.max(0, middle - half); across <= Math.min(lines - 1, middle + half); across++) {
    const near = reachable(map, line(map, gate.at, across), gate);
    if (near.length === 0) continue;
    const highest = near.reduce((best, place) => (map.height[place]! > map.height[best]! ? place : best));
    entries.push(near.find((place) => map.height[place]! >= gate.depth) ?? highest);
  }
  return entries;
}
