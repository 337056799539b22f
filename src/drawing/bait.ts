import type { BaitGeometry, FeatureMeasure } from '../core/section/geometry.ts';
import {
  cutLetter,
  dimension,
  distinctFeatures,
  featureWord,
  shownLength,
  type Cut,
  type DrawnDimension,
} from './bait-facts.ts';
import { asSeen, crossSections } from './cross-sections.ts';
import { cuttingPlanes, planesBefore, planesReach } from './cutting-plane.ts';
import { horizontal, upright } from './dimension.ts';
import { LAYOUTS, type Layout, type LayoutSizes } from './layout.ts';
import { leaders, type Note } from './leader.ts';
import { area, joined, labelRect, lines, moved, type Picture, type Point } from './picture.ts';
import { fittingScale, largestScale, type Scale } from './scale.ts';
import { framed, stacked, type Block } from './stack.ts';
import { svgText, type SvgOptions } from './svg.ts';
import type { Projection, TitleBlock } from './title-block.ts';
import { extent, extremes, onPaper, outlineOnPaper } from './view.ts';

/** What a bait drawing is made from. */
export interface BaitDrawingInput {
  /** Name of the bait, for title and description. */
  readonly name: string;
  readonly geometry: Pick<BaitGeometry, 'plan' | 'across' | 'box' | 'features'>;
  /** How it lies in the mold; decides which outline is its side view. */
  readonly lies: 'on its belly' | 'on its side';
  /** Cross-sections from nose to tail. */
  readonly cuts: readonly Cut[];
  readonly projection: Projection;
  readonly titleBlock?: TitleBlock;
}

/** How a drawing is laid out and put into SVG. */
export interface DrawingOptions extends SvgOptions {
  readonly layout: Layout;
}

/** A drawing: SVG text, its words, and every dimension that stands in it. */
export interface Drawing {
  readonly svg: string;
  readonly title: string;
  readonly desc: string;
  /** Size on paper [mm]. */
  readonly width: number;
  readonly height: number;
  /** Main scale: `1:2`. */
  readonly scale: string;
  readonly dimensions: readonly DrawnDimension[];
  /** What was drawn, for checks. */
  readonly picture: Picture;
}

type Side = 'above' | 'below';

interface Sheet {
  readonly input: BaitDrawingInput;
  readonly sizes: LayoutSizes;
  readonly scale: Scale;
  /** Where the nose's origin stands from the left [mm]. */
  readonly nose: number;
}

interface DrawnView {
  readonly block: Block;
  readonly dimensions: readonly DrawnDimension[];
}

const VIEW_WORDS = {
  'on its belly': { plan: 'Top view', across: 'Side view', planIs: 'width', acrossIs: 'height' },
  'on its side': { plan: 'Side view', across: 'Top view', planIs: 'height', acrossIs: 'width' },
} as const;

/** From a view to its upright dimension: the middle line ends before the lettering [mm]. */
const BESIDE = 7;

const capital = (word: string) => word.charAt(0).toUpperCase() + word.slice(1);

/** The outline in its tint with the middle line through it. */
function silhouette(rings: readonly (readonly Point[])[]): Picture {
  const { min, max } = extent(rings);
  return joined([
    area('visible', 'plastic', rings),
    lines('centre', [
      [min[0] - 2.5, 0],
      [max[0] + 2.5, 0],
    ]),
  ]);
}

function overall(metres: number, which: 'width' | 'height' | 'length', view: string): DrawnDimension {
  return dimension(metres, {
    key: which,
    label: `Overall ${which}`,
    where: view.toLowerCase(),
    figure: `bait.${which}`,
  });
}

interface FeatureSize {
  readonly end: 'root' | 'tip' | '';
  readonly metres: number;
  readonly at: readonly [number, number, number] | undefined;
}

/** Thickness at both ends, or once where both print alike. */
function featureSizes({ rootThickness, tipThickness, stations }: FeatureMeasure): FeatureSize[] {
  if (shownLength(rootThickness) === shownLength(tipThickness)) {
    return [{ end: '', metres: rootThickness, at: stations[Math.floor(stations.length / 2)]?.at }];
  }
  return [
    { end: 'root', metres: rootThickness, at: stations[0]?.at },
    { end: 'tip', metres: tipThickness, at: stations.at(-1)?.at },
  ];
}

