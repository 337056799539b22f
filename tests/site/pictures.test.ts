import { mkdtemp, readFile, rm, stat, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import sharp from 'sharp';
import { describe, expect, inject, onTestFinished, test, vi } from 'vitest';
import { picturesOf } from '../../src/site/pictures.ts';
import { demo } from '../support/demo.ts';

const site = inject('tinySite');
const PAGES = ['index.html', 'molds/peg-2/index.html'];

describe.each(PAGES)('%s', async (name) => {
  const html = await readFile(join(site, name), 'utf8');
  const images = [...html.matchAll(/<img (?:[^>"]|"[^"]*")*>/gu)]
    .map(([text]) => text)
    .filter((text) => text.includes('/picture-'));
  const shades = images.filter((text) => text.includes('-shade.webp'));
  const pictures = images.filter((text) => !shades.includes(text));

  test('has its pictures, with room kept for them and words instead of them', () => {
    expect(pictures).toHaveLength(name === 'index.html' ? 1 : 2);
    for (const picture of pictures) {
      expect(picture).toMatch(/ width="810" height="540"/u);
      expect(picture).toMatch(/ alt="[^"]{20,}"/u);
      expect(picture).toMatch(/ src="[^"]*-810\.webp"/u);
    }
  });

  test('has the shadow of each of them in front of it, as wide and without words', async () => {
    expect(images).toEqual(shades.flatMap((shade, index) => [shade, pictures[index]]));
    for (const shade of shades) {
      expect(shade).toMatch(/ width="810" height="540"/u);
      expect(shade).toMatch(/ alt(?:="")?[ >]/u);
      expect(shade).toMatch(/ aria-hidden="?true/u);
      const [, source = ''] = /src="?\/([^ ">]*)/u.exec(shade) ?? [];
      expect(await sharp(join(site, source)).metadata()).toMatchObject({
        format: 'webp',
        width: 81,
        height: 54,
      });
    }
  });

  test('names files that are there, of the format and width they are named for', async () => {
    const sources = pictures.flatMap((picture) => [...picture.matchAll(/(\S+) (\d+)w/gu)]);
    expect(sources).toHaveLength(2 * pictures.length);
    for (const [, source = '', width = ''] of sources) {
      const path = join(site, source.replace(/^.*="|^\//gu, ''));
      const found = await sharp(path).metadata();
      expect(found.width).toBe(Number(width));
      expect(found.format).toBe('webp');
    }
  });

  test('both pictures of a sheet and their shadows weigh at most 12 kB in the size a phone takes', async () => {
    const sources = [...html.matchAll(/([^\s"=]+-(?:405|shade)\.webp)[" ]/gu)].map(
      ([, source = '']) => source,
    );
    const paths = new Set(sources.map((source) => join(site, source.replace(/^.*="|^\//gu, ''))));
    const sizes = await Promise.all([...paths].map(async (path) => (await stat(path)).size));
    expect(sizes).toHaveLength(images.length);
    expect(sizes.reduce((sum, size) => sum + size, 0)).toBeLessThan(12 * 1024);
  });
});

test('photos of the listing are shown instead of rendered pictures', async () => {
  const folder = await mkdtemp(join(tmpdir(), 'partline-pictures-'));
  onTestFinished(() => rm(folder, { recursive: true, force: true }));
  const bench = sharp({ create: { width: 500, height: 400, channels: 3, background: '#446' } });
  await writeFile(join(folder, 'bench.jpg'), await bench.jpeg().toBuffer());
  const [sheet] = (await demo('tests/fixtures/site-tiny')).sheets;
  const listing = { inTheBox: [], photos: [{ file: 'bench.jpg', alt: 'The mold on a bench' }] };

  vi.stubEnv('CONTENT_DIR', folder);
  const { pictures, note } = await picturesOf({ ...sheet!, mold: { ...sheet!.mold, listing } });
  vi.unstubAllEnvs();

  expect(note).toBeUndefined();
  expect(pictures.map(({ name, alt }) => [name, alt])).toEqual([['photo-1', 'The mold on a bench']]);
  expect(pictures[0].files.map(({ width }) => width)).toEqual([405, 500]);
  expect(pictures[0].shade).toBeUndefined();
});
