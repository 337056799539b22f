/** Points without duplicates, in the order of their first appearance. */
export interface PointIndex {
  /** Number of the point, the same for equal coordinates; -0 equals 0. */
  numberOf(x: number, y: number, z: number): number;
  /** Number of the point, -1 when it has not come yet. */
  find(x: number, y: number, z: number): number;
  /** A copy of the points so far, row by row. */
  points(): Float64Array;
}

/**
 * An index of points that gives equal points one number.
 *
 * @param expected - about how many different points will come [-]; more are taken too
 * @param single - true when all coordinates are 32-bit numbers: half the memory, and faster for it
 * @returns an empty index [-]
 *
 * Valid: finite coordinates; a point with NaN is new each time.
 * Cost: constant for each point; 32 to 64 bytes for each different point, 20 to 40 for 32-bit ones.
 * Source: own derivation; open addressing after Knuth, The Art of Computer Programming 3, 2nd ed. (1998), 6.4.
 */
export function pointIndex(expected: number, single = false): PointIndex {
  const Rows = single ? Float32Array : Float64Array;
  let mask = tableSize(expected) - 1;
  let table = new Int32Array(mask + 1).fill(-1);
  let rows = new Rows(3 * ((mask + 1) >> 1));
  let count = 0;
  // Neighbours in a file are neighbours in space: this small table stays in the nearest cache.
  const recent = new Int32Array(RECENT).fill(-1);

  function grow(): void {
    mask = 2 * mask + 1;
    table = new Int32Array(mask + 1).fill(-1);
    const wider = new Rows(2 * rows.length);
    wider.set(rows);
    rows = wider;
    for (let point = 0; point < count; point++) {
      let slot = hash(rows[3 * point]!, rows[3 * point + 1]!, rows[3 * point + 2]!) & mask;
      while (table[slot]! >= 0) slot = (slot + 1) & mask;
      table[slot] = point;
    }
  }

  function numberOf(x: number, y: number, z: number): number {
    const mixed = hash(x, y, z);
    const glance = mixed & (RECENT - 1);
    const seen = 3 * recent[glance]!;
    if (seen >= 0 && rows[seen] === x && rows[seen + 1] === y && rows[seen + 2] === z) return recent[glance]!;
    let slot = mixed & mask;
    for (let point = table[slot]!; point >= 0; point = table[slot]!) {
      const row = 3 * point;
      if (rows[row] === x && rows[row + 1] === y && rows[row + 2] === z) {
        recent[glance] = point;
        return point;
      }
      slot = (slot + 1) & mask;
    }
    table[slot] = count;
    recent[glance] = count;
    rows[3 * count] = x + 0;
    rows[3 * count + 1] = y + 0;
    rows[3 * count + 2] = z + 0;
    count++;
    if (2 * count > mask) grow();
    return count - 1;
  }

  function find(x: number, y: number, z: number): number {
    let slot = hash(x, y, z) & mask;
    for (let point = table[slot]!; point >= 0; point = table[slot]!) {
      const row = 3 * point;
      if (rows[row] === x && rows[row + 1] === y && rows[row + 2] === z) return point;
      slot = (slot + 1) & mask;
    }
    return -1;
  }

  return { numberOf, find, points: () => Float64Array.from(rows.subarray(0, 3 * count)) };
}

const RECENT = 4096;

function tableSize(expected: number): number {
  let size = 64;
  while (size < 2 * expected + 2) size *= 2;
  return size;
}

const scratch = new Float64Array(1);
const words = new Int32Array(scratch.buffer);

// The bits of one skew projection: cheaper than mixing six words, and -0 and 0 come out alike.
function hash(x: number, y: number, z: number): number {
  scratch[0] = 0.8191725133961645 * x + 0.6710436067037893 * y + 0.5497004779019703 * z + 0;
  const mixed = Math.imul(words[0]! ^ Math.imul(words[1]!, 0x9e3779b1), 0x85ebca6b);
  return mixed ^ (mixed >>> 15);
}