function featureNotes({ input, scale }: Sheet, most: number): { note: Note; value: DrawnDimension }[] {
  const where = VIEW_WORDS[input.lies].plan.toLowerCase();
  return distinctFeatures(input.geometry.features)
    .slice(0, most)
    .flatMap((feature) =>
      featureSizes(feature).flatMap(({ end, metres, at }) => {
        if (!at) return [];
        const word = [featureWord(feature), end].filter(Boolean).join(' ');
        const label = `${capital(featureWord(feature))} thickness${end && ` at the ${end}`}`;
        const key = [feature.name, end || 'thickness'].join('-');
        const value = dimension(metres, { key, label, where });
        return [
          { value, note: { at: onPaper([at[0], at[1]], scale), text: `${word} ${value.shown} thick` } },
        ];
      }),
    );
}

/** The view on the parting plane, with its upright size and the thickness of thin features. */
function planView(sheet: Sheet, side: Side, mostFeatures: number): DrawnView {
  const { input, sizes, scale, nose } = sheet;
  const words = VIEW_WORDS[input.lies];
  const rings = outlineOnPaper(input.geometry.plan, scale);
  const { min, max } = extent(rings);
  const real = extent(input.geometry.plan);
  const whole = overall(real.max[1] - real.min[1], words.planIs, words.plan);
  const ends = extremes(rings, 1);
  const wanted = featureNotes(sheet, mostFeatures);
  const room = { left: sizes.margin - nose, right: sizes.width - sizes.margin - nose };
  const size = upright({
    from: ends.low,
    to: ends.high,
    line: max[0] + BESIDE,
    text: whole.shown,
    size: sizes.text,
  });
  const edge = side === 'above' ? min[1] : max[1];
  const notes = leaders(
    wanted.map(({ note }) => note),
    { ...room, edge, side, size: sizes.text, avoid: size.labels.map(labelRect) },
  );
  const picture = moved(joined([silhouette(rings), size, notes.picture]), nose, 0);
  const drawn = wanted.slice(0, notes.count).map(({ value }) => value);
  return { block: { caption: words.plan, picture }, dimensions: [whole, ...drawn] };
}

/** The view across, with the overall length, its upright size and the cutting planes. */
function acrossView({ input, sizes, scale, nose }: Sheet, side: Side): DrawnView {
  const words = VIEW_WORDS[input.lies];
  const view = { ...scale, flip: input.lies === 'on its side' };
  const rings = outlineOnPaper(input.geometry.across, view);
  const { min, max } = extent(rings);
  const real = extent(input.geometry.across);
  const length = overall(real.max[0] - real.min[0], 'length', words.across);
  const whole = overall(real.max[1] - real.min[1], words.acrossIs, words.across);
  const [ends, tips] = [extremes(rings, 1), extremes(rings, 0)];
  const planes = input.cuts.map(({ x }, index) => ({
    x: onPaper([x, 0], view)[0],
    letter: cutLetter(index),
  }));
  const beyond = planesReach(planes);
  const line = side === 'below' ? max[1] + beyond + 5 + sizes.text : min[1] - beyond - 4;
  const picture = joined([
    silhouette(rings),
    cuttingPlanes(planes, { top: min[1], bottom: max[1], size: sizes.text }),
    horizontal({ from: tips.low, to: tips.high, line, text: length.shown, size: sizes.text }),
    upright({ from: ends.low, to: ends.high, line: max[0] + BESIDE, text: whole.shown, size: sizes.text }),
  ]);
  return { block: { caption: words.across, picture: moved(picture, nose, 0) }, dimensions: [length, whole] };
}

function sheetFor(input: BaitDrawingInput, layout: Layout): Sheet {
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

function sectionScale({ input, sizes }: Sheet): Scale {
  const boxes = input.cuts.map((cut) => extent(asSeen(cut, input.lies)));
  const width = Math.max(...boxes.map(({ min, max }) => (max[0] - min[0]) * 1000));
  const height = Math.max(...boxes.map(({ min, max }) => (max[1] - min[1]) * 1000));
  return fittingScale(width, height, { width: sizes.section, height: sizes.section }, { most: 10 });
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
    desc: `Side view and top view of the bait${sections}. ${sizes.join(' ')} ${capital(input.projection)}-angle projection.`,
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
  const facts = { sizes, layout: options.layout, scale: scale.text, projection: input.projection };
  const { picture, height } = framed(stacked(blocks, sizes), { ...facts, block: input.titleBlock });
  const dimensions = [...across.dimensions, ...plan.dimensions, ...(sections?.dimensions ?? [])];
  const said = words(input, scale.text, dimensions);
  const { width } = sizes;
  return {
    ...said,
    svg: svgText({ ...said, width, height, picture }, options),
    width,
    height,
    scale: scale.text,
    dimensions,
    picture,
  };
}
