import { publishedPhoto } from '../io/photo.ts';
import { contentFolder } from '../io/settings.ts';
import type { Sheet } from '../sheet/sheet.ts';

/** One photo of a listing, ready to publish. */
export interface Photo {
  /** Below the site's root. */
  readonly path: string;
  readonly alt: string;
  readonly width: number;
  readonly height: number;
  readonly data: Buffer;
}

const kept = new Map<string, Promise<readonly Photo[]>>();

/** The photos of a sheet's listing, sized and without metadata; each is worked out once a build. */
export function photosOf(sheet: Sheet): Promise<readonly Photo[]> {
  const known = kept.get(sheet.id);
  if (known) return known;
  const photos = Promise.all(
    sheet.mold.listing.photos.map(async ({ file, alt }, index) => ({
      path: `molds/${sheet.id}/photo-${index + 1}.webp`,
      alt,
      ...(await publishedPhoto(contentFolder(), file)),
    })),
  );
  kept.set(sheet.id, photos);
  return photos;
}
