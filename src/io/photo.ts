import { join } from 'node:path';
import sharp from 'sharp';

/** Widest and tallest that a photo is published at [px]. */
export const PHOTO_SIZE = { width: 960, height: 720 } as const;

/**
 * The bare pixels of a photo of the catalogue, fitted into `PHOTO_SIZE` and turned upright: all metadata (place,
 * camera, date) is left behind.
 *
 * @param folder - the catalogue
 * @param file - path below it
 * @returns red, green, blue and alpha, row by row from the top, and the size [px]
 */
export async function photoPixels(
  folder: string,
  file: string,
): Promise<{ readonly data: Uint8Array; readonly width: number; readonly height: number }> {
  const { data, info } = await sharp(join(folder, file))
    .autoOrient()
    .resize({ ...PHOTO_SIZE, fit: 'inside', withoutEnlargement: true })
    .toColourspace('srgb')
    .ensureAlpha()
    .raw({ depth: 'uchar' })
    .toBuffer({ resolveWithObject: true });
  return { data, width: info.width, height: info.height };
}

/** Tallest and widest that a logo is published at [px]: twice its size on the page. */
const LOGO_SIZE = { height: 80, width: 400 } as const;

/** A logo as PNG; what else its file holds, a drawing's scripts and links included, is left behind. */
export async function logoPicture(folder: string, file: string): Promise<Buffer> {
  const picture = sharp(join(folder, file), { density: 300 });
  return picture
    .autoOrient()
    .resize({ ...LOGO_SIZE, fit: 'inside' })
    .png({ palette: true })
    .toBuffer();
}
