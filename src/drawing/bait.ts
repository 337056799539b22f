import { cutLetter, type DrawnDimension } from './bait-facts.ts';
import { acrossView, capital, planView, type BaitDrawingInput, type BaitSheet } from './bait-views.ts';
import { asSeen, crossSections } from './cross-sections.ts';
import { planesBefore } from './cutting-plane.ts';
import { finished, type Drawing, type DrawingOptions } from './drawing.ts';
import { LAYOUTS, type Layout } from './layout.ts';
import { fittingScale, largestScale, type Scale } from './scale.ts';
import { extent } from './view.ts';

export type { BaitDrawingInput } from './bait-views.ts';
export type { Drawing, DrawingOptions } from './drawing.ts';

function sheetFor(input: BaitDrawingInput, layout: Layout): BaitSheet {
  const sizes = LAYOUTS[layout];
  const [plan, across] = [extent(input.geometry.plan), extent(input.geometry.across)];
  const [from, to] = [
    Math.min(plan.min[0], across.min[0]) * 1000,
    Math.max(plan.max[0], across.max[0]) * 1000,
  ];
  const height = (plan.max[1] - plan.min[1] + across.max[1] - across.min[1]) * 1000;
  const width = sizes.width - 2 * sizes.margin - sizes.beside;
  const before = (factor: number) =>
    planesBefore((input.cuts[0]?.x ?? Infinity) * 1000 * factor - from * factor);
  const fits = (factor: number) =>
    before(factor) + (to - from) * factor <= width && height * factor <= sizes.views;
  const scale = largestScale(fits, { intermediate: layout === 'compact', most: 5 });
  const free = width - (to - from) * scale.factor;
  const left = Math.max(free / 2, before(scale.factor));
  return { input, sizes, scale, nose: sizes.margin + left - from * scale.factor };
}

function sectionScale({ input, sizes }: BaitSheet): Scale {
  const boxes = input.cuts.map((cut) => extent(asSeen(cut, input.lies)));
  const width = Math.max(...boxes.map(({ min, max }) => (max[0] - min[0]) * 1000));
  const height = Math.max(...boxes.map(({ min, max }) => (max[1] - min[1]) * 1000));
  return fittingScale(width, height, sizes.section, { most: 10 });
}

function words(input: BaitDrawingInput, scale: string, dimensions: readonly DrawnDimension[]) {
  const cuts = input.cuts.map(({ x }, index) => {
    const letter = cutLetter(index);
    return `${letter}–${letter} at ${(x * 1000).toFixed(0)} mm from the nose`;
  });
  const sizes = dimensions.map(({ label, shown, where }) => `${label} ${shown} mm (${where}).`);
  const sections = cuts.length > 0 ? `, and cross-sections ${cuts.join(', ')}` : '';
  return {
    title: `${input.name}: working drawing, scale ${scale}`,
    desc: `Side view and top view of the bait${sections}. Narrow lines inside the outlines are ribs, eyes and other rounded edges. ${sizes.join(' ')} ${capital(input.projection)}-angle projection.`,
  };
}

/**
 * The working drawing of a bait: side view, top view and stepped cross-sections with their dimensions.
 * The view on the parting plane carries the thickness of thin features, the other one length and cutting planes;
 * third-angle projection puts the top view above the side view, first-angle below it.
 *
 * @param input - measured outlines and sections [m], how the bait lies, projection, title block if one is wanted
 * @param options - layout, id prefix, colours of a file of its own
 * @returns SVG, title and description in words, and each dimension for the table beside it
 */
export function baitDrawing(input: BaitDrawingInput, options: DrawingOptions): Drawing {
  const sheet = sheetFor(input, options.layout);
  const { sizes, scale } = sheet;
  const planOnTop = (input.lies === 'on its belly') === (input.projection === 'third');
  const plan = planView(sheet, planOnTop ? 'above' : 'below', options.layout === 'wide' ? 3 : 2);
  const across = acrossView(sheet, planOnTop ? 'below' : 'above');
  const views = planOnTop ? [plan, across] : [across, plan];
  const sections =
    input.cuts.length > 0
      ? crossSections(input.cuts, { lies: input.lies, scale: sectionScale(sheet), sizes })
      : null;
  const blocks = [...views.map(({ block }) => block), ...(sections ? [{ picture: sections.picture }] : [])];
  const dimensions = [...across.dimensions, ...plan.dimensions, ...(sections?.dimensions ?? [])];
  const { projection, titleBlock } = input;
  const said = words(input, scale.text, dimensions);
  return finished({ ...said, blocks, scale: scale.text, dimensions, projection, titleBlock }, options);
}
