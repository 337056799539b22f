import { mkdtemp, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import sharp from 'sharp';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { pictureFiles } from '../../src/render/encode.ts';
import { PHOTO_SIZE, photoPixels } from '../../src/io/photo.ts';

let folder: string;

beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'partline-photo-'));
  const tall = sharp({ create: { width: 3000, height: 1500, channels: 3, background: '#225588' } })
    .withExif({ IFD0: { Artist: 'Somebody' }, IFD3: { GPSLatitudeRef: 'N', GPSLatitude: '45/1 12/1 3/1' } })
    .withMetadata({ orientation: 6 })
    .jpeg();
  await writeFile(join(folder, 'bench.jpg'), await tall.toBuffer());
});

afterAll(() => rm(folder, { recursive: true, force: true }));

test('a photo is turned upright, fitted, and carries no word about place, camera or maker', async () => {
  const before = await sharp(join(folder, 'bench.jpg')).metadata();
  expect(before.exif).toBeDefined();
  expect(before.orientation).toBe(6);

  const photo = await photoPixels(folder, 'bench.jpg');
  expect(photo).toMatchObject({ width: 360, height: PHOTO_SIZE.height });
  expect(photo.data).toHaveLength(4 * photo.width * photo.height);
  expect([...photo.data.subarray(0, 4)]).toEqual(
    [0x22, 0x55, 0x88, 255].map((value) => expect.closeTo(value, -0.5)),
  );

  for (const { data } of await pictureFiles(photo)) {
    const after = await sharp(data).metadata();
    for (const kind of ['exif', 'xmp', 'iptc', 'icc'] as const) expect(after[kind]).toBeUndefined();
    expect(after.orientation).toBeUndefined();
    expect(Buffer.from(data).includes('Somebody')).toBe(false);
  }
});
