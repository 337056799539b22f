import type { Size } from './camera.ts';

/** A picture with an alpha channel, row by row from the top, 8 bits a channel, sRGB, colours not multiplied by alpha. */
export interface Raster extends Size {
  readonly data: Uint8Array;
}

/** A picture that shows nothing. */
export const unexposed = ({ width, height }: Size): Raster => ({
  width,
  height,
  data: new Uint8Array(4 * width * height),
});

/** Light from which on the curve bends, so that bright parts keep their shape. */
const BEND = 0.7;
const TABLE = 4096;
const MOST = 4;

/** Signal of linear light. Source: IEC 61966-2-1 for the curve below the bend. */
function signalOf(light: number): number {
  const held = light < BEND ? light : BEND + (1 - BEND) * (1 - Math.exp((BEND - light) / (1 - BEND)));
  return held <= 0.0031308 ? 12.92 * held : 1.055 * held ** (1 / 2.4) - 0.055;
}

// Even steps of the square root of light: fine where the curve is steep.
const CURVE = Float32Array.from({ length: TABLE + 1 }, (_, i) => signalOf(MOST * (i / TABLE) ** 2));

/** Signal of linear light, from a table. */
export const encoded = (light: number): number =>
  CURVE[(TABLE * Math.sqrt(Math.min(1, Math.max(0, light) / MOST)) + 0.5) | 0]!;

/** Adds light on a share of a pixel, beside what is there: red, green and blue, linear. */
export function expose({ data }: Raster, pixel: number, share: number, light: ArrayLike<number>): void {
  const at = 4 * pixel;
  const before = data[at + 3]!;
  const cover = before + 255 * share;
  // Too faint for a byte.
  if (cover < 0.5) return;
  const old = before / cover;
  const fresh = 255 * (1 - old);
  data[at] = data[at]! * old + fresh * encoded(light[0]!) + 0.5;
  data[at + 1] = data[at + 1]! * old + fresh * encoded(light[1]!) + 0.5;
  data[at + 2] = data[at + 2]! * old + fresh * encoded(light[2]!) + 0.5;
  data[at + 3] = Math.min(255, cover + 0.5);
}
