import satori from 'satori';
import sharp from 'sharp';
import type { Outline } from '../core/section/geometry.ts';
import { pathData } from '../drawing/path.ts';
import { extent, outlineOnPaper } from '../drawing/view.ts';
import { LIGHT } from '../styles/tokens.ts';
import { missingLetter, openFaces, type FaceBytes } from './faces.ts';
import { CARD_SIZES } from './layout.ts';

/** What the card of a whole catalogue shows. */
export interface SiteCardFacts {
  readonly shop: string;
  readonly molds: number;
  /** Plans of its baits, in order [m]. */
  readonly plans: readonly Outline[];
  readonly invented: boolean;
}

/** A node of the tree that satori sets. */
interface Node {
  readonly type: string;
  readonly key: null;
  readonly props: Readonly<Record<string, unknown>>;
}

const FRAME = 30;
const PAD = 32;
const GAP = 26;
const { width: WIDTH, height: HEIGHT } = CARD_SIZES.wide;
/** Room for the outlines [px]. */
const ROOM = { width: WIDTH - 2 * (FRAME + PAD), height: 330 };
const COLUMNS = 3;
/** Baits shown. */
const MOST = 9;

const box = (
  style: Readonly<Record<string, string | number>>,
  ...children: readonly (Node | string)[]
): Node => ({
  type: 'div',
  key: null,
  props: { style: { display: 'flex', ...style }, children: children.length === 1 ? children[0] : children },
});

const line = (text: string, size: number, colour: string, condensed = false): Node =>
  box(
    {
      fontFamily: condensed ? 'Barlow Condensed, Barlow Condensed Ext' : 'Barlow, Barlow Ext',
      fontWeight: condensed ? 600 : 500,
      fontSize: size,
      lineHeight: 1.15,
      color: colour,
    },
    text,
  );

/** Outlines in columns, all to one scale. */
function outlines(plans: readonly Outline[]): string {
  const shown = plans.slice(0, MOST);
  const rows = Math.ceil(shown.length / COLUMNS);
  const cell = {
    width: (ROOM.width - (COLUMNS - 1) * GAP) / COLUMNS,
    height: (ROOM.height - (rows - 1) * GAP) / rows,
  };
  const sizes = shown.map((plan) => extent(plan));
  const factor = Math.min(
    ...sizes.map(({ min, max }) => Math.min(cell.width / (max[0] - min[0]), cell.height / (max[1] - min[1]))),
  );
  const shapes = shown.map((plan, index) => {
    const { min, max } = sizes[index]!;
    const left = (index % COLUMNS) * (cell.width + GAP) - min[0] * factor;
    const middle = Math.floor(index / COLUMNS) * (cell.height + GAP) + cell.height / 2;
    const axis = middle + ((max[1] + min[1]) / 2) * factor;
    const rings = outlineOnPaper(plan, { factor: factor / 1000 }).map((ring) =>
      ring.map(([x, y]) => [x + left, y + axis] as const),
    );
    return `<path d="${pathData(rings, true)}" fill="${LIGHT.plastic}" stroke="${LIGHT.ink}" stroke-width="3" stroke-linejoin="round"/>`;
  });
  return `<svg xmlns="http://www.w3.org/2000/svg" width="${ROOM.width}" height="${ROOM.height}">${shapes.join('')}</svg>`;
}

function treeOf({ shop, molds, plans, invented }: SiteCardFacts): Node {
  const source = `data:image/svg+xml;base64,${Buffer.from(outlines(plans)).toString('base64')}`;
  return box(
    { width: WIDTH, height: HEIGHT, padding: FRAME, backgroundColor: LIGHT.paper },
    box(
      {
        flexDirection: 'column',
        justifyContent: 'space-between',
        width: WIDTH - 2 * FRAME - 6,
        height: HEIGHT - 2 * FRAME - 6,
        padding: PAD - 6,
        border: `3px solid ${LIGHT.ink}`,
        backgroundColor: LIGHT.sheet,
      },
      box(
        { flexDirection: 'column' },
        line(shop, 27, LIGHT.accent),
        line('Molds for hand injection', 64, LIGHT.ink, true),
      ),
      { type: 'img', key: null, props: { src: source, ...ROOM } },
      box(
        { justifyContent: 'space-between' },
        line(
          `${molds} ${molds === 1 ? 'mold' : 'molds'}, every figure worked out from its solid`,
          26,
          LIGHT.ink,
        ),
        ...(invented ? [line('invented for the demo', 22, LIGHT.muted)] : []),
      ),
    ),
  );
}

/**
 * The share card of a whole catalogue: its name over the outlines of its baits, all to one scale.
 *
 * @param facts - what it shows
 * @param fonts - bytes of Barlow and Barlow Condensed, each with its `Ext` face
 * @returns PNG of 1200 × 630 px
 * @throws {RangeError} when the shop's name holds a letter that the fonts lack
 */
export async function siteCardPng(facts: SiteCardFacts, fonts: readonly FaceBytes[]): Promise<Buffer> {
  const letter = missingLetter(facts.shop, 'Barlow', openFaces(fonts));
  if (letter !== undefined)
    throw new RangeError(
      `share card of the catalogue: the shop name "${facts.shop}" holds "${letter}", which the fonts of the card lack; write it in Latin letters`,
    );
  const set = fonts.map((font) => ({ ...font, style: 'normal' as const }));
  const svg = await satori(treeOf(facts), { width: WIDTH, height: HEIGHT, fonts: set });
  return sharp(Buffer.from(svg)).png({ palette: true, colours: 32, dither: 0, effort: 10 }).toBuffer();
}
