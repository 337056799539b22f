import type { Mesh, Vec2 } from '../mesh/mesh.ts';
import type { Outline } from './geometry.ts';

/** Axis across which a mesh is cut: the plane is `x = c`, `y = c` or `z = c`. */
export type Axis = 'x' | 'y' | 'z';

/**
 * A plane section in compact form. `points` has shape (P, 2), row by row [m]: (y, z) across x, (x, z) across y,
 * (x, y) across z. Ring r is rows `rings[r]` to `rings[r + 1]`, its last point not repeated; outer rings run
 * counter-clockwise in those coordinates, holes clockwise.
 */
export interface Section {
  readonly at: number;
  readonly points: Float64Array;
  readonly rings: Uint32Array;
}

/** Offsets in a row of positions: height across the plane, then the two coordinates in it; `flip` mirrors y. */
const FRAMES = {
  x: { h: 0, u: 1, v: 2, flip: false },
  y: { h: 1, u: 0, v: 2, flip: true },
  z: { h: 2, u: 0, v: 1, flip: false },
} as const;

/**
 * Sections of a closed mesh by many parallel planes, all in one sweep.
 *
 * A vertex that lies on a plane counts as above it, for every triangle alike, so each section is the limit from
 * below: of a box over 0 ≤ x ≤ 1 the section at x = 0 is empty and the one at x = 1 is the whole face.
 *
 * @param mesh - closed and wound outwards [m]
 * @param axis - axis that the planes cut across
 * @param stations - where [m], rising
 * @returns one section a station, in order
 * @throws {RangeError} when stations do not rise, or the surface is open at a plane
 *
 * Valid: any closed oriented mesh; edges shared by four or more triangles are paired as they come.
 * Cost: one pass over the triangles, then linear in the crossings; 100 sections of 100 000 triangles in some 5 ms.
 * Source: contour linking over an incremental plane sweep, R. Minetto and others, An optimal algorithm for 3D
 * triangle mesh slicing, Computer-Aided Design 92 (2017), from memory; ties as in H. Edelsbrunner and E. P. Mücke,
 * Simulation of simplicity, ACM Trans. Graphics 9 (1990).
 */
export function sectionsAlong(mesh: Mesh, axis: Axis, stations: readonly number[]): Section[] {
  for (let k = 0; k < stations.length; k++) {
    if (!Number.isFinite(stations[k]) || (k > 0 && stations[k]! < stations[k - 1]!)) {
      throw new RangeError(`sectionsAlong: wants finite rising stations, got ${stations[k]} at place ${k}`);
    }
  }
  const { starts, crossing } = crossingsByStation(mesh, FRAMES[axis].h, Float64Array.from(stations));
  const most = starts.reduce((max, start, k) => Math.max(max, start - (starts[k - 1] ?? 0)), 0);
  const desk = linkingDesk(mesh.positions.length / 3, most);
  return stations.map((at, k) => {
    linkStation(mesh, axis, at, crossing.subarray(starts[k], starts[k + 1]), starts[k]!, desk);
    return walkRings(at, starts[k + 1]! - starts[k]!, desk);
  });
}

/**
 * Section of a closed mesh by one plane; see `sectionsAlong`.
 *
 * @param mesh - closed and wound outwards [m]
 * @param axis - axis that the plane cuts across
 * @param at - where [m]
 * @returns the section [m]
 * @throws {RangeError} when `at` is not finite or the surface is open there
 *
 * Cost: one pass over the triangles.
 * Source: as `sectionsAlong`.
 */
export function sectionAt(mesh: Mesh, axis: Axis, at: number): Section {
  return sectionsAlong(mesh, axis, [at])[0]!;
}

/**
 * The rings of a section as lists of points.
 *
 * @param section - in compact form [m]
 * @returns closed rings [m], outer ones counter-clockwise
 *
 * Cost: linear in the points.
 * Source: definition.
 */
export function outlineOf(section: Section): Outline {
  const { points, rings } = section;
  return Array.from({ length: rings.length - 1 }, (_, r) =>
    Array.from({ length: rings[r + 1]! - rings[r]! }, (_, i): Vec2 => {
      const row = 2 * (rings[r]! + i);
      return [points[row]!, points[row + 1]!];
    }),
  );
}

/** Triangle, first station and the one after the last, of each triangle that is cut; used again by every call. */
let spans = new Int32Array(0);

/** Fills `spans` with the triangles that stations cut, and counts those of each station in the entry after it. */
function findSpans(
  { positions, triangles }: Mesh,
  h: number,
  stations: Float64Array,
  counts: Uint32Array,
): number {
  const n = stations.length;
  const first = stations[0] ?? 0;
  const pitch = (n - 1) / (stations[n - 1]! - first || 1);
  if (spans.length < triangles.length) spans = new Int32Array(triangles.length);
  let spanned = 0;
  for (let corner = 0; corner < triangles.length; corner += 3) {
    const a = positions[3 * triangles[corner]! + h]!;
    const b = positions[3 * triangles[corner + 1]! + h]!;
    const c = positions[3 * triangles[corner + 2]! + h]!;
    const low = a < b ? (a < c ? a : c) : b < c ? b : c;
    const high = a > b ? (a > c ? a : c) : b > c ? b : c;
    // First station above the lowest corner; a guess by even spacing, put right by steps.
    let from = Math.min(n, Math.max(0, Math.ceil((low - first) * pitch)));
    while (from > 0 && stations[from - 1]! > low) from--;
    while (from < n && stations[from]! <= low) from++;
    let to = from;
    while (to < n && stations[to]! <= high) counts[++to]!++;
    if (to === from) continue;
    spans[spanned++] = corner / 3;
    spans[spanned++] = from;
    spans[spanned++] = to;
  }
  return spanned;
}

