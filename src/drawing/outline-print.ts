import type { BaitGeometry } from '../core/section/geometry.ts';
import { dimension } from './bait-facts.ts';
import { silhouette, VIEW_WORDS } from './bait-views.ts';
import { finished, type Drawing } from './drawing.ts';
import { LAYOUTS } from './layout.ts';
import { joined, label, lines, moved, type Picture, type Point } from './picture.ts';
import { largestScale, type Scale } from './scale.ts';
import type { SvgOptions } from './svg.ts';
import type { Projection, TitleBlock } from './title-block.ts';
import { extent, outlineOnPaper } from './view.ts';

/** What the outline for print is made from. */
export interface OutlinePrintInput {
  readonly name: string;
  readonly geometry: Pick<BaitGeometry, 'plan' | 'across' | 'box'>;
  readonly lies: 'on its belly' | 'on its side';
  readonly projection: Projection;
  readonly titleBlock?: TitleBlock | undefined;
  /** Most height that the first view may take for the second one to be shown too [mm]; no limit when left out. */
  readonly roomForBoth?: number | undefined;
}

const INCH = 25.4;
const SMALL = 2.5;

function ticks(count: number, step: number, length: (index: number) => number): Point[][] {
  return Array.from({ length: count + 1 }, (_, index): Point[] => [
    [index * step, 0],
    [index * step, length(index)],
  ]);
}

/**
 * A check ruler: millimetres above its line, eighths of an inch below it, both from the same zero.
 *
 * @param millimetres - length of the upper scale, a multiple of 10
 */
export function checkRuler(millimetres: number): Picture {
  const inches = Math.floor(millimetres / INCH);
  const upper = ticks(millimetres, 1, (index) => (index % 10 === 0 ? -5 : index % 5 === 0 ? -3.5 : -2));
  const lower = ticks(inches * 8, INCH / 8, (index) => (index % 8 === 0 ? 5 : index % 4 === 0 ? 3.5 : 2));
  const numbers = (count: number, step: number, y: number, times: number) =>
    Array.from({ length: count + 1 }, (_, index) =>
      label({ text: `${index * times}`, at: [index * step, y], size: SMALL, letter: 'text' }),
    );
  return joined([
    lines('visibleEdge', ...upper, ...lower, [
      [0, 0],
      [millimetres, 0],
    ]),
    ...numbers(millimetres / 10, 10, -5.9, 10),
    ...numbers(inches, INCH, 7.9, 1),
    label({ text: 'mm', at: [millimetres + 3.5, -3], size: SMALL, anchor: 'start' }),
    label({ text: 'in', at: [millimetres + 3.5, 5.5], size: SMALL, anchor: 'start' }),
  ]);
}

/**
 * Outlines at true size for print, both views over a check ruler. A bait longer than the sheet is drawn at the next
 * scale of ISO 5455, and the sheet says so in words.
 *
 * @param input - outlines [m]
 * @param options - id prefix, colours of a file of its own
 */
export function outlinePrint(input: OutlinePrintInput, options: SvgOptions): Drawing {
  const sizes = LAYOUTS.wide;
  const { plan, across, box } = input.geometry;
  const [flat, side] = [extent(plan), extent(across)];
  const [from, to] = [Math.min(flat.min[0], side.min[0]) * 1000, Math.max(flat.max[0], side.max[0]) * 1000];
  const scale: Scale = largestScale((factor) => (to - from) * factor <= sizes.width - 2 * sizes.margin - 6, {
    most: 1,
  });
  const nose = (sizes.width - (from + to) * scale.factor) / 2;
  const words = VIEW_WORDS[input.lies];
  const view = (outline: typeof plan, flip: boolean) =>
    moved(silhouette(outlineOnPaper(outline, { ...scale, flip })), nose, 0);
  const both = (flat.max[1] - flat.min[1]) * 1000 * scale.factor <= (input.roomForBoth ?? Infinity);
  const real = scale.factor === 1;
  const advice = real
    ? 'True size. Print at 100%, no fit to page; 0 to 100 on the ruler must measure 100 mm.'
    : `Not true size: scale ${scale.text}, the bait is longer than the sheet. Only the ruler is true size.`;
  const note = label({ text: advice, at: [sizes.width / 2, 0], size: 3.5, letter: 'strong' });
  const length = dimension(box.max[0] - box.min[0], {
    key: 'length',
    label: 'Overall length',
    where: 'outline for print',
    figure: 'bait.length',
  });
  return finished(
    {
      title: `${input.name}: outline, scale ${scale.text}`,
      desc: `${words.plan}${both ? ` and ${words.across.toLowerCase()}` : ''} of the bait in outline over a ruler of 160 mm and 6 in. ${advice} Overall length ${length.shown} mm.`,
      blocks: [
        { caption: words.plan, picture: view(plan, false) },
        ...(both ? [{ caption: words.across, picture: view(across, input.lies === 'on its side') }] : []),
        { picture: moved(checkRuler(160), 12, 0) },
        { picture: note },
      ],
      scale: scale.text,
      dimensions: [length],
      projection: input.projection,
      titleBlock: input.titleBlock,
    },
    { ...options, layout: 'wide' },
  );
}
