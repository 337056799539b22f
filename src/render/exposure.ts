import type { Size } from './camera.ts';

/** A picture with an alpha channel, row by row from the top, 8 bits a channel, sRGB, colours not multiplied by alpha. */
export interface Raster extends Size {
  readonly data: Uint8Array;
}

/** A picture while it is being made: signal multiplied by cover, and cover, both 0 to 1. */
export interface Exposure extends Size {
  /** Shape (height · width, 3). */
  readonly signal: Float32Array;
  readonly cover: Float32Array;
}

/** An empty picture. */
export function unexposed({ width, height }: Size): Exposure {
  const count = width * height;
  return { width, height, signal: new Float32Array(3 * count), cover: new Float32Array(count) };
}

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
  CURVE[Math.round(TABLE * Math.sqrt(Math.min(1, Math.max(0, light) / MOST)))]!;

/** Adds light on a share of a pixel: red, green and blue, linear. */
export function expose(
  { signal, cover }: Exposure,
  pixel: number,
  share: number,
  light: ArrayLike<number>,
): void {
  cover[pixel]! += share;
  signal[3 * pixel]! += share * encoded(light[0]!);
  signal[3 * pixel + 1]! += share * encoded(light[1]!);
  signal[3 * pixel + 2]! += share * encoded(light[2]!);
}

/** A byte of a share, rounded. */
const byte = (share: number): number => (share >= 1 ? 255 : (255 * share + 0.5) | 0);

/** The finished picture. */
export function developed({ signal, cover, width, height }: Exposure): Raster {
  const data = new Uint8Array(4 * width * height);
  for (let pixel = 0; pixel < cover.length; pixel++) {
    const share = cover[pixel]!;
    if (share <= 0) continue;
    data[4 * pixel] = byte(signal[3 * pixel]! / share);
    data[4 * pixel + 1] = byte(signal[3 * pixel + 1]! / share);
    data[4 * pixel + 2] = byte(signal[3 * pixel + 2]! / share);
    data[4 * pixel + 3] = byte(share);
  }
  return { width, height, data };
}
