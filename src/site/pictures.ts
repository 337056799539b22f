import { analysisTools } from '../io/analysis-tools.ts';
import { photoPixels } from '../io/photo.ts';
import { contentFolder } from '../io/settings.ts';
import { colourOf, plasticOf } from '../render/colours.ts';
import { pictureFiles, type PictureFile } from '../render/encode.ts';
import { rendered } from '../render/render.ts';
import { baitScene, moldScene, nearestLie } from '../render/subjects.ts';
import type { Sheet } from '../sheet/sheet.ts';

/** One picture of a sheet in all its sizes and formats. */
export interface Picture {
  readonly name: string;
  /** What it shows, in words. */
  readonly alt: string;
  readonly files: readonly (PictureFile & { readonly path: string })[];
}

/** The pictures of a sheet, the one to show first in front. */
export interface Gallery {
  readonly pictures: readonly [Picture, ...Picture[]];
  /** Where they come from, when they are no photos. */
  readonly note?: string;
}

/** Pixels that pictures are worked out at: the largest size that is published. */
const SIZE = { width: 960, height: 640 } as const;

const { remember } = analysisTools(contentFolder());

/** Files of a picture of the bait; molds of one bait share them. */
function baitFiles({ geometry: { mesh }, bait }: Sheet): Promise<readonly PictureFile[]> {
  const colour = colourOf(bait);
  return remember('picture', { mesh, colour, SIZE }, () =>
    pictureFiles(rendered(baitScene(mesh, plasticOf(colour), SIZE))),
  );
}

/** Files of a picture of the open lower half; where there are several cavities, a bait still lies in one of them. */
function moldFiles({ geometry, halves: { layout, shown }, bait }: Sheet): Promise<readonly PictureFile[]> {
  const colour = colourOf(bait);
  const lie = layout.cavities.length > 1 ? nearestLie(layout.cavities) : undefined;
  const { mesh } = geometry;
  return remember('picture', { shown, mesh, lie, colour, SIZE }, () => {
    const filled = lie && { bait: mesh, lie, plastic: plasticOf(colour) };
    return pictureFiles(rendered(moldScene(shown, SIZE, filled)));
  });
}

async function published(
  sheet: Sheet,
  { name, alt }: Omit<Picture, 'files'>,
  made: Promise<readonly PictureFile[]>,
): Promise<Picture> {
  const path = ({ width, format }: PictureFile) => `molds/${sheet.id}/picture-${name}-${width}.${format}`;
  return { name, alt, files: (await made).map((file) => ({ ...file, path: path(file) })) };
}

function photosOf(sheet: Sheet): Promise<Picture>[] {
  return sheet.mold.listing.photos.map(({ file, alt }, index) =>
    published(
      sheet,
      { name: `photo-${index + 1}`, alt },
      photoPixels(contentFolder(), file).then(pictureFiles),
    ),
  );
}

async function renderedGallery(sheet: Sheet): Promise<Gallery> {
  const { bait, mold } = sheet;
  const colour = colourOf(bait);
  const lying = mold.cavities.length > 1 ? ', with a bait still lying in one of the cavities' : '';
  const seen = {
    name: 'bait',
    alt: `${bait.name} (${bait.family}) in ${colour} plastic, seen from above with its tail in front`,
  };
  const open = { name: 'mold', alt: `Lower half of the mold, its parting face up${lying}` };
  return {
    pictures: [
      await published(sheet, seen, baitFiles(sheet)),
      await published(sheet, open, moldFiles(sheet)),
    ],
    note: `The bait in ${colour} and the lower half of its mold: pictures worked out from the solids, not photos.`,
  };
}

const kept = new Map<string, Promise<Gallery>>();

async function galleryOf(sheet: Sheet): Promise<Gallery> {
  const [first, ...others] = await Promise.all(photosOf(sheet));
  return first ? { pictures: [first, ...others] } : renderedGallery(sheet);
}

/** Pictures of a sheet: the photos of its listing, or else rendered ones; each is worked out once a build. */
export function picturesOf(sheet: Sheet): Promise<Gallery> {
  const known = kept.get(sheet.id) ?? galleryOf(sheet);
  kept.set(sheet.id, known);
  return known;
}
