import { mkdtemp, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import sharp from 'sharp';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { PHOTO_SIZE, publishedPhoto } from '../../src/io/photo.ts';

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

  const photo = await publishedPhoto(folder, 'bench.jpg');
  const after = await sharp(photo.data).metadata();
  expect(after).toMatchObject({ format: 'webp', width: 360, height: PHOTO_SIZE.height });
  expect([photo.width, photo.height]).toEqual([after.width, after.height]);
  for (const kind of ['exif', 'xmp', 'iptc', 'icc'] as const) expect(after[kind]).toBeUndefined();
  expect(after.orientation).toBeUndefined();
  expect(photo.data.includes('Somebody')).toBe(false);
});
