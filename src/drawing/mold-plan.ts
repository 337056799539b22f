import type { Vec2 } from '../core/mesh/mesh.ts';
import type { MoldLayout, MoldTable, PlacedVent, PlanBar } from '../core/solid/mold-table.ts';
import { statedDimension as dimension, type DrawnDimension } from './bait-facts.ts';
import { capital } from './bait-views.ts';
import { cuttingPlanes, planesReach } from './cutting-plane.ts';
import { horizontal, upright } from './dimension.ts';
import { finished, type Drawing, type DrawingOptions } from './drawing.ts';
import { LAYOUTS, type LayoutSizes } from './layout.ts';
import { leaders, type Note } from './leader.ts';
import { area, circle, joined, label, lines, moved, type Picture, type Point } from './picture.ts';
import { largestScale, type Scale } from './scale.ts';
import type { Projection, TitleBlock } from './title-block.ts';
import { onPaper, outlineOnPaper } from './view.ts';

/** What the plan of a mold half is made from, in the block's frame [m]. */
export interface MoldPlanInput {
  readonly name: string;
  readonly layout: MoldLayout;
  readonly mold: Pick<MoldTable, 'block' | 'sprue' | 'runner' | 'gate' | 'vents' | 'pins'>;
  /** What stands in each cavity: the mark of its revision. */
  readonly marks?: readonly string[];
  /** Station along the block of a section that another drawing shows. */
  readonly cut?: { readonly x: number; readonly letter: string } | undefined;
  readonly projection: Projection;
  readonly titleBlock?: TitleBlock | undefined;
}

type Tier = PlacedVent['tier'];

const TIER_WORDS: Readonly<Record<Tier, string>> = {
  edge: 'edge vent',
  collector: 'collector',
  outlet: 'outlet',
};

/** The four corners of a bar. */
function barCorners({ from, to, width }: PlanBar): Vec2[] {
  const [dx, dy] = [to[0] - from[0], to[1] - from[1]];
  const length = Math.hypot(dx, dy) || 1;
  const [nx, ny] = [(-dy / length) * (width / 2), (dx / length) * (width / 2)];
  return [
    [from[0] + nx, from[1] + ny],
    [to[0] + nx, to[1] + ny],
    [to[0] - nx, to[1] - ny],
    [from[0] - nx, from[1] - ny],
  ];
}

/** A bar with round ends, as a round channel shows in plan. */
function channelRing(from: Vec2, to: Vec2, width: number): Vec2[] {
  const heading = Math.atan2(to[1] - from[1], to[0] - from[0]);
  const cap = (at: Vec2, start: number): Vec2[] =>
    Array.from({ length: 13 }, (_, step) => {
      const angle = start + (Math.PI * step) / 12;
      return [at[0] + (width / 2) * Math.cos(angle), at[1] + (width / 2) * Math.sin(angle)];
    });
  return [...cap(to, heading - Math.PI / 2), ...cap(from, heading + Math.PI / 2)];
}

/** The sprue's tapered half from its mouth on the edge to the runner. */
function sprueRing({ sprue }: MoldLayout, { sprue: sizes }: MoldPlanInput['mold']): Vec2[] {
  const { mouth, end } = sprue;
  const [dx, dy] = [end[0] - mouth[0], end[1] - mouth[1]];
  const length = Math.hypot(dx, dy) || 1;
  const [nx, ny] = [-dy / length, dx / length];
  const at = ([x, y]: Vec2, half: number): Vec2 => [x + nx * half, y + ny * half];
  return [
    at(mouth, sizes.mouth / 2),
    at(end, sizes.end / 2),
    at(end, -sizes.end / 2),
    at(mouth, -sizes.mouth / 2),
  ];
}

/** Channels as one hollow: all outlines first, then all fills over them, so that no line is left inside. */
function hollows({ layout, mold }: MoldPlanInput, scale: Scale): Picture {
  const rings = [
    ...layout.runner.map(({ from, to }) => channelRing(from, to, mold.runner?.diameter ?? mold.sprue.end)),
    ...layout.gates.map(barCorners),
    sprueRing(layout, mold),
  ].map((ring) => ring.map((point) => onPaper(point, scale)));
  return joined([
    ...rings.map((ring) => area('visible', 'plastic', [ring])),
    ...rings.map((ring) => area('none', 'plastic', [ring])),
  ]);
}

function vents({ layout }: MoldPlanInput, scale: Scale): Picture {
  return joined(
    layout.vents.map((vent) => {
      const ring = barCorners(vent).map((point) => onPaper(point, scale));
      const [a, b, c, d] = ring;
      const middle =
        vent.tier === 'collector' && a && b && c && d ? lines('visibleEdge', [a, c], [b, d]) : joined([]);
      return joined([area('visibleEdge', vent.tier === 'outlet' ? 'plastic' : 'sheet', [ring]), middle]);
    }),
  );
}

