import { mkdir, readFile, rename, writeFile } from 'node:fs/promises';
import { createRequire } from 'node:module';
import { join, resolve } from 'node:path';
import subsetFont from 'subset-font';
import type { Plugin } from 'vite';

/** The faces that pages are set in, by the names of their files in `@fontsource`. */
const FACES = {
  'barlow-400.woff2': 'barlow/files/barlow-latin-400-normal.woff2',
  'barlow-600.woff2': 'barlow/files/barlow-latin-600-normal.woff2',
  'barlow-condensed-600.woff2': 'barlow-condensed/files/barlow-condensed-latin-600-normal.woff2',
} as const;

const range = (from: number, to: number) =>
  Array.from({ length: to - from + 1 }, (_, i) => String.fromCodePoint(from + i)).join('');

/** Letters of Western European languages and the signs that sheets use; anything else falls back. */
const LETTERS = `${range(0x20, 0x7e)}${range(0xa0, 0xff)}–—‘’“”…‹›€™−′″`;

/** Pairs that stand too far apart, and figures of one width; sheets use no other feature. */
const FEATURES = ['kern', 'tnum'];

const require = createRequire(import.meta.url);

/** Writes one face with the letters and features that pages need, half the size of the whole one. */
async function writeFace(folder: string, [name, source]: readonly [string, string]): Promise<void> {
  const whole = await readFile(require.resolve(`@fontsource/${source}`));
  const face = await subsetFont(whole, LETTERS, {
    targetFormat: 'woff2',
    noHinting: true,
    keepFeatures: FEATURES,
  });
  const draft = join(folder, `${process.pid}-${name}`);
  await writeFile(draft, face);
  await rename(draft, join(folder, name));
}

/** Gives pages and style sheets the faces as `@faces/…`, cut down before anything is built. */
export function facesPlugin(cache: string): Plugin {
  const folder = resolve(cache, 'faces');
  return {
    name: 'partline-faces',
    async config() {
      await mkdir(folder, { recursive: true });
      await Promise.all(Object.entries(FACES).map((face) => writeFace(folder, face)));
      return { resolve: { alias: { '@faces': folder } } };
    },
  };
}
