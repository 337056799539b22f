import { onGround } from './camera.ts';
import { expose, type Raster } from './exposure.ts';
import { fullStrength, openLight, type Light } from './lights.ts';
import type { Rgb } from './material.ts';
import type { Scene } from './scene.ts';
import { unlit, type Lit } from './shading.ts';
import { smoothStep } from './surroundings.ts';

/** Pixels between places where the shadow is worked out: it is soft. */
const STEP = 10;
/** Steps on each side over which neighbouring places melt into one another, twice. */
const MELT = 1;
const SHADOW: Rgb = [0.012, 0.011, 0.01];
const DARKEST = 0.9;
/** Shade too faint to be drawn: it would end in a visible frame. */
const FAINT = 0.06;
/** How much of the light that went through plastic is seen as its colour in the shadow. */
const TINT = 1;
/** Strip along the edges of a picture in which the shadow fades to nothing, as a share of its height. */
const FADE = 0.1;

/** Places on the ground under a coarse grid of pixels. */
export interface Ground {
  readonly lit: Lit;
  readonly columns: number;
}

/** Places on the ground that are seen between the parts of a scene. */
export function groundOf({ camera, size, ground }: Scene): Ground {
  const columns = Math.ceil(size.width / STEP) + 2;
  const rows = Math.ceil(size.height / STEP) + 2;
  const position = new Float32Array(3 * columns * rows);
  const normal = new Float32Array(3 * columns * rows);
  for (let i = 0; i < columns * rows; i++) {
    position.set(onGround(camera, (i % columns) * STEP, Math.floor(i / columns) * STEP, ground), 3 * i);
    normal[3 * i + 2] = 1;
  }
  return { lit: unlit({ count: columns * rows, position, normal }), columns };
}

/** Mean of each place and its neighbours in its line, as far as they lie in it; lines begin at multiples of `stride`. */
function mean(from: Float32Array, step: number, length: number, stride: number): Float32Array {
  const to = new Float32Array(from.length);
  for (let line = 0; line < from.length / length; line++) {
    const start = line * stride;
    for (let here = 0; here < length; here++) {
      const first = Math.max(0, here - MELT);
      const last = Math.min(length - 1, here + MELT);
      let sum = 0;
      for (let k = first; k <= last; k++) sum += from[start + k * step]!;
      to[start + here * step] = sum / (last - first + 1);
    }
  }
  return to;
}

/** A grid whose places have melted into one another: single directions of light no longer show. */
function melted(values: Float32Array, columns: number): Float32Array {
  const along = (grid: Float32Array) => mean(grid, 1, columns, columns);
  const down = (grid: Float32Array) => mean(grid, columns, values.length / columns, 1);
  return down(along(down(along(values))));
}

/** Values between two rows of a grid. */
function rowBetween(grid: Float32Array, columns: number, row: number, into: Float64Array): void {
  const above = Math.floor(row) * columns;
  const share = row - Math.floor(row);
  for (let c = 0; c < columns; c++)
    into[c] = grid[above + c]! * (1 - share) + grid[above + columns + c]! * share;
}

/** How much of a shadow is left at each place along a side of the picture: it fades to nothing at both ends. */
function fades(length: number, strip: number): Float64Array {
  return Float64Array.from({ length }, (_, place) =>
    smoothStep(0, strip, Math.min(place, length - 1 - place)),
  );
}

/** How dark the ground is at each place of its grid, below 0 where the shade is too faint, and how much of it glows. */
function shadeOf({ lit, columns }: Ground, lights: readonly Light[], glows: boolean) {
  const [open, full] = [openLight(lights), fullStrength(lights)];
  const arrived = melted(
    lit.sky.map((value, i) => (value + lit.key[i]!) / open),
    columns,
  );
  const through = glows ? melted(lit.through, columns) : arrived;
  return {
    dark: arrived.map((left) => (DARKEST * (1 - left - FAINT)) / (1 - FAINT)),
    tint: through.map((light, i) => (glows ? TINT * (light / full - arrived[i]!) : 0)),
  };
}

/**
 * Lays the shadow of a scene under what is already exposed, tinted where light came through plastic.
 *
 * @param ground - with its light
 * @param glow - colour of light that went through; left out when nothing lets light through
 */
export function layShadow(
  into: Raster,
  ground: Ground,
  lights: readonly Light[],
  glow: Rgb | undefined,
): void {
  const { width, height, data } = into;
  const { columns } = ground;
  const { dark, tint } = shadeOf(ground, lights, glow !== undefined);
  const [fadeX, fadeY] = [fades(width, FADE * height), fades(height, FADE * height)];
  const darkRow = new Float64Array(columns);
  const tintRow = new Float64Array(columns);
  const light = new Float64Array(3);
  for (let y = 0; y < height; y++) {
    rowBetween(dark, columns, (y + 0.5) / STEP, darkRow);
    rowBetween(tint, columns, (y + 0.5) / STEP, tintRow);
    for (let c = 0; c * STEP < width; c++) {
      const shades = darkRow[c + 1]! - darkRow[c]!;
      if (darkRow[c]! <= 0 && shades <= -darkRow[c]!) continue;
      for (let x = c * STEP; x < width && x < (c + 1) * STEP; x++) {
        const free = 1 - data[4 * (y * width + x) + 3]! / 255;
        const share = (x + 0.5) / STEP - c;
        const shade = darkRow[c]! + shades * share;
        if (free === 0 || shade <= 0) continue;
        tinted(tintRow[c]! + (tintRow[c + 1]! - tintRow[c]!) * share, glow, light);
        expose(into, y * width + x, free * fadeX[x]! * fadeY[y]! * shade, light);
      }
    }
  }
}

/** Colour of a shadow: dark, or partly that of the light that went through. */
function tinted(share: number, glow: Rgb = SHADOW, out: Float64Array): void {
  const tint = Math.min(0.8, Math.max(0, share));
  for (let k = 0; k < 3; k++) out[k] = SHADOW[k]! * (1 - tint) + 0.4 * glow[k]! * tint;
}
