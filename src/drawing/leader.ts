import { circle, joined, label, lines, textWidth, type Picture, type Point } from './picture.ts';

/** A note and the point it speaks of. */
export interface Note {
  readonly at: Point;
  readonly text: string;
}

/** Where notes stand and how they are lettered. */
export interface NoteRows {
  /** Room from left to right [mm]. */
  readonly left: number;
  readonly right: number;
  /** Edge of the view that the notes stand outside of: its top or its bottom [mm]. */
  readonly edge: number;
  readonly side: 'above' | 'below';
  /** Height of the lettering [mm]. */
  readonly size: number;
}

interface Shelf {
  readonly note: Note;
  readonly start: number;
  readonly end: number;
}

const SPACE = 2.5;

/**
 * Shelves of one row in the order of their points: each as near its own point as its neighbours let it.
 * Neighbours that would touch share the push, as in regression under order.
 */
function row(notes: readonly Note[], { left, right, size }: NoteRows): Shelf[] {
  const widths = notes.map(({ text }) => textWidth(text, size));
  const offsets = widths.map((_, index) =>
    widths.slice(0, index).reduce((sum, width) => sum + width + SPACE, 0),
  );
  const total = (offsets.at(-1) ?? 0) + (widths.at(-1) ?? 0);
  const wanted = notes.map(({ at }, index) => at[0] - (widths[index] ?? 0) / 2 - (offsets[index] ?? 0));
  const shifts = rising(wanted).map((shift) => Math.min(Math.max(shift, left), right - total));
  return notes.map((note, index) => {
    const start = (shifts[index] ?? left) + (offsets[index] ?? 0);
    return { note, start, end: start + (widths[index] ?? 0) };
  });
}

/** The never-falling numbers nearest to the given ones, in least squares: falling runs become their mean. */
function rising(values: readonly number[]): number[] {
  const runs: { sum: number; count: number }[] = [];
  for (const value of values) {
    let run = { sum: value, count: 1 };
    for (let last = runs.at(-1); last && last.sum / last.count > run.sum / run.count; last = runs.at(-1)) {
      run = { sum: run.sum + last.sum, count: run.count + last.count };
      runs.pop();
    }
    runs.push(run);
  }
  return runs.flatMap(({ sum, count }) => Array.from({ length: count }, () => sum / count));
}

/** Notes in the order of their points, split into as few rows as the room takes. */
function rows(notes: readonly Note[], place: NoteRows): Note[][] {
  const width = ({ text }: Note) => textWidth(text, place.size) + SPACE;
  const total = notes.reduce((sum, note) => sum + width(note), -SPACE);
  const count = Math.max(1, Math.ceil(total / (place.right - place.left)));
  const perRow = Math.ceil(notes.length / count);
  return Array.from({ length: Math.ceil(notes.length / perRow) }, (_, index) =>
    notes.slice(index * perRow, (index + 1) * perRow),
  );
}

function shelf({ note, start, end }: Shelf, y: number, size: number): Picture {
  const [x, py] = note.at;
  const knee: Point = [Math.abs(x - start) < Math.abs(x - end) ? start : end, y];
  const other: Point = [knee[0] === start ? end : start, y];
  return joined([
    lines('leader', [note.at, knee, other]),
    circle('none', 'accent', [x, py], 0.6),
    label({ text: note.text, at: [(start + end) / 2, y - 0.25 * size], size, letter: 'value' }),
  ]);
}

/**
 * Notes on shelves outside a view, joined to their points by leaders that end in a dot inside the outline.
 * Source: ISO 128-2:2020 (leader and reference lines), from memory.
 */
export function leaders(notes: readonly Note[], place: NoteRows): Picture {
  if (notes.length === 0) return joined([]);
  const sorted = [...notes].sort((a, b) => a.at[0] - b.at[0]);
  const step = 1.7 * place.size;
  return joined(
    rows(sorted, place).map((some, index) => {
      const y =
        place.side === 'above' ? place.edge - 3 - index * step : place.edge + 1.5 + (index + 1) * step;
      return joined(row(some, place).map((one) => shelf(one, y, place.size)));
    }),
  );
}
