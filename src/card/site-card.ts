import satori from 'satori';
import sharp from 'sharp';
import type { Outline } from '../core/section/geometry.ts';
import { pathData } from '../drawing/path.ts';
import { extent, outlineOnPaper } from '../drawing/view.ts';
import { LIGHT } from '../styles/tokens.ts';
import { missingLetter, openFaces, type FaceBytes } from './faces.ts';
import { CARD_SIZES } from './layout.ts';
import { box, type SatoriNode } from './satori-node.ts';

/** What the card of a whole catalogue shows. */
export interface SiteCardFacts {
  readonly shop: string;
  readonly molds: number;
  /** Plans of its baits, in order [m]. */
  readonly plans: readonly Outline[];
  readonly invented: boolean;
}

const FRAME = 30;
const PAD = 32;
const GAP = 34;
const { width: WIDTH, height: HEIGHT } = CARD_SIZES.wide;
/** Room for the outlines [px]. */
const ROOM = { width: WIDTH - 2 * (FRAME + PAD), height: 330 };
const ROOM_INSIDE = { width: ROOM.width, height: HEIGHT - 2 * (FRAME + PAD) };
/** Half a stroke, and more [px]. */
const EDGE = 3;
/** Baits shown, and scales that are tried. */
const MOST = 9;
const SIZES = 100;

const line = (text: string, size: number, colour: string, condensed = false): SatoriNode =>
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

interface Placed {
  readonly plan: Outline;
  /** Top left corner of its box [px]. */
  readonly left: number;
  readonly top: number;
}

/** Outlines one after another in rows that are as wide as the room, and how high that gets [px]. */
function inRows(plans: readonly Outline[], factor: number): { placed: Placed[]; height: number } {
  let [left, top, tallest] = [0, 0, 0];
  const placed = plans.map((plan): Placed => {
    const { min, max } = extent(plan);
    const [width, height] = [(max[0] - min[0]) * factor, (max[1] - min[1]) * factor];
    if (left > 0 && left + width > ROOM.width - 2 * EDGE) {
      [left, top, tallest] = [0, top + tallest + GAP, 0];
    }
    const place = { plan, left: left + EDGE, top: top + EDGE };
    left += width + GAP;
    tallest = Math.max(tallest, height);
    return place;
  });
  return { placed, height: top + tallest + 2 * EDGE };
}

/** Outlines all to one scale, as large as the room takes. */
function outlines(plans: readonly Outline[]): string {
  const shown = plans.slice(0, MOST);
  const widest = Math.max(...shown.map((plan) => extent(plan).max[0] - extent(plan).min[0]));
  const largest = (ROOM.width - 2 * EDGE) / widest;
  const sizes = Array.from({ length: SIZES }, (_, step) => largest * (1 - step / SIZES));
  const factor = sizes.find((one) => inRows(shown, one).height <= ROOM.height) ?? largest / SIZES;
  const { placed, height } = inRows(shown, factor);
  const lower = (ROOM.height - height) / 2;
  const shapes = placed.map(({ plan, left, top }) => {
    const { min, max } = extent(plan);
    const rings = outlineOnPaper(plan, { factor: factor / 1000 }).map((ring) =>
      ring.map(([x, y]) => [x + left - min[0] * factor, y + lower + top + max[1] * factor] as const),
    );
    return `<path d="${pathData(rings, true)}" fill="${LIGHT.plastic}" stroke="${LIGHT.ink}" stroke-width="3" stroke-linejoin="round"/>`;
  });
  return `<svg xmlns="http://www.w3.org/2000/svg" width="${ROOM.width}" height="${ROOM.height}">${shapes.join('')}</svg>`;
}

function treeOf({ shop, molds, plans, invented }: SiteCardFacts): SatoriNode {
  const source = `data:image/svg+xml;base64,${Buffer.from(outlines(plans)).toString('base64')}`;
  return box(
    { width: WIDTH, height: HEIGHT, padding: FRAME, backgroundColor: LIGHT.paper },
    box(
      {
        flexDirection: 'column',
        justifyContent: 'space-between',
        // A width leaves border and padding out: satori sizes the content.
        ...ROOM_INSIDE,
        padding: PAD - 3,
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
