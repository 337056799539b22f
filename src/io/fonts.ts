import { readFile } from 'node:fs/promises';
import { join } from 'node:path';
import { PROJECT_ROOT } from './settings.ts';

/** A face of a share card: family as the card names it, weight, and the bytes of its WOFF file. */
export interface CardFont {
  readonly name: string;
  readonly weight: 500 | 600;
  readonly data: Buffer;
}

/** The faces that cards are set in: Latin first, then the letters of further European languages. */
const FILES = [
  { name: 'Barlow Condensed', weight: 600, file: 'barlow-condensed-600.woff' },
  { name: 'Barlow', weight: 500, file: 'barlow-500.woff' },
  { name: 'Barlow Condensed Ext', weight: 600, file: 'barlow-condensed-600-ext.woff' },
  { name: 'Barlow Ext', weight: 500, file: 'barlow-500-ext.woff' },
] as const;

/** Reads the faces of the share cards. */
export async function readCardFonts(): Promise<CardFont[]> {
  return Promise.all(
    FILES.map(async ({ name, weight, file }) => ({
      name,
      weight,
      data: await readFile(join(PROJECT_ROOT, 'src', 'styles', 'faces', file)),
    })),
  );
}
