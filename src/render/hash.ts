/** A number from 0 to just below 1 that looks random and depends on three whole numbers alone. */
export function hashed(x: number, y: number, z: number): number {
  let bits = Math.imul(x, 0x27d4eb2d) ^ Math.imul(y, 0x165667b1) ^ Math.imul(z, 0x9e3779b1);
  bits = Math.imul(bits ^ (bits >>> 15), 0x85ebca6b);
  bits = Math.imul(bits ^ (bits >>> 13), 0xc2b2ae35);
  return ((bits ^ (bits >>> 16)) >>> 0) / 2 ** 32;
}

/** Smooth noise along a line, 0 to 1. */
export function lineNoise(place: number, row: number): number {
  const cell = Math.floor(place);
  const share = place - cell;
  const ease = share * share * (3 - 2 * share);
  return hashed(cell, row, 7) * (1 - ease) + hashed(cell + 1, row, 7) * ease;
}
