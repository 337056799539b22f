import sharp from 'sharp';
import type { Raster } from './exposure.ts';

/** Size of a file of a picture [px]. */
export interface PictureShape {
  readonly width: number;
  readonly height: number;
}

/** A file of a picture. */
export interface PictureFile extends PictureShape {
  readonly data: Uint8Array;
}

/** Widths that a picture is published in besides its own [px]: for lists and phones, and for the sheet. */
const WIDTHS = [405, 810] as const;

// Every browser that knows the ranges of the style sheets reads WebP; AVIF of the same look is a tenth smaller and takes six
// times as long. Edges and shades keep all levels of their alpha, or shades would show bands. Effort 4 instead of 2 makes
// files a tenth smaller and takes twice as long, which is little for a shade.
const WEBP = { quality: 68, alphaQuality: 100, effort: 2 } as const;
const SHADE_WEBP = { quality: 90, alphaQuality: 100, effort: 4 } as const;
/** The usual lanczos3 leaves a faint second line along every edge, which weighs a third of the file. */
const KERNEL = 'lanczos2';

/**
 * The files that a picture is published in, WebP in each of `WIDTHS` that is less than its own and in its own, from small to
 * large.
 *
 * @param size - of the picture [px]
 */
export function pictureShapes({ width: from, height: rows }: PictureShape): readonly PictureShape[] {
  const widths = [...WIDTHS.filter((width) => width < from), from];
  return widths.map((width) => ({ width, height: Math.round((rows * width) / from) }));
}

const pixelsOf = ({ data, width, height }: Raster) => sharp(data, { raw: { width, height, channels: 4 } });

async function file(raster: Raster, shape: PictureShape): Promise<PictureFile> {
  const { width, height } = shape;
  const sized = pixelsOf(raster).resize({ width, kernel: KERNEL });
  const { data, info } = await sized.webp(WEBP).toBuffer({ resolveWithObject: true });
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
 *
 * Cost: about 60 ms of core for 810 × 540 pixels.
 */
export async function pictureFiles(raster: Raster): Promise<readonly PictureFile[]> {
  return Promise.all(pictureShapes(raster).map((shape) => file(raster, shape)));
}

/**
 * The file of a shade, in its own size: about 1 kB.
 *
 * @returns the same bytes for the same shade
 *
 * Cost: about 3 ms of core for 96 × 64 pixels.
 */
export async function shadeFile(shade: Raster): Promise<PictureFile> {
  const { width, height } = shade;
  return { width, height, data: await pixelsOf(shade).webp(SHADE_WEBP).toBuffer() };
}
