import { onGround, type Size } from './camera.ts';
import { expose, unexposed, type Raster } from './exposure.ts';
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

/** Size of the shade of a picture [px]: each of its pixels stands for a small square of the picture's. */
export const shadeSize = ({ width, height }: Size): Size => ({
  width: Math.ceil(width / STEP),
  height: Math.ceil(height / STEP),
});

/** Places on the ground in the middles of the pixels of the shade of a scene. */
export function groundOf({ camera, size, ground }: Scene): Lit {
  const { width: columns, height: rows } = shadeSize(size);
  const position = new Float32Array(3 * columns * rows);
  const normal = new Float32Array(3 * columns * rows);
  for (let i = 0; i < columns * rows; i++) {
    const x = ((i % columns) + 0.5) * (size.width / columns);
    const y = (Math.floor(i / columns) + 0.5) * (size.height / rows);
    position.set(onGround(camera, x, y, ground), 3 * i);
    normal[3 * i + 2] = 1;
  }
  return unlit({ count: columns * rows, position, normal });
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

/** How much of a shadow is left at each place along a side of the picture: it fades to nothing at both ends. */
function fades(length: number, strip: number): Float64Array {
  return Float64Array.from({ length }, (_, place) =>
    smoothStep(0, strip, Math.min(place, length - 1 - place)),
  );
}

/** Colour of a shadow: dark, or partly that of the light that went through. */
function tinted(share: number, glow: Rgb): Rgb {
  const tint = Math.min(0.8, Math.max(0, share));
  const mixed = (k: 0 | 1 | 2) => SHADOW[k] * (1 - tint) + 0.4 * glow[k] * tint;
  return [mixed(0), mixed(1), mixed(2)];
}

/**
 * The shadow of a scene, tinted where light came through plastic, as a small picture of its own. Stretched to the size of
 * the picture and laid under it, it is smooth, and it runs on under what stands on the ground.
 *
 * @param ground - of `groundOf`, with its light
 * @param size - of the picture [px]
 * @param glow - colour of light that went through; left out when nothing lets light through
 * @returns of `shadeSize`, clear along its edges
 */
export function shadeOf(ground: Lit, size: Size, lights: readonly Light[], glow: Rgb | undefined): Raster {
  const shade = unexposed(shadeSize(size));
  const { width, height } = shade;
  const [open, full] = [openLight(lights), fullStrength(lights)];
  const arrived = melted(
    ground.sky.map((value, i) => (value + ground.key[i]!) / open),
    width,
  );
  const through = glow && melted(ground.through, width);
  const [fadeX, fadeY] = [fades(width, FADE * height), fades(height, FADE * height)];
  arrived.forEach((left, i) => {
    const dark = (DARKEST * (1 - left - FAINT)) / (1 - FAINT);
    const faded = fadeX[i % width]! * fadeY[Math.floor(i / width)]! * Math.max(0, dark);
    expose(shade, i, faded, through ? tinted(TINT * (through[i]! / full - left), glow) : SHADOW);
  });
  return shade;
}
