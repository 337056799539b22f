import { mkdir, readFile, writeFile } from 'node:fs/promises';
import { createRequire } from 'node:module';
import subsetFont from 'subset-font';
import { standInRules } from './stand-ins.ts';

/** Faces that pages are set in, cut down; by the names of their files in `@fontsource`. */
const PAGE_FACES = {
  'barlow-400': 'barlow/files/barlow-latin-400-normal.woff2',
  'barlow-600': 'barlow/files/barlow-latin-600-normal.woff2',
  'barlow-condensed-600': 'barlow-condensed/files/barlow-condensed-latin-600-normal.woff2',
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

/** Letters that every page is written in, and the signs and names that sheets use. */
export const LETTERS = `${range(0x20, 0x7e)}\u00a0°·²³µ±×÷½éï–—‘’“”…‹›−′″`;

/** The rest of Western European languages: a file of its own, fetched where a page has one of them; others fall back. */
const MORE = [...`${range(0xa0, 0xff)}€™`].filter((letter) => !LETTERS.includes(letter)).join('');

/** Pairs that stand too far apart, and figures of one width; sheets use no other feature. */
const FEATURES = ['kern', 'tnum'];

const require = createRequire(import.meta.url);
const packed = (path: string): Promise<Buffer> => readFile(require.resolve(`@fontsource/${path}`));

/** Letters as CSS names them, runs drawn together: `U+20-7e, U+a0`. */
export function unicodeRange(letters: string): string {
  const codes = [...letters].map((letter) => letter.codePointAt(0) ?? 0).sort((a, b) => a - b);
  const runs: [number, number][] = [];
  for (const code of codes) {
    const last = runs.at(-1);
    if (last && code <= last[1] + 1) last[1] = code;
    else runs.push([code, code]);
  }
  return runs
    .map(([from, to]) => `U+${from.toString(16)}${to === from ? '' : `-${to.toString(16)}`}`)
    .join(', ');
}

/** Family and weight of a face by the name of its file. */
function named(name: string): { readonly family: string; readonly weight: 400 | 600 } {
  const family = name.includes('condensed') ? 'Barlow Condensed' : 'Barlow';
  return { family, weight: name.endsWith('600') ? 600 : 400 };
}

/** Rules that name a face, as they stand in a style sheet. */
function faceRules(name: string): string {
  const { family, weight } = named(name);
  const rule = (file: string, letters: string) => `@font-face {
  font-family: '${family}';
  font-weight: ${weight};
  font-display: swap;
  src: url('./${file}.woff2') format('woff2');
  unicode-range: ${unicodeRange(letters)};
}
`;
  return [rule(name, LETTERS), rule(`${name}-more`, MORE)].join('\n');
}

/** The style sheet that names the faces, and those that stand in for them. */
async function faceStyles(): Promise<string> {
  const standIns: string[] = [];
  for (const [name, path] of Object.entries(PAGE_FACES)) {
    const { family, weight } = named(name);
    standIns.push(...(await standInRules(family, weight, await packed(path))));
  }
  const head = '/* Written by `npm run faces`. */\n';
  return [head, ...Object.keys(PAGE_FACES).map(faceRules), ...standIns].join('\n');
}

/** Every file of the faces by its name, the same bytes every time. */
export async function faceFiles(): Promise<Map<string, Uint8Array>> {
  const files = new Map<string, Uint8Array>();
  for (const [name, path] of Object.entries(WHOLE)) files.set(name, await packed(path));
  const options = { targetFormat: 'woff2', noHinting: true, keepFeatures: FEATURES } as const;
  for (const [name, path] of Object.entries(PAGE_FACES)) {
    files.set(`${name}.woff2`, await subsetFont(await packed(path), LETTERS, options));
    files.set(`${name}-more.woff2`, await subsetFont(await packed(path), MORE, options));
  }
  return files.set('faces.css', new TextEncoder().encode(await faceStyles()));
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
