import { between, positive } from '../../quantity/guard.ts';
import { ovalRoundness } from '../profile.ts';
import { eliminationOrder, type Elimination } from './elimination.ts';
import { isMirrored, mirrorPlace } from './mirror.ts';
import { planWidths, type CavityMap } from './plan-width.ts';

/**
 * A cavity cut into square columns, in an order that runs from the gate outwards. Arrays have one entry a cell but for
 * `neighbours`, which has four: east, west, north, south, −1 where there is none.
 */
export interface Cavity {
  readonly map: CavityMap;
  /** True when the cells are the upper half of the map only; the lower one is their mirror image. */
  readonly halved: boolean;
  readonly count: number;
  /** Entry of the map. */
  readonly place: Int32Array;
  /** Cell of an entry of the map, −1 outside. */
  readonly cellAt: Int32Array;
  readonly neighbours: Int32Array;
  /** [m³]. */
  readonly volume: Float64Array;
  /** Governing gap: the smaller of height and local thickness, or plan width where no thickness is given [m]. */
  readonly gap: Float64Array;
  /** Conductance per unit width when open, a pascal second of viscosity [m³]. */
  readonly open: Float64Array;
  /** 0 closes like a slot, 1 like a round channel [1]. */
  readonly roundness: Float64Array;
  /** Cells that the gate opens into. */
  readonly gate: readonly number[];
  /** In which the pressures are solved. */
  readonly order: Elimination;
}

/** Cells of the default grid: halving the pitch from here moves reserves by a few per cent, their bands are ten times that. */
const DEFAULT_CELLS = 1500;

/**
 * Pitch of the default grid.
 *
 * @param projectedArea - of the cavity on the parting plane [m²]
 * @returns pitch [m]
 * @throws {RangeError} when the area is not positive
 *
 * Valid: baits whose thin parts are two cells wide or more.
 * Cost: constant.
 * Source: own grid study; see tests/core/fill/grid and tests/bench/fill.bench.ts.
 */
export function fillPitch(projectedArea: number): number {
  return Math.sqrt(positive('fillPitch: projectedArea', projectedArea) / DEFAULT_CELLS);
}

interface Columns {
  readonly gap: Float64Array;
  readonly open: Float64Array;
  readonly roundness: Float64Array;
}

/** Thinnest rim that is followed on its own, as a share of its thickest neighbour: thinner ones close with that neighbour. */
const RIM = 0.5;

/** Places east, west, north and south that lie in the cavity, −1 for the others; beyond the rows there is no height. */
function steps(map: CavityMap, place: number): number[] {
  const i = place % map.nx;
  const around = [i + 1 < map.nx ? place + 1 : -1, i > 0 ? place - 1 : -1, place + map.nx, place - map.nx];
  return around.map((other) => (map.height[other]! > 0 ? other : -1));
}

/** Gap of every column; the rim of the plan is no thinner than half its neighbour, since it is fed across its whole edge. */
function gaps(map: CavityMap, widths: Float64Array): Float64Array {
  const bare = map.height.map((height, place) => Math.min(height, map.thickness?.[place] || widths[place]!));
  return bare.map((gap, place) => {
    if (!(gap > 0)) return 0;
    const around = steps(map, place);
    if (!around.includes(-1)) return gap;
    return Math.max(gap, RIM * Math.max(...around.map((other) => (other < 0 ? 0 : bare[other]!))));
  });
}

/** Sizes of the columns at some places of a map. */
function columnsAt(map: CavityMap, wide: Columns, place: Int32Array): Columns & Pick<Cavity, 'volume'> {
  const pick = (from: Float64Array) => Float64Array.from(place, (at) => from[at]!);
  const { gap, open, roundness } = wide;
  return {
    ...{ gap: pick(gap), open: pick(open), roundness: pick(roundness) },
    volume: Float64Array.from(place, (at) => map.height[at]! * map.cell ** 2),
  };
}

function columns(map: CavityMap): Columns {
  const widths = map.width ?? planWidths(map);
  const gap = gaps(map, widths);
  const open = new Float64Array(gap.length);
  const roundness = new Float64Array(gap.length);
  for (let place = 0; place < gap.length; place++) {
    const height = map.height[place]!;
    if (!(height > 0)) continue;
    // Plan widths are known to a cell only; no section is narrower than its thickness.
    const width = Math.max(widths[place]!, map.thickness?.[place] ?? 0, map.cell);
    const flatness = Math.min(height, width) / Math.max(height, width);
    // An oval of axes h and w conducts 1/(1 + (h/w)²) of what its columns would without side walls.
    open[place] = (Math.max(height, gap[place]!) * gap[place]! ** 2) / 12 / (1 + flatness ** 2);
    roundness[place] = ovalRoundness(flatness);
  }
  return { gap, open, roundness };
}