function pins({ layout }: MoldPlanInput, scale: Scale): Picture {
  return joined(
    layout.pins.map(({ at, diameter }) => {
      const [x, y] = onPaper(at, scale);
      const radius = (diameter * 1000 * scale.factor) / 2;
      return joined([
        circle('visible', 'sheet', [x, y], radius),
        lines(
          'centre',
          [
            [x - radius - 1, y],
            [x + radius + 1, y],
          ],
          [
            [x, y - radius - 1],
            [x, y + radius + 1],
          ],
        ),
      ]);
    }),
  );
}

/** Number of each cavity on its middle. */
function numbers({ layout, marks }: MoldPlanInput, scale: Scale, size: number): Picture {
  return joined(
    layout.cavities.map(({ x, y, turn }, index) => {
      const along = 0.018;
      const [px, py] = onPaper([x + along * Math.cos(turn), y + along * Math.sin(turn)], scale);
      const mark = marks?.[index];
      return label({
        text: `${index + 1}${mark ? ` ${mark}` : ''}`,
        at: [px, py + 0.36 * size],
        size,
        letter: 'halo',
      });
    }),
  );
}

interface Detail {
  readonly note: Note;
  readonly values: readonly DrawnDimension[];
}

const where = 'mold half, plan';

function ventDetails({ layout, mold }: MoldPlanInput, scale: Scale): Detail[] {
  return mold.vents.flatMap(({ tier, depth, width, land }): Detail[] => {
    const first = layout.vents.find((vent) => vent.tier === tier && vent.depth === depth);
    if (!first) return [];
    const word = TIER_WORDS[tier];
    const sizes = [
      dimension(depth, { key: `${tier}-depth`, label: `${capital(word)}: depth`, where }),
      dimension(width, { key: `${tier}-width`, label: `${capital(word)}: width`, where }),
      dimension(land, { key: `${tier}-land`, label: `${capital(word)}: land`, where }),
    ] as const;
    const middle: Vec2 = [(first.from[0] + first.to[0]) / 2, (first.from[1] + first.to[1]) / 2];
    const text = `${word} ${sizes[0].shown} × ${sizes[1].shown}`;
    return [{ note: { at: onPaper(middle, scale), text }, values: sizes }];
  });
}

function channelDetails({ layout, mold }: MoldPlanInput, scale: Scale): Detail[] {
  const mouth = dimension(mold.sprue.mouth, {
    key: 'sprue-mouth',
    label: 'Sprue: diameter at the mouth',
    where,
  });
  const end = dimension(mold.sprue.end, { key: 'sprue-end', label: 'Sprue: diameter at the end', where });
  const { sprue } = layout;
  const middle: Vec2 = [(sprue.mouth[0] + sprue.end[0]) / 2, (sprue.mouth[1] + sprue.end[1]) / 2];
  const details: Detail[] = [
    {
      note: { at: onPaper(middle, scale), text: `sprue Ø${mouth.shown} to Ø${end.shown}` },
      values: [mouth, end],
    },
  ];
  const [stretch] = layout.runner;
  if (mold.runner && stretch) {
    const value = dimension(mold.runner.diameter, { key: 'runner', label: 'Runner: diameter', where });
    const at: Vec2 = [(stretch.from[0] + stretch.to[0]) / 2, (stretch.from[1] + stretch.to[1]) / 2];
    details.push({ note: { at: onPaper(at, scale), text: `runner Ø${value.shown}` }, values: [value] });
  }
  const [gate] = layout.gates;
  if (gate) {
    const width = dimension(mold.gate.width, { key: 'gate-width', label: 'Gate: width', where });
    const depth = dimension(mold.gate.depth, {
      key: 'gate-depth',
      label: 'Gate: depth over both halves',
      where,
    });
    const at: Vec2 = [(gate.from[0] + gate.to[0]) / 2, (gate.from[1] + gate.to[1]) / 2];
    details.push({
      note: { at: onPaper(at, scale), text: `gate ${width.shown} × ${depth.shown}` },
      values: [width, depth],
    });
  }
  const [pin] = layout.pins;
  if (pin) {
    const value = dimension(pin.diameter, { key: 'pin', label: 'Alignment pin: diameter', where });
    details.push({ note: { at: onPaper(pin.at, scale), text: `pin Ø${value.shown}` }, values: [value] });
  }
  return details;
}

/** Details split over the two long sides of the block, each to the nearer one. */
function bySide(details: readonly Detail[], middle: number): { above: Detail[]; below: Detail[] } {
  return {
    above: details.filter(({ note }) => note.at[1] < middle),
    below: details.filter(({ note }) => note.at[1] >= middle),
  };
}

