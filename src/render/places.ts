import type { Size } from './camera.ts';
import type { Fragments } from './fragments.ts';

/** Pixels along each side of a block that shares one place, and of its quarters. */
export const BLOCK = 4;
const QUARTER = BLOCK / 2;

/** For each fragment of a picture the one whose light it takes. */
export interface Leaders {
  /** Its own index, or that of the first of its block or of the quarter of one. */
  readonly leader: Uint32Array;
  /** Leader of each block that is one smooth surface, row by row, −1 for the others. */
  readonly blocks: Int32Array;
  /** Blocks in a row. */
  readonly columns: number;
}

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
  /** Place of each block that is one smooth surface of the part, row by row, −1 for the others. */
  readonly blocks: Int32Array;
  readonly columns: number;
}

/** Pixels share one place when their surfaces turn alike (cosine): those of a quarter, and those of a block. */
const ALIKE = { quarter: 0.996, block: 0.98 };

/** What tells whether pixels of a picture show one surface. */
interface Pixels {
  readonly seen: Fragments;
  readonly width: number;
  /** Fragment that fills each pixel on its own, −1 for pixels with several or with none. */
  readonly alone: Int32Array;
  /** How far two pixels side by side may lie apart along each axis [mm]. */
  readonly apart: number;
}

function fillers({ count, pixel, share }: Fragments, pixels: number): Int32Array {
  const alone = new Int32Array(pixels).fill(-1);
  for (let i = 0; i < count; i++) if (share[i] === 1) alone[pixel[i]!] = i;
  return alone;
}

/** Whether two fragments belong to one smooth surface. */
function oneSurface(
  { part, position, normal }: Fragments,
  one: number,
  other: number,
  apart: number,
  alike: number,
) {
  if (part[one] !== part[other]) return false;
  const i = 3 * one;
  const j = 3 * other;
  if (Math.abs(position[i]! - position[j]!) > apart) return false;
  if (Math.abs(position[i + 1]! - position[j + 1]!) > apart) return false;
  if (Math.abs(position[i + 2]! - position[j + 2]!) > apart) return false;
  const turn = normal[i]! * normal[j]! + normal[i + 1]! * normal[j + 1]! + normal[i + 2]! * normal[j + 2]!;
  return turn > alike;
}

/** Whether a block is one smooth surface. */
function isWhole({ seen, width, alone, apart }: Pixels, corner: number): boolean {
  const first = alone[corner]!;
  if (first < 0) return false;
  for (let row = corner; row < corner + BLOCK * width; row += width) {
    for (let pixel = row; pixel < row + BLOCK; pixel++) {
      const other = alone[pixel]!;
      if (other < 0 || !oneSurface(seen, first, other, BLOCK * apart, ALIKE.block)) return false;
    }
  }
  return true;
}

/** Gives the fragments of a block the first of them as leader. */
function leadBlock({ width, alone }: Pixels, corner: number, leader: Uint32Array): void {
  for (let row = corner; row < corner + BLOCK * width; row += width) {
    for (let pixel = row; pixel < row + BLOCK; pixel++) leader[alone[pixel]!] = alone[corner]!;
  }
}

/** Gives the fragments of a quarter that are like its first that one as leader. */
function leadQuarter({ seen, width, alone, apart }: Pixels, corner: number, leader: Uint32Array): void {
  const first = alone[corner]!;
  if (first < 0) return;
  for (let k = 1; k < QUARTER * QUARTER; k++) {
    const other = alone[corner + (k >> 1) * width + (k & 1)]!;
    if (other >= 0 && oneSurface(seen, first, other, QUARTER * apart, ALIKE.quarter)) leader[other] = first;
  }
}

/**
 * For each fragment the one whose light it takes: the first of its block where that is one smooth surface, else the
 * first of its quarter of the block, else its own. Fragments that share a pixel with others keep to themselves.
 *
 * @param apart - how far two pixels of one surface, side by side, may lie apart along each axis [mm]
 */
export function leaders(seen: Fragments, { width, height }: Size, apart: number): Leaders {
  const leader = new Uint32Array(seen.count);
  for (let i = 0; i < leader.length; i++) leader[i] = i;
  const pixels: Pixels = { seen, width, alone: fillers(seen, width * height), apart };
  const columns = Math.floor(width / BLOCK);
  const blocks = new Int32Array(columns * Math.floor(height / BLOCK)).fill(-1);
  for (let block = 0; block < blocks.length; block++) {
    const corner = BLOCK * (Math.floor(block / columns) * width + (block % columns));
    if (isWhole(pixels, corner)) {
      blocks[block] = pixels.alone[corner]!;
      leadBlock(pixels, corner, leader);
      continue;
    }
    for (let row = corner; row < corner + BLOCK * width; row += QUARTER * width) {
      for (let at = row; at < row + BLOCK; at += QUARTER) leadQuarter(pixels, at, leader);
    }
  }
  return { leader, blocks, columns };
}

/** Fragments of one part, and how many of them lead. */
function sizeOf({ count, part: parts }: Fragments, leader: Uint32Array, part: number) {
  let size = 0;
  let leading = 0;
  for (let i = 0; i < count; i++) {
    if (parts[i] !== part) continue;
    size++;
    if (leader[i] === i) leading++;
  }
  return { size, leading };
}

/** Places of one part; the light of a place is worked out at the mean of the fragments that take it. */
export function placesOf(seen: Fragments, { leader, blocks, columns }: Leaders, part: number): Places {
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
  const ofPart = new Int32Array(blocks.length).fill(-1);
  for (let block = 0; block < blocks.length; block++) {
    const first = blocks[block]!;
    if (first >= 0 && seen.part[first] === part) ofPart[block] = placeOf[first]!;
  }
  return { count, position, normal, fragments, places, blocks: ofPart, columns };
}
