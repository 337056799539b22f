import type { Outline } from '../core/section/geometry.ts';
import { dimension, statedDimension, type DrawnDimension } from './bait-facts.ts';
import { horizontal, upright } from './dimension.ts';
import { finished, type Drawing, type DrawingOptions } from './drawing.ts';
import { hatching, hatchSpacing } from './hatch.ts';
import { LAYOUTS, type LayoutSizes } from './layout.ts';
import { leaders, type Note } from './leader.ts';
import { area, joined, label, labelRect, lines, moved, type Picture, type Point } from './picture.ts';
import { largestScale, type Scale } from './scale.ts';
import type { Projection, TitleBlock } from './title-block.ts';
import { extent, outlineOnPaper } from './view.ts';

/** A closed mold cut across; outlines are (y, z) in the block's frame, parting plane z = 0 [m]. */
export interface MoldSectionInput {
  readonly name: string;
  /** Letter of the cutting plane in the plan. */
  readonly letter: string;
  /** Metal of both halves. */
  readonly lower: Outline;
  readonly upper: Outline;
  /** The plastic in the cavities: sections of the baits where they lie. */
  readonly plastic: Outline;
  readonly block: { readonly width: number; readonly thickness: number };
  readonly projection: Projection;
  readonly titleBlock?: TitleBlock | undefined;
}

type Rings = readonly (readonly Point[])[];

const where = (letter: string) => `mold section ${letter}–${letter}`;

/** A metal part: tint, wide outline and hatching of its own lean. */
function metal(rings: Rings, lean: 'left' | 'right', spacing: number): Picture {
  return joined([area('visible', 'metal', rings), lines('hatch', ...hatching(rings, spacing, lean))]);
}

/** The plastic: another tint, and hatching both ways, closer than the metal's. */
function plasticParts(rings: Rings, spacing: number): Picture {
  const close = Math.max(0.9, spacing / 2);
  return joined([
    area('visible', 'plastic', rings),
    lines('hatch', ...hatching(rings, close, 'right'), ...hatching(rings, close, 'left')),
  ]);
}

/** The deepest cavity: its ring, and how far it reaches above and below the parting plane [m]. */
function deepest(plastic: Outline): { ring: Outline[number]; above: number; below: number } | undefined {
  const found = plastic.map((ring) => {
    const { min, max } = extent([ring]);
    return { ring, above: Math.max(0, max[1]), below: Math.max(0, -min[1]) };
  });
  return found.sort((a, b) => b.above + b.below - a.above - a.below)[0];
}

function sectionDimensions(input: MoldSectionInput) {
  const place = where(input.letter);
  const width = statedDimension(input.block.width, {
    key: 'section-width',
    label: 'Block width',
    where: place,
  });
  const whole = statedDimension(input.block.thickness, {
    key: 'thickness',
    label: 'Both halves together',
    where: place,
  });
  const cavity = deepest(input.plastic);
  if (!cavity) return { width, whole, cavity: undefined };
  const { min, max } = extent(input.plastic);
  const wall = Math.min(min[0], input.block.width - max[0]);
  const floor = input.block.thickness / 2 - Math.max(cavity.above, cavity.below);
  return {
    width,
    whole,
    cavity: {
      ring: cavity.ring,
      upper: dimension(cavity.above, {
        key: 'depth-upper',
        label: 'Cavity depth in the upper half',
        where: place,
      }),
      lower: dimension(cavity.below, {
        key: 'depth-lower',
        label: 'Cavity depth in the lower half',
        where: place,
      }),
      wall: dimension(wall, { key: 'wall', label: 'Least metal to the side', where: place }),
      floor: dimension(floor, { key: 'floor', label: 'Least metal behind the cavity', where: place }),
    },
  };
}

/** Notes to the deepest cavity: how far it reaches into each half. */
function depthNotes(
  facts: ReturnType<typeof sectionDimensions>,
  scale: Scale,
): { upper: Note[]; lower: Note[] } {
  if (!facts.cavity) return { upper: [], lower: [] };
  const { min, max } = extent(outlineOnPaper([facts.cavity.ring], scale));
  const x = (min[0] + max[0]) / 2;
  return {
    upper: [{ at: [x, min[1] + 0.3], text: `cavity ${facts.cavity.upper.shown} deep` }],
    lower: [{ at: [x, max[1] - 0.3], text: `cavity ${facts.cavity.lower.shown} deep` }],
  };
}

