import { join } from 'node:path';
import sharp from 'sharp';

/** Widest and tallest that a photo is published at [px]. */
export const PHOTO_SIZE = { width: 960, height: 720 } as const;

/**
 * A photo of the catalogue, fitted into `PHOTO_SIZE`, turned upright, all metadata (place, camera, date) left out.
 *
 * @param folder - the catalogue
 * @param file - path below it
 * @returns WebP bytes and the size of the picture [px]
 */
export async function publishedPhoto(
  folder: string,
  file: string,
): Promise<{ readonly data: Buffer; readonly width: number; readonly height: number }> {
  const { data, info } = await sharp(join(folder, file))
    .autoOrient()
    .resize({ ...PHOTO_SIZE, fit: 'inside', withoutEnlargement: true })
    .webp({ quality: 78, effort: 6 })
    .toBuffer({ resolveWithObject: true });
  return { data, width: info.width, height: info.height };
}
