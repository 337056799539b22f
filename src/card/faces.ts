import { create, type Font } from 'fontkitten';

/** A face as bytes, and how the card names it. */
export interface FaceBytes {
  readonly name: string;
  readonly weight: 500 | 600;
  readonly data: Buffer;
}

/** Faces by name, opened for measuring and for asking which letters they hold. */
export type Faces = ReadonlyMap<string, Font>;

/** The two faces of a card, each with the one that it falls back to. */
export type FaceName = 'Barlow' | 'Barlow Condensed';

/** Opens faces. */
export function openFaces(fonts: readonly FaceBytes[]): Faces {
  return new Map(
    fonts.map(({ name, data }) => {
      const font = create(data);
      if (font.isCollection)
        throw new RangeError(`openFaces: wants a single face, got a collection for ${name}`);
      return [name, font];
    }),
  );
}

/** The face, or its fallback, that holds a letter. */
export function holder(letter: string, face: FaceName, faces: Faces): Font | undefined {
  const code = letter.codePointAt(0) ?? 0;
  return [face, `${face} Ext`]
    .map((name) => faces.get(name))
    .find((font) => font?.hasGlyphForCodePoint(code));
}

/** A letter that a face and its fallback cannot draw, or nothing. */
export function missingLetter(text: string, face: FaceName, faces: Faces): string | undefined {
  return [...text].find((letter) => !holder(letter, face, faces));
}

/** Width of a line of text [px], by the advances of its letters. */
export function lineWidth(text: string, size: number, face: FaceName, faces: Faces): number {
  return [...text].reduce((width, letter) => {
    const font = holder(letter, face, faces);
    const advance = font
      ? font.glyphForCodePoint(letter.codePointAt(0) ?? 0).advanceWidth / font.unitsPerEm
      : 0;
    return width + advance * size;
  }, 0);
}

/**
 * Text as large as its room takes: between `most` and `least` px, cut with an ellipsis below that.
 *
 * @returns the text and its size [px]
 */
export function fitted(
  text: string,
  room: { readonly width: number; readonly most: number; readonly least: number },
  face: FaceName,
  faces: Faces,
): { text: string; size: number } {
  const natural = lineWidth(text, room.most, face, faces);
  const size = Math.floor(Math.min(room.most, (room.most * room.width) / Math.max(natural, 1)));
  if (size >= room.least) return { text, size };
  let letters = [...text];
  const cut = () => `${letters.join('').trimEnd()}…`;
  while (letters.length > 1 && lineWidth(cut(), room.least, face, faces) > room.width)
    letters = letters.slice(0, -1);
  return { text: cut(), size: room.least };
}
