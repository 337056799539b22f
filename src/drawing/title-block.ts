import { area, circle, joined, label, lines, textWidth, type Picture, type Point } from './picture.ts';
import type { Layout } from './layout.ts';

/** Which of the two projections of ISO 5456-2 a drawing uses. */
export type Projection = 'first' | 'third';

/** What a title block says. Source of the fields: ISO 7200:2004, from memory. */
export interface TitleBlock {
  /** Legal owner. */
  readonly owner: string;
  /** Identification number. */
  readonly number: string;
  readonly revision: string;
  /** Date of issue, `2026-03-14`. */
  readonly date: string;
  readonly title: string;
  /** What kind of document: `Bait drawing`. */
  readonly documentType: string;
  /** Sheet and number of sheets: `1/3`. */
  readonly sheet?: string;
}

interface Field {
  readonly caption: string;
  readonly value: string;
  /** Share of the row. */
  readonly share: number;
  readonly strong?: boolean;
}

const ROW = 9;
const CAPTION = 2.5;
const VALUE = 3.5;
const PAD = 1.2;

/** Text that fits a width: smaller first, down to 2.5 mm, then cut with an ellipsis. */
function fitted(text: string, width: number): { text: string; size: number } {
  const size = Math.max(CAPTION, Math.min(VALUE, (VALUE * width) / textWidth(text, VALUE)));
  if (textWidth(text, size) <= width) return { text, size };
  let cut = [...text];
  while (cut.length > 1 && textWidth(`${cut.join('')}…`, size) > width) cut = cut.slice(0, -1);
  return { text: `${cut.join('').trimEnd()}…`, size };
}

function fieldPicture({ caption, value, strong }: Field, [x, y]: Point, width: number): Picture {
  const { text, size } = fitted(value, width - 2 * PAD);
  return joined([
    label({
      text: caption,
      at: [x + PAD, y + CAPTION + 0.6],
      size: CAPTION,
      anchor: 'start',
      letter: 'caption',
    }),
    label({ text, at: [x + PAD, y + ROW - 1.4], size, anchor: 'start', letter: strong ? 'strong' : 'text' }),
  ]);
}

/** Symbol of the projection, 12 mm wide, its middle at `at`. Source: ISO 5456-2:1996. */
export function projectionSymbol(kind: Projection, [x, y]: Point): Picture {
  const [cone, rings] = kind === 'first' ? [x - 3.4, x + 3.2] : [x + 3.4, x - 3.2];
  return joined([
    area('visibleEdge', 'none', [
      [
        [cone - 2.5, y - 1.1],
        [cone + 2.5, y - 2.2],
        [cone + 2.5, y + 2.2],
        [cone - 2.5, y + 1.1],
      ],
    ]),
    circle('visibleEdge', 'none', [rings, y], 1.1),
    circle('visibleEdge', 'none', [rings, y], 2.2),
    lines('centre', [
      [x - 7, y],
      [x + 7, y],
    ]),
  ]);
}

function rowsOf(block: TitleBlock, scale: string, layout: Layout): Field[][] {
  const owner = { caption: 'Legal owner', value: block.owner };
  const title = { caption: 'Title', value: block.title, strong: true };
  const number = { caption: 'Number', value: block.number };
  const revision = { caption: 'Rev.', value: block.revision };
  const date = { caption: 'Date of issue', value: block.date };
  const kind = { caption: 'Document type', value: block.documentType };
  const sheet = { caption: 'Sheet', value: block.sheet ?? '1/1' };
  const scaled = { caption: 'Scale', value: scale };
  const projection = { caption: 'Projection', value: '' };
  const unit = { caption: 'Dimensions', value: 'in mm' };
  const share = (field: Omit<Field, 'share'>, part: number): Field => ({ ...field, share: part });
  if (layout === 'wide') {
    return [
      [share(owner, 0.32), share(title, 0.42), share(number, 0.18), share(revision, 0.08)],
      [
        share(kind, 0.32),
        share(scaled, 0.11),
        share(projection, 0.16),
        share(unit, 0.15),
        share(date, 0.18),
        share(sheet, 0.08),
      ],
    ];
  }
  return [
    [share(title, 1)],
    [share(owner, 0.6), share(kind, 0.4)],
    [share(number, 0.46), share(revision, 0.14), share(date, 0.4)],
    [share(scaled, 0.2), share(projection, 0.32), share(unit, 0.28), share(sheet, 0.2)],
  ];
}

/**
 * A title block with its upper left corner at the origin.
 *
 * @param block - what it says
 * @param facts - scale as written, projection, layout, width [mm]
 * Source: ISO 7200:2004 fields; ISO 5456-2:1996 symbol; ISO 5455:1979 scale.
 */
export function titleBlock(
  block: TitleBlock,
  facts: {
    readonly scale: string;
    readonly projection: Projection;
    readonly layout: Layout;
    readonly width: number;
  },
): Picture {
  const { width } = facts;
  const rows = rowsOf(block, facts.scale, facts.layout);
  const parts = rows.flatMap((fields, index) => {
    const y = index * ROW;
    let x = 0;
    const row = fields.map((field) => {
      const [start, room] = [x, field.share * width];
      x += room;
      const middle: Point = [start + room - 8, y + ROW - 3.4];
      return joined([
        start > 0
          ? lines('rule', [
              [start, y],
              [start, y + ROW],
            ])
          : joined([]),
        field.caption === 'Projection'
          ? joined([
              label({
                text: field.caption,
                at: [start + PAD, y + CAPTION + 0.6],
                size: CAPTION,
                anchor: 'start',
                letter: 'caption',
              }),
              projectionSymbol(facts.projection, middle),
            ])
          : fieldPicture(field, [start, y], room),
      ]);
    });
    return [
      ...row,
      index > 0
        ? lines('rule', [
            [0, y],
            [width, y],
          ])
        : joined([]),
    ];
  });
  return joined([
    ...parts,
    lines('frame', [
      [0, 0],
      [width, 0],
    ]),
  ]);
}

/** Height of a title block [mm]. */
export const titleBlockHeight = (layout: Layout) => (layout === 'wide' ? 2 : 4) * ROW;
