import { join } from 'node:path';
import { diskMemory, diskStore } from '../io/cache.ts';
import { fingerprint } from '../io/fingerprint.ts';
import { PHOTO_SIZE, photoPixels } from '../io/photo.ts';
import { contentFolder } from '../io/settings.ts';
import { colourOf, plasticOf } from '../render/colours.ts';
import {
  pictureFiles,
  pictureShapes,
  shadeFile,
  type PictureFile,
  type PictureShape,
} from '../render/encode.ts';
import { shadeSize } from '../render/ground.ts';
import { rendered } from '../render/render.ts';
import { partOf, type Part, type Scene } from '../render/scene.ts';
import { baitScene, moldScene, nearestLie } from '../render/subjects.ts';
import type { Brief } from '../sheet/brief.ts';
import type { Sheet } from '../sheet/sheet.ts';

/** A file of a picture on the site. */
type Placed = PictureShape & { readonly path: string };

/** One picture of a sheet: all the sizes that it is published in. */
export interface Picture {
  readonly name: string;
  /** What it shows, in words. */
  readonly alt: string;
  readonly files: readonly Placed[];
  /** Its shadow on the ground, to be stretched to the size of the picture and laid under it; photos have none. */
  readonly shade?: Placed;
}

/** The pictures of a sheet, the one to show first in front. */
export interface Gallery {
  readonly pictures: readonly [Picture, ...Picture[]];
  /** Where they come from, when they are no photos. */
  readonly note?: string;
}

/** What is known of a mold wherever its pictures are shown. */
type Pictured = Pick<Brief, 'id' | 'mold' | 'bait'>;

/** Pixels that pictures are worked out at: the largest size that is published, half as wide again as the sheet shows it. */
const SIZE = { width: 810, height: 540 } as const;

const store = diskStore();
const remember = diskMemory();

/** The bait of a sheet in its plastic, made ready for pictures once it is asked for. */
function baitPart({ geometry: { mesh }, bait }: Sheet): () => Part {
  let part: Part | undefined;
  return () => (part ??= partOf(mesh, plasticOf(colourOf(bait))));
}

/** Files of a rendered picture, its shade behind them. */
async function sceneFiles(scene: Scene): Promise<readonly PictureFile[]> {
  const { shown, shade } = rendered(scene);
  return [...(await pictureFiles(shown)), await shadeFile(shade)];
}

/** Files of a picture of the bait; molds of one bait share them. */
function baitFiles({ geometry, bait }: Sheet, part: () => Part): Promise<readonly PictureFile[]> {
  const { mesh } = geometry;
  return remember('picture', { mesh, colour: colourOf(bait), SIZE }, () =>
    sceneFiles(baitScene(part(), SIZE)),
  );
}

/** Files of a picture of the open lower half; where there are several cavities, a bait still lies in one of them. */
function moldFiles(
  { geometry, halves: { layout, shown }, bait }: Sheet,
  part: () => Part,
): Promise<readonly PictureFile[]> {
  const lie = layout.cavities.length > 1 ? nearestLie(layout.cavities) : undefined;
  const { mesh } = geometry;
  return remember('picture', { shown, mesh, lie, colour: colourOf(bait), SIZE }, () =>
    sceneFiles(moldScene(shown, SIZE, lie && { bait: part(), lie })),
  );
}

type Photo = Brief['mold']['listing']['photos'][number];

const photoDigest = ({ file }: Photo): Promise<string> => fingerprint(join(contentFolder(), file), store);

async function photoFiles(photo: Photo): Promise<readonly PictureFile[]> {
  const digest = await photoDigest(photo);
  return remember('picture', { digest, PHOTO_SIZE }, async () =>
    pictureFiles(await photoPixels(contentFolder(), photo.file)),
  );
}

async function photoShapes(photo: Photo): Promise<readonly PictureShape[]> {
  const digest = await photoDigest(photo);
  return remember('picture shapes', { digest, PHOTO_SIZE }, async () =>
    pictureShapes(await photoPixels(contentFolder(), photo.file)),
  );
}

function published(
  { id }: Pictured,
  { name, alt }: Pick<Picture, 'name' | 'alt'>,
  shapes: readonly PictureShape[],
  shade?: PictureShape,
): Picture {
  const placed = (shape: PictureShape, kind: number | 'shade'): Placed => ({
    ...shape,
    path: `molds/${id}/picture-${name}-${kind}.webp`,
  });
  return {
    name,
    alt,
    files: shapes.map((shape) => placed(shape, shape.width)),
    ...(shade && { shade: placed(shade, 'shade') }),
  };
}

function photosOf(pictured: Pictured): Promise<Picture>[] {
  return pictured.mold.listing.photos.map(async (photo, index) =>
    published(pictured, { name: `photo-${index + 1}`, alt: photo.alt }, await photoShapes(photo)),
  );
}

function renderedGallery(pictured: Pictured): Gallery {
  const { bait, mold } = pictured;
  const colour = colourOf(bait);
  const lying = mold.cavities.length > 1 ? ', with a bait still lying in one of the cavities' : '';
  const seen = {
    name: 'bait',
    alt: `${bait.name} (${bait.family}) in ${colour} plastic, seen from above with its tail in front`,
  };
  const open = { name: 'mold', alt: `Lower half of the mold, its parting face up${lying}` };
  const shapes = pictureShapes(SIZE);
  const shade = shadeSize(SIZE);
  return {
    pictures: [published(pictured, seen, shapes, shade), published(pictured, open, shapes, shade)],
    note: `The bait in ${colour} and the lower half of its mold: pictures worked out from the solids, not photos.`,
  };
}

/** Pictures of a sheet, in words and sizes: the photos of its listing, or else rendered ones. */
export async function picturesOf(pictured: Pictured): Promise<Gallery> {
  const [first, ...others] = await Promise.all(photosOf(pictured));
  return first ? { pictures: [first, ...others] } : renderedGallery(pictured);
}

/** Paths of every file of the pictures of a sheet. */
export async function picturePaths(pictured: Pictured): Promise<readonly string[]> {
  const { pictures } = await picturesOf(pictured);
  return pictures.flatMap(({ files, shade }) =>
    [...files, ...(shade ? [shade] : [])].map(({ path }) => path),
  );
}

/** The bytes of every file of the pictures of a sheet, by path. */
export async function pictureBytes(sheet: Sheet): Promise<ReadonlyMap<string, Uint8Array>> {
  const { photos } = sheet.mold.listing;
  const part = baitPart(sheet);
  const made = photos.length > 0 ? photos.map(photoFiles) : [baitFiles(sheet, part), moldFiles(sheet, part)];
  const bytes = (await Promise.all(made)).flat();
  const paths = await picturePaths(sheet);
  return new Map(paths.map((path, index) => [path, (bytes[index] as PictureFile).data]));
}