function sectionPicture(input: MoldSectionInput, scale: Scale, sizes: LayoutSizes, corner: number): Picture {
  const facts = sectionDimensions(input);
  const [lower, upper, plastic] = [input.lower, input.upper, input.plastic].map((outline) =>
    outlineOnPaper(outline, scale),
  );
  const box = extent([...(lower ?? []), ...(upper ?? [])]);
  const [left, top] = box.min;
  const [right, bottom] = box.max;
  const size = sizes.text;
  const spacing = hatchSpacing((bottom - top) / 1.5);
  const notes = depthNotes(facts, scale);
  const room = { left: sizes.margin - corner, right: sizes.width - sizes.margin - corner, size };
  const line = bottom + 6 + 2 * size;
  const whole = upright({
    from: [right, top],
    to: [right, bottom],
    line: right + 7,
    text: facts.whole.shown,
    size,
  });
  const caption = (text: string, y: number) =>
    label({ text, at: [left + 1, y], size: sizes.small, anchor: 'start', letter: 'caption' });
  const captions = joined([
    caption('upper half', top - 1.5),
    caption('lower half', bottom + 1 + sizes.small),
  ]);
  const avoid = [...whole.labels, ...captions.labels].map(labelRect);
  const title = `${input.letter}–${input.letter} (${scale.text})`;
  return joined([
    metal(lower ?? [], 'right', spacing),
    metal(upper ?? [], 'left', spacing),
    plasticParts(plastic ?? [], spacing),
    lines('centre', [
      [left - 3, 0],
      [right + 3, 0],
    ]),
    horizontal({ from: [left, bottom], to: [right, bottom], line, text: facts.width.shown, size }),
    whole,
    captions,
    leaders(notes.upper, { ...room, edge: top, side: 'above', avoid }).picture,
    leaders(notes.lower, { ...room, edge: bottom - 1, side: 'below', avoid }).picture,
    label({ text: title, at: [(left + right) / 2, top - 5 - 1.7 * size], size, letter: 'strong' }),
  ]);
}

/**
 * A closed mold cut across through its cavities: both halves hatched opposite ways, the plastic cross-hatched closer,
 * with block width, thickness and the depth of the cavity in each half.
 *
 * @param input - outlines (y, z) [m]
 * @param options - layout, id prefix, colours of a file of its own
 * Source: ISO 128-3:2022, neighbouring parts hatched opposite ways, from memory.
 */
export function moldSectionDrawing(input: MoldSectionInput, options: DrawingOptions): Drawing {
  const sizes = LAYOUTS[options.layout];
  const paper = sizes.width - 2 * sizes.margin - sizes.beside;
  const fits = (factor: number) =>
    input.block.width * 1000 * factor <= paper && input.block.thickness * 1000 * factor <= sizes.views;
  const scale = largestScale(fits, { intermediate: options.layout === 'compact', most: 2 });
  const corner = sizes.margin + (paper - input.block.width * 1000 * scale.factor) / 2 + 2;
  const facts = sectionDimensions(input);
  const cavity: DrawnDimension[] = facts.cavity
    ? [facts.cavity.upper, facts.cavity.lower, facts.cavity.wall, facts.cavity.floor]
    : [];
  const dimensions = [facts.width, facts.whole, ...cavity];
  const picture = moved(sectionPicture(input, scale, sizes, corner), corner, 0);
  const said = dimensions.map(({ label: name, shown }) => `${name} ${shown} mm.`).join(' ');
  return finished(
    {
      title: `${input.name}: section ${input.letter}–${input.letter} through the closed mold, scale ${scale.text}`,
      desc: `Both halves of the closed mold cut across, with ${input.plastic.length} cut ${input.plastic.length === 1 ? 'cavity' : 'cavities'} full of plastic. ${said}`,
      blocks: [{ picture }],
      scale: scale.text,
      dimensions,
      projection: input.projection,
      titleBlock: input.titleBlock,
    },
    options,
  );
}
