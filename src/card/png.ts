import sharp from 'sharp';
import { LIGHT } from '../styles/tokens.ts';
import { missingLetter, openFaces, type FaceBytes, type FaceName, type Faces } from './faces.ts';
import type { CardFacts } from './facts.ts';
import { edgePalette, indexedPng } from './indexed-png.ts';
import { cardSvg, type CardSize } from './layout.ts';

/** The texts of a card by what an author calls them, and the face each is set in. */
function texts(facts: CardFacts): { what: string; text: string; face: FaceName }[] {
  return [
    { what: 'shop name', text: facts.shop, face: 'Barlow' },
    { what: 'name', text: facts.name, face: 'Barlow Condensed' },
    { what: 'stock number', text: facts.stock, face: 'Barlow' },
    { what: 'detail', text: facts.detail, face: 'Barlow' },
    ...facts.figures.flatMap(({ label, value, note }): { what: string; text: string; face: FaceName }[] => [
      { what: 'figure', text: label, face: 'Barlow' },
      { what: `figure ${label}`, text: value, face: 'Barlow Condensed' },
      { what: `figure ${label}`, text: note, face: 'Barlow' },
    ]),
  ];
}

/** Refuses a letter that no face holds: it would be left out of the picture without a word. */
function checkLetters(facts: CardFacts, faces: Faces): void {
  for (const { what, text, face } of texts(facts)) {
    const letter = missingLetter(text, face, faces);
    if (letter === undefined) continue;
    const code = (letter.codePointAt(0) ?? 0).toString(16).toUpperCase().padStart(4, '0');
    throw new RangeError(
      `share card of ${facts.stock}: the ${what} "${text}" holds "${letter}" (U+${code}), which the fonts of the card lack; write it in Latin letters`,
    );
  }
}

const { paper, sheet, ink, muted, accent, plastic } = LIGHT;
/** What a card is drawn in, and the steps of its smooth edges. */
const PALETTE = edgePalette(
  [paper, sheet, ink, muted, accent],
  [
    { from: sheet, to: ink, steps: 3 },
    { from: sheet, to: muted, steps: 2 },
    { from: sheet, to: accent, steps: 3 },
    { from: plastic, to: ink, steps: 2 },
  ],
  [plastic],
);

/** Faces that were opened before: once a build. */
const opened = new WeakMap<readonly FaceBytes[], Faces>();

function facesOf(fonts: readonly FaceBytes[]): Faces {
  const faces = opened.get(fonts) ?? openFaces(fonts);
  opened.set(fonts, faces);
  return faces;
}

/**
 * A share card as PNG with a small palette.
 *
 * @param facts - what it shows
 * @param size - `wide` 1200 × 630 px, `square` 1080 × 1080 px
 * @param fonts - bytes of Barlow and Barlow Condensed, each with its `Ext` face
 * @throws {RangeError} when a text holds a letter that the fonts lack
 */
export async function cardPng(
  facts: CardFacts,
  size: CardSize,
  fonts: readonly FaceBytes[],
): Promise<Buffer> {
  const faces = facesOf(fonts);
  checkLetters(facts, faces);
  const svg = cardSvg(facts, size, faces);
  const { data, info } = await sharp(Buffer.from(svg)).raw().toBuffer({ resolveWithObject: true });
  return indexedPng({ data, width: info.width, height: info.height }, PALETTE);
}