/** Places from the gate outwards, nearest in terms of distance over gap first. */
function outwards(map: CavityMap, gap: Float64Array, gate: readonly number[]): number[] {
  const cost = new Float64Array(gap.length).fill(Infinity);
  const order: number[] = [];
  const heap: { place: number; cost: number }[] = [];
  const push = (place: number, value: number) => {
    if (!(value < cost[place]!)) return;
    cost[place] = value;
    heap.push({ place, cost: value });
    for (let k = heap.length - 1; k > 0;) {
      const parent = (k - 1) >> 1;
      if (heap[parent]!.cost <= heap[k]!.cost) break;
      [heap[parent], heap[k]] = [heap[k]!, heap[parent]!];
      k = parent;
    }
  };
  gate.forEach((place) => push(place, 0));
  while (heap.length > 0) {
    const { place, cost: reached } = popLeast(heap);
    if (reached > cost[place]!) continue;
    order.push(place);
    for (const other of steps(map, place)) if (other >= 0) push(other, reached + map.cell / gap[other]!);
  }
  return order;
}

function popLeast(heap: { place: number; cost: number }[]): { place: number; cost: number } {
  const least = heap[0]!;
  const last = heap.pop()!;
  if (heap.length === 0) return least;
  heap[0] = last;
  for (let k = 0; ;) {
    const left = 2 * k + 1;
    if (left >= heap.length) break;
    const child = left + 1 < heap.length && heap[left + 1]!.cost < heap[left]!.cost ? left + 1 : left;
    if (heap[k]!.cost <= heap[child]!.cost) break;
    [heap[k], heap[child]] = [heap[child]!, heap[k]!];
    k = child;
  }
  return least;
}

/** Columns at those places of the map, from the gate outwards, that lie in a row or above it. */
function cut(map: CavityMap, gates: readonly number[], row: number): Cavity {
  const wide = columns(map);
  const place = Int32Array.from(outwards(map, wide.gap, gates).filter((at) => at >= row * map.nx));
  const cellAt = new Int32Array(map.height.length).fill(-1);
  place.forEach((at, k) => (cellAt[at] = k));
  const neighbours = new Int32Array(4 * place.length);
  place.forEach((at, k) => {
    neighbours.set(
      steps(map, at).map((other) => (other < 0 ? -1 : cellAt[other]!)),
      4 * k,
    );
  });
  return {
    ...{ map, halved: row > 0, count: place.length, place, cellAt, neighbours },
    ...columnsAt(map, wide, place),
    gate: gates.map((at) => cellAt[at]!).filter((cell) => cell >= 0),
    order: eliminationOrder(neighbours),
  };
}

/** Those entries that lie in the cavity, one at least. */
function opened(name: string, map: CavityMap, gate: readonly number[]): number[] {
  positive(`${name}: cell`, map.cell);
  const gates = gate.filter((place) => map.height[place]! > 0);
  between(`${name}: gate cells in the cavity`, gates.length, 1, map.height.length);
  return gates;
}

/**
 * Cuts a cavity into columns for the filling model.
 *
 * @param map - cavity heights on the plan grid [m]
 * @param gate - entries of the map that the gate opens into, one or more
 * @returns columns from the gate outwards; parts that no column joins to the gate are left out
 * @throws {RangeError} when the pitch is not positive or no gate entry lies in the cavity
 *
 * Valid: walls that slope gently; narrow ribs through their plan width; ovals through the factor of an elliptic channel.
 * Cost: n·log n and `eliminationOrder`.
 * Source: Hele-Shaw flow, Hieber & Shen, J. Non-Newtonian Fluid Mech. 7 (1980) 1, from memory; oval factor: elliptic
 * Poiseuille flow, White, Viscous Fluid Flow, ch. 3, from memory.
 */
export function cutCavity(map: CavityMap, gate: readonly number[]): Cavity {
  return cut(map, opened('cutCavity', map, gate), 0);
}

/**
 * Cuts a cavity for the filling model, and only half of it where the other half is its mirror image and fills alike.
 *
 * @param map - as `cutCavity`; of an even number of rows if it is to be halved
 * @param gate - as `cutCavity`
 * @returns as `cutCavity`; thicknesses, which may be a little unlike, are the larger of both halves [m]
 * @throws {RangeError} as `cutCavity`
 *
 * Valid: as `cutCavity`; `fillCavity` tells volumes, times and flows of the whole cavity in either case.
 * Cost: as `cutCavity`; runs in half a cavity take a third of the time.
 * Source: nothing flows across a plane of symmetry.
 */
export function cutHalf(map: CavityMap, gate: readonly number[]): Cavity {
  const gates = opened('cutHalf', map, gate);
  const own = new Set(gates);
  const alike =
    map.ny % 2 === 0 && isMirrored(map) && gates.every((place) => own.has(mirrorPlace(map, place)));
  if (!alike) return cut(map, gates, 0);
  const thickness = map.thickness?.map((own, place, all) => Math.max(own, all[mirrorPlace(map, place)]!));
  return cut({ ...map, ...(thickness && { thickness }) }, gates, map.ny / 2);
}

/**
 * The same columns in a map of other heights.
 *
 * @param cavity - from `cutCavity`
 * @param map - heights and thicknesses [m], above 0 at the same places
 * @returns columns with the sizes of the map, in the order of the old ones
 *
 * Valid: heights that change alike, so that the order from the gate outwards stays about right.
 * Cost: as `planWidths`.
 * Source: as `cutCavity`.
 */
export function recutCavity(cavity: Cavity, map: CavityMap): Cavity {
  return { ...cavity, map, ...columnsAt(map, columns(map), cavity.place) };
}
