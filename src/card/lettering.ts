import type { Font } from 'fontkitten';
import { holder, lineWidth, type FaceName, type Faces } from './faces.ts';

/** A line of text on a card [px]; `y` is the top of its line box, 1.1 times the size high. */
export interface Lettering {
  readonly text: string;
  readonly face: FaceName;
  readonly size: number;
  readonly colour: string;
  readonly x: number;
  readonly y: number;
  /** What of the line stands at `x`. */
  readonly at: 'start' | 'middle' | 'end';
}

/** Height of a line over the size of its letters [1]. */
export const LINE = 1.1;

const drawn = new WeakMap<Font, Map<number, string>>();

/** Outline of a letter in the units of its face; drawn once, whatever the number of cards. */
function outline(font: Font, code: number): string {
  const known = drawn.get(font) ?? new Map<number, string>();
  drawn.set(font, known);
  const path = known.get(code) ?? font.glyphForCodePoint(code).path.toSVG();
  known.set(code, path);
  return path;
}

const START = { start: 0, middle: 0.5, end: 1 } as const;

/** Distance of the base line from the top of a line [px]. */
function baseline({ face, size }: Lettering, faces: Faces): number {
  const font = faces.get(face);
  if (!font) throw new RangeError(`lettering: wants the face ${face}, got none`);
  const { ascent, descent, unitsPerEm } = font;
  return (size * (LINE + (ascent + descent) / unitsPerEm)) / 2;
}

/** A line of text as SVG: the outlines of its letters, side by side by their advances. */
export function lettering(line: Lettering, faces: Faces): string {
  const { text, face, size, colour, x, y, at } = line;
  const left = x - START[at] * lineWidth(text, size, face, faces);
  const base = y + baseline(line, faces);
  let along = left;
  const letters = [...text].map((letter) => {
    const font = holder(letter, face, faces);
    if (!font) return '';
    const code = letter.codePointAt(0) ?? 0;
    const scale = size / font.unitsPerEm;
    const place = `matrix(${scale.toFixed(5)} 0 0 ${(-scale).toFixed(5)} ${along.toFixed(2)} ${base.toFixed(2)})`;
    along += font.glyphForCodePoint(code).advanceWidth * scale;
    const path = outline(font, code);
    return path ? `<path d="${path}" transform="${place}"/>` : '';
  });
  return `<g fill="${colour}">${letters.join('')}</g>`;
}
