import { BLOCK, type Places } from './places.ts';
import type { Lit } from './shading.ts';
import type { Place } from './surface.ts';

/**
 * Gives a fragment its light: that of its place, or where that is a whole block a mixture of the four blocks around,
 * those of them that are whole too. Smooth surfaces show no blocks.
 *
 * @param into - takes the light
 * @param lit - light on the places
 * @param own - place of the fragment
 * @param x - column of its pixel
 * @param y - row of its pixel
 */
export function takeLight(
  into: Place,
  { blocks, columns }: Places,
  lit: Lit,
  own: number,
  x: number,
  y: number,
): void {
  const column = Math.floor(x / BLOCK);
  const row = Math.floor(y / BLOCK);
  if (column >= columns || blocks[row * columns + column] !== own) {
    into.sky = lit.sky[own]!;
    into.key = lit.key[own]!;
    into.through = lit.through[own]!;
    return;
  }
  // The middles of four blocks around the middle of the pixel.
  const across = (x + 0.5) / BLOCK - 0.5;
  const down = (y + 0.5) / BLOCK - 0.5;
  const left = Math.floor(across);
  const top = Math.floor(down);
  const s = across - left;
  const t = down - top;
  const wholeOr = (c: number, r: number): number => {
    const place = c >= 0 && c < columns ? blocks[r * columns + c] : undefined;
    return place === undefined || place < 0 ? own : place;
  };
  const a = wholeOr(left, top);
  const b = wholeOr(left + 1, top);
  const c = wholeOr(left, top + 1);
  const d = wholeOr(left + 1, top + 1);
  const ofA = (1 - s) * (1 - t);
  const ofB = s * (1 - t);
  const ofC = (1 - s) * t;
  const ofD = s * t;
  const { sky, key, through } = lit;
  into.sky = ofA * sky[a]! + ofB * sky[b]! + ofC * sky[c]! + ofD * sky[d]!;
  into.key = ofA * key[a]! + ofB * key[b]! + ofC * key[c]! + ofD * key[d]!;
  into.through = ofA * through[a]! + ofB * through[b]! + ofC * through[c]! + ofD * through[d]!;
}
