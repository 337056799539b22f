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

/** Fragment that fills each pixel on its own, −1 for pixels with several or with none. */
function fillers({ count, pixel, share }: Fragments, pixels: number): Int32Array {
  const alone = new Int32Array(pixels).fill(-1);
  for (let i = 0; i < count; i++) if (share[i] === 1) alone[pixel[i]!] = i;
  return alone;
}

/** Whether two fragments belong to one smooth surface; `apart` is the largest distance along each axis [mm]. */
function oneSurface({ part, position, normal }: Fragments, i: number, j: number, apart: number): boolean {
  if (part[i] !== part[j]) return false;
  let turn = 0;
  for (let axis = 0; axis < 3; axis++) {
    if (Math.abs(position[3 * i + axis]! - position[3 * j + axis]!) > apart) return false;
    turn += normal[3 * i + axis]! * normal[3 * j + axis]!;
  }
  return turn > ALIKE;
}

/** For each fragment the one whose light it takes: its own, or that of the first of its four pixels. */
export function leaders(seen: Fragments, { width, height }: Size, apart: number): Uint32Array {
  const own = Uint32Array.from({ length: seen.count }, (_, i) => i);
  const alone = fillers(seen, width * height);
  for (let row = 0; row + 1 < height; row += 2) {
    for (let at = row * width; at + 1 < (row + 1) * width; at += 2) {
      const first = alone[at]!;
      if (first < 0) continue;
      for (const other of [alone[at + 1]!, alone[at + width]!, alone[at + width + 1]!]) {
        if (other >= 0 && oneSurface(seen, first, other, apart)) own[other] = first;
      }
    }
  }
  return own;
}

/** Places of one part; the light of a place is worked out at the mean of the fragments that take it. */
export function placesOf(seen: Fragments, leader: Uint32Array, part: number): Places {
  const fragments = new Uint32Array(seen.count);
  const places = new Uint32Array(seen.count);
  const placeOf = new Int32Array(seen.count);
  const position = new Float32Array(3 * seen.count);
  const normal = new Float32Array(3 * seen.count);
  const members = new Uint8Array(seen.count);
  let size = 0;
  let count = 0;
  for (let i = 0; i < seen.count; i++) {
    if (seen.part[i] !== part) continue;
    // A leader comes before those that follow it: fragments lie in the order of their pixels.
    if (leader[i] === i) placeOf[i] = count++;
    const place = placeOf[leader[i]!]!;
    fragments[size] = i;
    places[size++] = place;
    members[place]!++;
    for (let axis = 0; axis < 3; axis++) {
      position[3 * place + axis]! += seen.position[3 * i + axis]!;
      normal[3 * place + axis]! += seen.normal[3 * i + axis]!;
    }
  }
  for (let k = 0; k < 3 * count; k++) {
    position[k]! /= members[Math.floor(k / 3)]!;
    normal[k]! /= members[Math.floor(k / 3)]!;
  }
  return {
    count,
    position: position.subarray(0, 3 * count),
    normal: normal.subarray(0, 3 * count),
    fragments: fragments.subarray(0, size),
    places: places.subarray(0, size),
  };
}
