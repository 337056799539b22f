import { mkdir, readFile, writeFile } from 'node:fs/promises';
import { createRequire } from 'node:module';
import subsetFont from 'subset-font';

/** Faces that pages are set in, cut down; by the names of their files in `@fontsource`. */
const PAGE_FACES = {
  'barlow-400.woff2': 'barlow/files/barlow-latin-400-normal.woff2',
  'barlow-600.woff2': 'barlow/files/barlow-latin-600-normal.woff2',
  'barlow-condensed-600.woff2': 'barlow-condensed/files/barlow-condensed-latin-600-normal.woff2',
} as const;

/** Faces that share cards are set in, whole, and the licence of them all. */
const WHOLE = {
  'barlow-500.woff': 'barlow/files/barlow-latin-500-normal.woff',
  'barlow-500-ext.woff': 'barlow/files/barlow-latin-ext-500-normal.woff',
  'barlow-condensed-600.woff': 'barlow-condensed/files/barlow-condensed-latin-600-normal.woff',
  'barlow-condensed-600-ext.woff': 'barlow-condensed/files/barlow-condensed-latin-ext-600-normal.woff',
  'LICENSE.txt': 'barlow/LICENSE',
} as const;

const range = (from: number, to: number) =>
  Array.from({ length: to - from + 1 }, (_, i) => String.fromCodePoint(from + i)).join('');

/** Letters of Western European languages and the signs that sheets use; anything else falls back. */
const LETTERS = `${range(0x20, 0x7e)}${range(0xa0, 0xff)}–—‘’“”…‹›€™−′″`;

/** Pairs that stand too far apart, and figures of one width; sheets use no other feature. */
const FEATURES = ['kern', 'tnum'];

const require = createRequire(import.meta.url);
const packed = (path: string): Promise<Buffer> => readFile(require.resolve(`@fontsource/${path}`));

/** Every face of the site by its name, the same bytes every time: those of pages are half the size of the whole ones. */
export async function faceFiles(): Promise<Map<string, Uint8Array>> {
  const files = new Map<string, Uint8Array>();
  for (const [name, path] of Object.entries(WHOLE)) files.set(name, await packed(path));
  for (const [name, path] of Object.entries(PAGE_FACES)) {
    const options = { targetFormat: 'woff2', noHinting: true, keepFeatures: FEATURES } as const;
    files.set(name, await subsetFont(await packed(path), LETTERS, options));
  }
  return files;
}

/** Where the faces lie, for pages and cards alike. */
export const FACES_FOLDER = new URL('../styles/faces/', import.meta.url);

/** Writes the faces beside the style sheets. */
async function main(): Promise<void> {
  await mkdir(FACES_FOLDER, { recursive: true });
  for (const [name, bytes] of await faceFiles()) {
    await writeFile(new URL(name, FACES_FOLDER), bytes);
    process.stdout.write(`${name}: ${bytes.length} bytes\n`);
  }
}

if (import.meta.main) await main();
