import { shareInside } from './interrupt.ts';
import {
  circle,
  joined,
  label,
  labelRect,
  lines,
  overlap,
  textWidth,
  type Picture,
  type Point,
  type Rect,
} from './picture.ts';

/** A note and the point it speaks of. */
export interface Note {
  readonly at: Point;
  readonly text: string;
}

/** Where notes may stand and how they are lettered. */
export interface NoteRoom {
  /** Room from left to right [mm]. */
  readonly left: number;
  readonly right: number;
  /** Edge of the view that the notes stand outside of: its top or its bottom [mm]. */
  readonly edge: number;
  readonly side: 'above' | 'below';
  /** Height of the lettering [mm]. */
  readonly size: number;
  /** What the notes must not cover [mm]. */
  readonly avoid?: readonly Rect[];
}

/** One way to place a note: its shelf runs from the knee to the end. */
interface Place {
  readonly note: Note;
  readonly knee: Point;
  readonly end: Point;
  readonly rect: Rect;
  readonly cost: number;
}

const OFFSETS = [0, 2, 4, 7, 11, 16, 22, 30, 40, 52, 66].flatMap((offset) =>
  offset === 0 ? [0] : [-offset, offset],
);
const ROWS = [0, 1, 2, 3, 4, 5];
/** Places tried at most; enough for seven notes, and a bound on time. */
const TRIES = 20_000;

function textLabel({ text }: Note, knee: Point, end: Point, size: number) {
  const middle = (knee[0] + end[0]) / 2;
  return {
    text,
    at: [middle, knee[1] - 0.25 * size] as Point,
    size,
    anchor: 'middle',
    letter: 'value',
  } as const;
}

/** Every place for a note that stays in the room, cheapest first. */
function places(note: Note, room: NoteRoom): Place[] {
  const { size } = room;
  const width = textWidth(note.text, size);
  const found = ROWS.flatMap((row) => {
    const away = room.side === 'above' ? -3 - row * 1.7 * size : 2 + (row + 1) * 1.7 * size;
    const y = room.edge + away;
    return OFFSETS.flatMap((offset) =>
      [1, -1].map((way): Place => {
        const knee: Point = [note.at[0] + offset, y];
        const end: Point = [knee[0] + way * width, y];
        const rect = labelRect(textLabel(note, knee, end, size));
        return { note, knee, end, rect, cost: Math.abs(offset) + 7 * row + (way === 1 ? 0 : 0.5) };
      }),
    );
  });
  const inside = ({ rect }: Place) => rect.left >= room.left && rect.right <= room.right;
  const clear = (place: Place) =>
    !(room.avoid ?? []).some((rect) => overlap(rect, place.rect) || crosses(place, rect)) &&
    !crosses(place, place.rect);
  return found.filter((place) => inside(place) && clear(place)).sort((a, b) => a.cost - b.cost);
}

/** True when the leader of a place runs through a rectangle. */
function crosses({ note, knee }: Place, rect: Rect): boolean {
  return shareInside(note.at, knee, rect) !== undefined;
}

const turn = ([ax, ay]: Point, [bx, by]: Point, [cx, cy]: Point) =>
  (bx - ax) * (cy - ay) - (by - ay) * (cx - ax);

/** True when the leaders of two places cross. */
function entangled(one: Place, other: Place): boolean {
  const [a, b, c, d] = [one.note.at, one.knee, other.note.at, other.knee];
  return turn(a, b, c) * turn(a, b, d) < 0 && turn(c, d, a) * turn(c, d, b) < 0;
}

function compatible(one: Place, other: Place): boolean {
  const wide = { ...one.rect, left: one.rect.left - 1.5, right: one.rect.right + 1.5 };
  return !(
    overlap(wide, other.rect) ||
    crosses(one, other.rect) ||
    crosses(other, one.rect) ||
    entangled(one, other)
  );
}

/** The cheapest places for all notes together that do not disturb one another; notes without any are left out. */
function bestPlaces(choices: readonly (readonly Place[])[]): readonly Place[] {
  let best: { places: readonly Place[]; cost: number } = { places: [], cost: Infinity };
  let tries = 0;
  const rest = choices.map((_, index) =>
    choices.slice(index).reduce((sum, some) => sum + (some[0]?.cost ?? 0), 0),
  );
  const search = (chosen: readonly Place[], cost: number): void => {
    const options = choices[chosen.length];
    if (!options) {
      if (cost < best.cost) best = { places: chosen, cost };
      return;
    }
    for (const place of options) {
      if (cost + place.cost + (rest[chosen.length + 1] ?? 0) >= best.cost || ++tries > TRIES) return;
      if (chosen.every((other) => compatible(place, other))) search([...chosen, place], cost + place.cost);
    }
  };
  search([], 0);
  return best.places;
}

/** Notes with their places; the last is given up as long as all of them do not fit. */
function placed(notes: readonly Note[], room: NoteRoom): readonly Place[] {
  for (let count = notes.length; count > 0; count--) {
    const found = bestPlaces(notes.slice(0, count).map((note) => places(note, room)));
    if (found.length === count) return found;
  }
  return [];
}

/**
 * Notes on shelves outside a view, joined to their points by leaders that end in a dot inside the outline. They
 * cover neither one another nor what is to be avoided, and no leader crosses lettering or another leader.
 *
 * @param notes - the most important first; what does not fit is left out
 * @returns the picture, and how many notes stand in it
 * Source: ISO 128-2:2020 (leader and reference lines), from memory.
 */
export function leaders(notes: readonly Note[], room: NoteRoom): { picture: Picture; count: number } {
  const found = placed(notes, room);
  const picture = joined(
    found.map(({ note, knee, end }) =>
      joined([
        lines('leader', [note.at, knee, end]),
        circle('none', 'accent', note.at, 0.6),
        label(textLabel(note, knee, end, room.size)),
      ]),
    ),
  );
  return { picture, count: found.length };
}
