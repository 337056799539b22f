import { readFile } from 'node:fs/promises';
import { createRequire } from 'node:module';

/** A face of a share card: family as the card names it, weight, and the bytes of its WOFF file. */
export interface CardFont {
  readonly name: string;
  readonly weight: 500 | 600;
  readonly data: Buffer;
}

/** The faces that cards are set in: Latin first, then the letters of further European languages. */
const FILES = [
  {
    name: 'Barlow Condensed',
    weight: 600,
    file: 'barlow-condensed/files/barlow-condensed-latin-600-normal.woff',
  },
  { name: 'Barlow', weight: 500, file: 'barlow/files/barlow-latin-500-normal.woff' },
  {
    name: 'Barlow Condensed Ext',
    weight: 600,
    file: 'barlow-condensed/files/barlow-condensed-latin-ext-600-normal.woff',
  },
  { name: 'Barlow Ext', weight: 500, file: 'barlow/files/barlow-latin-ext-500-normal.woff' },
] as const;

const require = createRequire(import.meta.url);

/** Reads the faces of the share cards from their npm packages. */
export async function readCardFonts(): Promise<CardFont[]> {
  return Promise.all(
    FILES.map(async ({ name, weight, file }) => ({
      name,
      weight,
      data: await readFile(require.resolve(`@fontsource/${file}`)),
    })),
  );
}
