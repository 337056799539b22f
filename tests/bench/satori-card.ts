import { LIGHT } from '../../src/styles/tokens.ts';
import { baitPicture } from '../../src/card/bait-picture.ts';
import { fitted, type FaceName, type Faces } from '../../src/card/faces.ts';
import type { CardFacts, CardFigure } from '../../src/card/facts.ts';
import { CARD_SIZES, type CardSize } from '../../src/card/layout.ts';
import { box, type SatoriNode } from '../../src/card/satori-node.ts';

const FRAME = 30;
const BORDER = 3;
const PAD = 32;

const family = (face: FaceName) => `${face}, ${face} Ext`;

function line(
  text: string,
  faces: Faces,
  how: {
    readonly face: FaceName;
    readonly most: number;
    readonly least: number;
    readonly width: number;
    readonly colour?: string;
  },
): SatoriNode {
  const fit = fitted(text, how, how.face, faces);
  return box(
    {
      fontFamily: family(how.face),
      fontWeight: how.face === 'Barlow' ? 500 : 600,
      fontSize: fit.size,
      lineHeight: 1.1,
      whiteSpace: 'nowrap',
      color: how.colour ?? LIGHT.ink,
    },
    fit.text,
  );
}

function figureCell(
  figure: CardFigure,
  faces: Faces,
  place: { readonly first: boolean; readonly width: number; readonly times: number },
): SatoriNode {
  const room = place.width - 2 * 22;
  const set = (text: string, face: FaceName, size: number, colour?: string) =>
    line(text, faces, { face, most: size * place.times, least: 0.7 * size, width: room, colour });
  return box(
    {
      flexDirection: 'column',
      justifyContent: 'center',
      width: place.width,
      paddingLeft: 22,
      ...(place.first ? {} : { borderLeft: `1.5px solid ${LIGHT.muted}` }),
    },
    set(figure.label, 'Barlow', 23, LIGHT.muted),
    set(figure.value, 'Barlow Condensed', 46),
    set(figure.note, 'Barlow', 21, LIGHT.muted),
  );
}

function heading(facts: CardFacts, faces: Faces, width: number): SatoriNode {
  const side = 230;
  return box(
    { justifyContent: 'space-between', width },
    box(
      { flexDirection: 'column', width: width - side },
      line(facts.shop, faces, {
        face: 'Barlow',
        most: 27,
        least: 20,
        width: width - side - 20,
        colour: LIGHT.accent,
      }),
      line(facts.name, faces, { face: 'Barlow Condensed', most: 76, least: 40, width: width - side - 20 }),
    ),
    box(
      { flexDirection: 'column', alignItems: 'flex-end', width: side, paddingTop: 2 },
      line(facts.stock, faces, { face: 'Barlow', most: 27, least: 18, width: side }),
      line(facts.detail, faces, { face: 'Barlow', most: 24, least: 18, width: side, colour: LIGHT.muted }),
      ...(facts.invented
        ? [
            line('invented for the demo', faces, {
              face: 'Barlow',
              most: 20,
              least: 16,
              width: side,
              colour: LIGHT.muted,
            }),
          ]
        : []),
    ),
  );
}

function drawing(facts: CardFacts, faces: Faces, room: { width: number; height: number }): SatoriNode {
  const { svg, marks } = baitPicture(facts, room);
  const whole = `<svg xmlns="http://www.w3.org/2000/svg" width="${room.width}" height="${room.height}">${svg}</svg>`;
  const source = `data:image/svg+xml;base64,${Buffer.from(whole).toString('base64')}`;
  return box(
    { position: 'relative', width: room.width, height: room.height },
    { type: 'img', key: null, props: { src: source, width: room.width, height: room.height } },
    ...marks.map(({ text, x, y }) =>
      box(
        { position: 'absolute', left: x - 40, top: y, width: 80, justifyContent: 'center' },
        line(text, faces, { face: 'Barlow', most: 20, least: 20, width: 80, colour: LIGHT.accent }),
      ),
    ),
  );
}

/**
 * The card as a tree for satori, to measure against: heading, the bait over its ruler, and a row of figures as a title block has them.
 * What matters lies inside the middle 1080 × 540 px of the wide format, which every crop keeps.
 */
export function cardTree(facts: CardFacts, size: CardSize, faces: Faces): SatoriNode {
  const { width, height } = CARD_SIZES[size];
  const inner = width - 2 * (FRAME + BORDER + PAD);
  const head = 124;
  const foot = size === 'wide' ? 124 : 310;
  const perRow = size === 'wide' ? facts.figures.length : 2;
  const cell = (width - 2 * FRAME - 2 * BORDER) / perRow;
  const rows = Array.from({ length: Math.ceil(facts.figures.length / perRow) }, (_, index) =>
    facts.figures.slice(index * perRow, (index + 1) * perRow),
  );
  // A width leaves the border out: satori sizes the content.
  const frame = {
    width: width - 2 * FRAME - 2 * BORDER,
    height: height - 2 * FRAME - 2 * BORDER,
    border: `${BORDER}px solid ${LIGHT.ink}`,
  };
  const room = { width: inner, height: height - 2 * FRAME - 2 * BORDER - 22 - head - foot - 12 };
  return box(
    { width, height, backgroundColor: LIGHT.paper, padding: FRAME },
    box(
      { ...frame, flexDirection: 'column', backgroundColor: LIGHT.sheet },
      box({ paddingLeft: PAD, paddingTop: 22, height: head + 22 }, heading(facts, faces, inner)),
      box({ paddingLeft: PAD, height: room.height + 12 }, drawing(facts, faces, room)),
      ...rows.map((row) =>
        box(
          { height: foot / rows.length, overflow: 'hidden', borderTop: `2px solid ${LIGHT.ink}` },
          ...row.map((figure, index) =>
            figureCell(figure, faces, { first: index === 0, width: cell, times: size === 'wide' ? 1 : 1.25 }),
          ),
        ),
      ),
    ),
  );
}
