import { onGround } from './camera.ts';
import { expose, type Exposure } from './exposure.ts';
import { fullStrength, openLight, type Light } from './lights.ts';
import type { Rgb } from './material.ts';
import type { Scene } from './scene.ts';
import { unlit, type Lit } from './shading.ts';
import { smoothStep } from './surroundings.ts';

/** Pixels between places where the shadow is worked out: it is soft. */
const STEP = 6;
/** Steps on each side over which neighbouring places melt into one another, twice. */
const MELT = 2;
const SHADOW: Rgb = [0.012, 0.011, 0.01];
const DARKEST = 0.9;
/** Shade too faint to be drawn: it would end in a visible frame. */
const FAINT = 0.03;
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

/** Mean of each place and its neighbours `step` apart, as far as they lie in the same row or column. */
function mean(
  from: Float32Array,
  step: number,
  lines: { readonly of: (i: number) => number; readonly length: number },
) {
  return from.map((_, i) => {
    const here = lines.of(i);
    const first = Math.max(-MELT, -here);
    const last = Math.min(MELT, lines.length - 1 - here);
    let sum = 0;
    for (let k = first; k <= last; k++) sum += from[i + k * step]!;
    return sum / (last - first + 1);
  });
}

/** A grid whose places have melted into one another: single directions of light no longer show. */
function melted(values: Float32Array, columns: number): Float32Array {
  const along = { of: (i: number) => i % columns, length: columns };
  const down = { of: (i: number) => Math.floor(i / columns), length: values.length / columns };
  const once = mean(mean(values, 1, along), columns, down);
  return mean(mean(once, 1, along), columns, down);
}

/** Value of a grid between its places. */
function between(values: Float32Array, columns: number, x: number, y: number): number {
  const c = Math.floor(x);
  const r = Math.floor(y);
  const at = r * columns + c;
  const top = values[at]! * (1 - x + c) + values[at + 1]! * (x - c);
  const bottom = values[at + columns]! * (1 - x + c) + values[at + columns + 1]! * (x - c);
  return top * (1 - y + r) + bottom * (y - r);
}

const fade = (place: number, length: number, strip: number): number =>
  smoothStep(0, strip, Math.min(place, length - 1 - place));

/**
 * Lays the shadow of a scene under what is already exposed, tinted where light came through plastic.
 *
 * @param ground - with its light
 * @param glow - colour of light that went through; left out when nothing lets light through
 */
export function layShadow(
  into: Exposure,
  { lit, columns }: Ground,
  lights: readonly Light[],
  glow: Rgb | undefined,
): void {
  const [open, full] = [openLight(lights), fullStrength(lights)];
  const arrived = melted(
    lit.sky.map((value, i) => (value + lit.key[i]!) / open),
    columns,
  );
  const through =
    glow &&
    melted(
      lit.through.map((value) => value / full),
      columns,
    );
  const strip = FADE * into.height;
  for (let pixel = 0; pixel < into.cover.length; pixel++) {
    const free = 1 - into.cover[pixel]!;
    if (free < 1e-3) continue;
    const x = pixel % into.width;
    const y = Math.floor(pixel / into.width);
    const [column, row] = [(x + 0.5) / STEP, (y + 0.5) / STEP];
    const left = between(arrived, columns, column, row);
    const shade = (DARKEST * (1 - left - FAINT)) / (1 - FAINT);
    if (shade <= 0) continue;
    const dark = free * fade(x, into.width, strip) * fade(y, into.height, strip) * shade;
    const tint = through ? TINT * Math.max(0, between(through, columns, column, row) - left) : 0;
    expose(into, pixel, dark, shadow(Math.min(0.8, tint), glow));
  }
}

function shadow(tint: number, glow: Rgb = SHADOW): Rgb {
  const mixed = (k: 0 | 1 | 2): number => SHADOW[k] * (1 - tint) + 0.4 * glow[k] * tint;
  return [mixed(0), mixed(1), mixed(2)];
}