function scaleFor({ mold }: MoldPlanInput, sizes: LayoutSizes, intermediate: boolean): Scale {
  const width = sizes.width - 2 * sizes.margin - sizes.beside;
  const fits = (factor: number) =>
    mold.block.length * 1000 * factor <= width && mold.block.width * 1000 * factor <= sizes.views * 1.4;
  return largestScale(fits, { intermediate, most: 2 });
}

function wordsOf(input: MoldPlanInput, scale: Scale, dimensions: readonly DrawnDimension[]) {
  const { cavities, pins: pinList, vents: ventList } = input.layout;
  const tiers = (['edge', 'collector', 'outlet'] as const)
    .map((tier) => [ventList.filter((vent) => vent.tier === tier).length, tier] as const)
    .filter(([count]) => count > 0)
    .map(([count, tier]) => `${count} ${TIER_WORDS[tier]}${count === 1 ? '' : 's'}`);
  const parts = [
    `${cavities.length} ${cavities.length === 1 ? 'cavity' : 'cavities'}`,
    ...tiers,
    `${pinList.length} alignment pins`,
  ];
  const sizes = dimensions.map(({ label, shown }) => `${label} ${shown} mm.`);
  return {
    title: `${input.name}: mold half in plan, scale ${scale.text}`,
    desc: `Lower half of the mold seen on its parting face, with ${parts.join(', ')}, sprue, runner and gates. ${sizes.join(' ')}`,
  };
}

/** Block, hollows, vents, cavities, pins, the cutting plane and the block's own sizes; corner of the block at the origin. */
function halfPicture(
  input: MoldPlanInput,
  scale: Scale,
  size: number,
  sizes: readonly [DrawnDimension, DrawnDimension],
) {
  const { block } = input.mold;
  const [right, top] = onPaper([block.length, block.width], scale);
  const planes = input.cut ? [{ x: onPaper([input.cut.x, 0], scale)[0], letter: input.cut.letter }] : [];
  const reach = planesReach(planes);
  const outline: Point[] = [
    [0, 0],
    [right, 0],
    [right, top],
    [0, top],
  ];
  const line = top - reach - 4;
  const [length, width] = sizes;
  const picture = joined([
    area('visible', 'metal', [outline]),
    hollows(input, scale),
    vents(input, scale),
    ...input.layout.cavities.map((cavity) =>
      area('visible', 'plastic', outlineOnPaper(cavity.outline, scale)),
    ),
    pins(input, scale),
    numbers(input, scale, size),
    cuttingPlanes(planes, { top, bottom: 0, size }),
    horizontal({ from: [0, top], to: [right, top], line, text: length.shown, size }),
    upright({ from: [right, 0], to: [right, top], line: right + 7, text: width.shown, size }),
  ]);
  return { picture, right, top, above: line - size - 1, below: reach };
}

/**
 * A mold half seen on its parting face: cavities with their numbers, sprue, runner, gates, vents by tier and pins,
 * with the sizes of the block and of every kind of channel. Edge vents are open bars, collectors crossed, outlets tinted.
 *
 * @param input - layout and sizes of the mold [m]
 * @param options - layout, id prefix, colours of a file of its own
 */
export function moldPlanDrawing(input: MoldPlanInput, options: DrawingOptions): Drawing {
  const sizes = LAYOUTS[options.layout];
  const scale = scaleFor(input, sizes, options.layout === 'compact');
  const length = dimension(input.mold.block.length, { key: 'block-length', label: 'Block length', where });
  const width = dimension(input.mold.block.width, { key: 'block-width', label: 'Block width', where });
  const half = halfPicture(input, scale, sizes.text, [length, width]);
  const corner = (sizes.width - sizes.beside - half.right) / 2 + 2;
  const room = { left: sizes.margin - corner, right: sizes.width - sizes.margin - corner, size: sizes.text };
  const details = bySide([...ventDetails(input, scale), ...channelDetails(input, scale)], half.top / 2);
  const notes = (some: readonly Detail[]) => some.map(({ note }) => note);
  const above = leaders(notes(details.above), { ...room, edge: half.above, side: 'above' });
  const below = leaders(notes(details.below), { ...room, edge: half.below, side: 'below' });
  const drawn = [...details.above.slice(0, above.count), ...details.below.slice(0, below.count)];
  const dimensions = [length, width, ...drawn.flatMap(({ values }) => values)];
  const picture = joined([half.picture, above.picture, below.picture]);
  const { projection, titleBlock } = input;
  return finished(
    {
      ...wordsOf(input, scale, dimensions),
      blocks: [{ picture: moved(picture, corner, 0) }],
      scale: scale.text,
      dimensions,
      projection,
      titleBlock,
    },
    options,
  );
}