/** For each station the triangles it cuts, as one list with the start of each station's part. */
function crossingsByStation(mesh: Mesh, h: number, stations: Float64Array) {
  const n = stations.length;
  const starts = new Uint32Array(n + 1);
  const spanned = findSpans(mesh, h, stations, starts);
  for (let k = 0; k < n; k++) starts[k + 1]! += starts[k]!;
  const crossing = new Uint32Array(starts[n]!);
  const place = starts.slice();
  for (let i = 0; i < spanned; i += 3) {
    for (let k = spans[i + 1]!; k < spans[i + 2]!; k++) crossing[place[k]!++] = spans[i]!;
  }
  return { starts, crossing };
}

/**
 * Scratch of the linking, one entry a crossing of the present station: its start point, the edges it starts and ends on,
 * what follows. It is small and used for all stations, which keeps it in the processor's nearest memory.
 */
interface Desk {
  readonly points: Float64Array;
  readonly startLow: Int32Array;
  readonly startHigh: Int32Array;
  readonly endLow: Int32Array;
  readonly endHigh: Int32Array;
  /** Next crossing that starts at the same lower vertex, counted over all stations. */
  readonly chain: Int32Array;
  readonly next: Int32Array;
  /** Latest crossing that starts at a lower vertex, counted over all stations; stale once below the station's first. */
  readonly head: Int32Array;
}

function linkingDesk(vertices: number, crossings: number): Desk {
  const list = () => new Int32Array(crossings);
  return {
    points: new Float64Array(2 * crossings),
    startLow: list(),
    startHigh: list(),
    endLow: list(),
    endHigh: list(),
    chain: list(),
    next: list(),
    head: new Int32Array(vertices).fill(-1),
  };
}

/** Crossing points of one station, and for each crossing the one that follows it round its ring. */
function linkStation(mesh: Mesh, axis: Axis, at: number, cut: Uint32Array, first: number, desk: Desk): void {
  const { h, u, v, flip } = FRAMES[axis];
  const { positions, triangles } = mesh;
  const { points, startLow, startHigh, endLow, endHigh, chain, next, head } = desk;
  for (let s = 0; s < cut.length; s++) {
    let a = triangles[3 * cut[s]!]!;
    let b = triangles[3 * cut[s]! + 1]!;
    let c = triangles[3 * cut[s]! + 2]!;
    const aUp = positions[3 * a + h]! >= at;
    const bUp = positions[3 * b + h]! >= at;
    const cUp = positions[3 * c + h]! >= at;
    // Turn the triangle until `a` is the corner alone on its side.
    let alone = aUp;
    if (aUp === cUp) [a, b, c, alone] = [b, c, a, bUp];
    else if (aUp === bUp) [a, b, c, alone] = [c, a, b, cUp];
    // Inside lies to the left when the line runs from the edge that falls to the edge that rises.
    const forth = alone === flip ? c : b;
    const back = alone === flip ? b : c;
    const low = alone ? forth : a;
    const high = alone ? a : forth;
    startLow[s] = low;
    startHigh[s] = high;
    endLow[s] = alone ? back : a;
    endHigh[s] = alone ? a : back;
    const below = positions[3 * low + h]!;
    const share = (at - below) / (positions[3 * high + h]! - below);
    const lowU = positions[3 * low + u]!;
    const lowV = positions[3 * low + v]!;
    points[2 * s] = share === 1 ? positions[3 * high + u]! : lowU + share * (positions[3 * high + u]! - lowU);
    points[2 * s + 1] =
      share === 1 ? positions[3 * high + v]! : lowV + share * (positions[3 * high + v]! - lowV);
    chain[s] = head[low]!;
    head[low] = first + s;
  }
  for (let s = 0; s < cut.length; s++) {
    let found = head[endLow[s]!]!;
    while (found >= first && startHigh[found - first] !== endHigh[s]) found = chain[found - first]!;
    if (found < first) {
      throw new RangeError(`sectionsAlong: wants a closed mesh, got an open edge at ${axis} = ${at}`);
    }
    next[s] = found - first;
    startHigh[found - first] = -1;
  }
}

/** Follows the links of one station round its rings; rings that shrink to a point or a line are left out. */
function walkRings(at: number, count: number, desk: Desk): Section {
  const { points: corners, next } = desk;
  const points = new Float64Array(2 * count);
  const rings: number[] = [0];
  let filled = 0;
  for (let start = 0; start < count; start++) {
    const from = filled;
    for (let s = start; next[s]! >= 0;) {
      const u = corners[2 * s]!;
      const v = corners[2 * s + 1]!;
      if (filled === from || u !== points[filled - 2] || v !== points[filled - 1]) {
        points[filled++] = u;
        points[filled++] = v;
      }
      const following = next[s]!;
      next[s] = -1;
      s = following;
    }
    while (
      filled > from + 2 &&
      points[from] === points[filled - 2] &&
      points[from + 1] === points[filled - 1]
    ) {
      filled -= 2;
    }
    if (filled >= from + 6) rings.push(filled / 2);
    else filled = from;
  }
  return { at, points: points.subarray(0, filled), rings: Uint32Array.from(rings) };
}
