import sharp from 'sharp';
import type { Raster } from './exposure.ts';

/** Format and size of a file of a picture [px]. */
export interface PictureShape {
  readonly format: 'webp' | 'png' | 'jpeg';
  readonly width: number;
  readonly height: number;
}

/** A file of a picture. */
export interface PictureFile extends PictureShape {
  readonly data: Uint8Array;
}

/** Widths that a picture is published in, in the format that every browser of today reads [px]. */
export const WIDTHS = [320, 640, 960] as const;
/** Width of the one file for the others: PNG where the ground is clear, else JPEG [px]. */
export const FALLBACK_WIDTH = 480;

/** Whether nothing shines through a picture. */
export const isOpaque = ({ data }: Raster): boolean => {
  for (let i = 3; i < data.length; i += 4) if (data[i] !== 255) return false;
  return true;
};

// AVIF of the same look is a tenth smaller and takes three times as long.
const WEBP = { quality: 68, alphaQuality: 70, effort: 4 } as const;
const PNG = { palette: true, colours: 64, dither: 0.6, effort: 4 } as const;
const JPEG = { quality: 70, mozjpeg: true } as const;

/**
 * The files that a picture is published in: WebP in each of `WIDTHS` from small to large, then one fallback; never wider
 * than the picture itself.
 *
 * @param size - of the picture [px]
 * @param opaque - whether nothing shines through it
 */
export function pictureShapes(
  { width: from, height: rows }: { readonly width: number; readonly height: number },
  opaque: boolean,
): readonly PictureShape[] {
  const shape = (format: PictureShape['format'], width: number) => ({
    format,
    width,
    height: Math.round((rows * width) / from),
  });
  const widths = [...new Set(WIDTHS.map((width) => Math.min(width, from)))];
  return [
    ...widths.map((width) => shape('webp', width)),
    shape(opaque ? 'jpeg' : 'png', Math.min(FALLBACK_WIDTH, from)),
  ];
}

async function file(raster: Raster, shape: PictureShape): Promise<PictureFile> {
  const { width: from, height: rows } = raster;
  const { format, width, height } = shape;
  const sized = sharp(raster.data, { raw: { width: from, height: rows, channels: 4 } }).resize({ width });
  const written = {
    webp: () => sized.webp(WEBP),
    png: () => sized.png(PNG),
    jpeg: () => sized.removeAlpha().jpeg(JPEG),
  };
  const { data, info } = await written[format]().toBuffer({ resolveWithObject: true });
  if (info.width !== width || info.height !== height) {
    const got = `${info.width} × ${info.height}`;
    throw new RangeError(`pictureFiles: wants a file of ${width} × ${height} px, got ${got}`);
  }
  return { ...shape, data };
}

/**
 * Files of a picture, as `pictureShapes` lists them.
 *
 * @param raster - the picture
 * @returns the same bytes for the same picture
 */
export async function pictureFiles(raster: Raster): Promise<readonly PictureFile[]> {
  return Promise.all(pictureShapes(raster, isOpaque(raster)).map((shape) => file(raster, shape)));
}
