import type { Size } from './camera.ts';
import type { Fragments } from './fragments.ts';

/** Places of one part where light is worked out, and the place of each of its fragments. */
export interface Places {
  readonly count: number;
  /** Shape (count, 3) [mm]. */
  readonly position: Float32Array;
  /** Shape (count, 3), length one. */
  readonly normal: Float32Array;
  /** Fragments of the part, and for each of them its place. */
  readonly fragments: Uint32Array;
  readonly places: Uint32Array;
}

/** Four pixels share one place when their surfaces turn alike (cosine) and lie within so many pixels [px]. */
const ALIKE = 0.996;

/** Whether two fragments belong to one smooth surface; `apart` is the largest distance along each axis [mm]. */
function oneSurface(
  { part, position, normal }: Fragments,
  one: number,
  other: number,
  apart: number,
): boolean {
  if (part[one] !== part[other]) return false;
  const i = 3 * one;
  const j = 3 * other;
  if (Math.abs(position[i]! - position[j]!) > apart) return false;
  if (Math.abs(position[i + 1]! - position[j + 1]!) > apart) return false;
  if (Math.abs(position[i + 2]! - position[j + 2]!) > apart) return false;
  const turn = normal[i]! * normal[j]! + normal[i + 1]! * normal[j + 1]! + normal[i + 2]! * normal[j + 2]!;
  return turn > ALIKE;
}

/**
 * For each fragment the one whose light it takes: its own, or that of the first of its four pixels. Fragments that
 * share a pixel with others keep to themselves.
 */
export function leaders(seen: Fragments, { width }: Size, apart: number): Uint32Array {
  const { count, pixel, share } = seen;
  const own = new Uint32Array(count);
  // Of every four pixels the first fragment that fills one, by the column of the four, in the present pair of rows.
  const first = new Int32Array(Math.ceil(width / 2)).fill(-1);
  let pair = -1;
  for (let i = 0; i < count; i++) {
    own[i] = i;
    const row = Math.floor(pixel[i]! / width);
    const column = pixel[i]! - row * width;
    if (row >> 1 !== pair) {
      first.fill(-1);
      pair = row >> 1;
    }
    if (share[i] !== 1) continue;
    const leader = first[column >> 1]!;
    if (leader < 0) first[column >> 1] = i;
    else if (oneSurface(seen, leader, i, apart)) own[i] = leader;
  }
  return own;
}

/** Fragments of one part, and how many of them lead. */
function sizeOf({ count, part: parts }: Fragments, leader: Uint32Array, part: number) {
  let [size, leading] = [0, 0];
  for (let i = 0; i < count; i++) {
    if (parts[i] !== part) continue;
    size++;
    if (leader[i] === i) leading++;
  }
  return { size, leading };
}

/** Places of one part; the light of a place is worked out at the mean of the fragments that take it. */
export function placesOf(seen: Fragments, leader: Uint32Array, part: number): Places {
  const { size, leading } = sizeOf(seen, leader, part);
  const fragments = new Uint32Array(size);
  const places = new Uint32Array(size);
  const position = new Float32Array(3 * leading);
  const normal = new Float32Array(3 * leading);
  const members = new Uint8Array(leading);
  const placeOf = new Uint32Array(seen.count);
  let count = 0;
  let next = 0;
  for (let i = 0; i < seen.count; i++) {
    if (seen.part[i] !== part) continue;
    // A leader comes before those that follow it: fragments lie in the order of their pixels.
    if (leader[i] === i) placeOf[i] = count++;
    const place = placeOf[leader[i]!]!;
    fragments[next] = i;
    places[next++] = place;
    members[place]!++;
    const from = 3 * i;
    const to = 3 * place;
    position[to]! += seen.position[from]!;
    position[to + 1]! += seen.position[from + 1]!;
    position[to + 2]! += seen.position[from + 2]!;
    normal[to]! += seen.normal[from]!;
    normal[to + 1]! += seen.normal[from + 1]!;
    normal[to + 2]! += seen.normal[from + 2]!;
  }
  for (let place = 0, k = 0; place < count; place++) {
    const share = 1 / members[place]!;
    for (const last = k + 3; k < last; k++) {
      position[k]! *= share;
      normal[k]! *= share;
    }
  }
  return { count, position, normal, fragments, places };
}
