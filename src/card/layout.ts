import { LIGHT } from '../styles/tokens.ts';
import { baitPicture } from './bait-picture.ts';
import { fitted, type FaceName, type Faces } from './faces.ts';
import type { CardFacts, CardFigure } from './facts.ts';
import { LINE, lettering, type Lettering } from './lettering.ts';

/** Formats of a card: for links, and for square feeds. */
export const CARD_SIZES = {
  wide: { width: 1200, height: 630 },
  square: { width: 1080, height: 1080 },
} as const;

/** Name of a format. */
export type CardSize = keyof typeof CARD_SIZES;

const FRAME = 30;
const BORDER = 3;
const PAD = 32;
/** Heading with the room above it, and the space under the picture [px]. */
const HEAD = 146;
const UNDER = 12;
/** Column on the right of the heading, and the room at the left of a figure [px]. */
const SIDE = 230;
const CELL_PAD = 22;
/** Rows of figures together [px]. */
const FOOT = { wide: 124, square: 310 } as const;

/** How a line is set before it has a place. */
interface Wish {
  readonly text: string;
  readonly face: FaceName;
  readonly most: number;
  readonly least: number;
  readonly width: number;
  readonly colour?: string;
}

/** Lines below each other, from a top that depends on their height. */
function stacked(
  wishes: readonly Wish[],
  place: { readonly x: number; readonly at: Lettering['at']; readonly top: (height: number) => number },
  faces: Faces,
): string {
  const lines = wishes.map((wish) => ({ ...wish, ...fitted(wish.text, wish, wish.face, faces) }));
  let y = place.top(lines.reduce((sum, { size }) => sum + size * LINE, 0));
  const set = lines.map(({ text, face, size, colour = LIGHT.ink }) => {
    const line = lettering({ text, face, size, colour, x: place.x, y, at: place.at }, faces);
    y += size * LINE;
    return line;
  });
  return set.join('');
}

function heading(facts: CardFacts, faces: Faces, width: number): string {
  const [left, top] = [FRAME + BORDER + PAD, FRAME + BORDER + 22];
  const wide = width - SIDE - 20;
  const names: Wish[] = [
    { text: facts.shop, face: 'Barlow', most: 27, least: 20, width: wide, colour: LIGHT.accent },
    { text: facts.name, face: 'Barlow Condensed', most: 76, least: 40, width: wide },
  ];
  const muted = { face: 'Barlow', width: SIDE, colour: LIGHT.muted } as const;
  const marks: Wish[] = [
    { text: facts.stock, face: 'Barlow', most: 27, least: 18, width: SIDE },
    { ...muted, text: facts.detail, most: 24, least: 18 },
    ...(facts.invented ? [{ ...muted, text: 'invented for the demo', most: 20, least: 16 }] : []),
  ];
  return (
    stacked(names, { x: left, at: 'start', top: () => top }, faces) +
    stacked(marks, { x: left + width, at: 'end', top: () => top + 2 }, faces)
  );
}

interface Rect {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

function figureCell({ label, value, note }: CardFigure, faces: Faces, room: Rect, times: number): string {
  const set = (text: string, face: FaceName, size: number, colour: string): Wish => ({
    ...{ text, face, most: size * times, least: 0.7 * size },
    ...{ width: room.width - 2 * CELL_PAD, colour },
  });
  const wishes = [
    set(label, 'Barlow', 23, LIGHT.muted),
    set(value, 'Barlow Condensed', 46, LIGHT.ink),
    set(note, 'Barlow', 21, LIGHT.muted),
  ];
  const top = (height: number) => room.y + (room.height - height) / 2;
  return stacked(wishes, { x: room.x + CELL_PAD, at: 'start', top }, faces);
}

const rule = ({ x, y, width, height }: Rect, colour: string) =>
  `<path d="M${x} ${y}h${width}v${height}h${-width}z" fill="${colour}"/>`;

function figureRows(facts: CardFacts, size: CardSize, faces: Faces, top: number): string {
  const perRow = size === 'wide' ? facts.figures.length : 2;
  const left = FRAME + BORDER;
  const inside = CARD_SIZES[size].width - 2 * left;
  const [width, height] = [inside / perRow, FOOT[size] / Math.ceil(facts.figures.length / perRow)];
  const cells = facts.figures.map((figure, index) => {
    const [column, row] = [index % perRow, Math.floor(index / perRow)];
    const room = { x: left + column * width, y: top + row * height + 2, width, height: height - 2 };
    const above = column === 0 ? rule({ x: left, y: room.y - 2, width: inside, height: 2 }, LIGHT.ink) : '';
    const beside = column === 0 ? '' : rule({ ...room, width: 1.5 }, LIGHT.muted);
    return above + beside + figureCell(figure, faces, room, size === 'wide' ? 1 : 1.25);
  });
  return cells.join('');
}

function drawing(facts: CardFacts, faces: Faces, room: Rect): string {
  const { svg, marks } = baitPicture(facts, room);
  const numbers = marks.map(({ text, x, y }) => ({
    ...{ text, x: room.x + x, y: room.y + y, at: 'middle' as const },
    ...{ face: 'Barlow' as const, size: 20, colour: LIGHT.accent },
  }));
  const lines = numbers.map((number) => lettering(number, faces)).join('');
  return `<g transform="translate(${room.x} ${room.y})">${svg}</g>${lines}`;
}

/**
 * The card as SVG without any font: heading, the bait over its ruler, and a row of figures as a title block has them.
 * What matters lies inside the middle 1080 × 540 px of the wide format, which every crop keeps.
 */
export function cardSvg(facts: CardFacts, size: CardSize, faces: Faces): string {
  const { width, height } = CARD_SIZES[size];
  const edge = FRAME + BORDER;
  const inner = width - 2 * (edge + PAD);
  const foot = height - edge - FOOT[size];
  const room = { x: edge + PAD, y: edge + HEAD, width: inner, height: foot - UNDER - edge - HEAD };
  return [
    `<svg xmlns="http://www.w3.org/2000/svg" width="${width}" height="${height}">`,
    rule({ x: 0, y: 0, width, height }, LIGHT.paper),
    rule({ x: FRAME, y: FRAME, width: width - 2 * FRAME, height: height - 2 * FRAME }, LIGHT.ink),
    rule({ x: edge, y: edge, width: width - 2 * edge, height: height - 2 * edge }, LIGHT.sheet),
    heading(facts, faces, inner),
    drawing(facts, faces, room),
    figureRows(facts, size, faces, foot),
    '</svg>',
  ].join('');
}
