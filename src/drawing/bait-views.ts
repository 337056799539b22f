import type { BaitGeometry, FeatureMeasure } from '../core/section/geometry.ts';
import type { SeenEdges } from '../core/section/seen-edges.ts';
import {
  cutLetter,
  dimension,
  distinctFeatures,
  featureWord,
  shownLength,
  type Cut,
  type DrawnDimension,
} from './bait-facts.ts';
import { cuttingPlanes, planesReach } from './cutting-plane.ts';
import { horizontal, upright } from './dimension.ts';
import { innerEdges } from './inner-edges.ts';
import type { LayoutSizes } from './layout.ts';
import { leaders, type Note } from './leader.ts';
import { area, EMPTY, joined, labelRect, lines, moved, type Picture, type Point } from './picture.ts';
import type { Scale } from './scale.ts';
import type { Block } from './stack.ts';
import type { Projection, TitleBlock } from './title-block.ts';
import { extent, extremes, onPaper, outlineOnPaper } from './view.ts';

/** What a bait drawing is made from. */
export interface BaitDrawingInput {
  /** Name of the bait, for title and description. */
  readonly name: string;
  readonly geometry: Pick<BaitGeometry, 'plan' | 'across' | 'box' | 'features'>;
  /** What the two views show inside their outlines. */
  readonly edges: { readonly plan: SeenEdges; readonly across: SeenEdges };
  /** How it lies in the mold; decides which outline is its side view. */
  readonly lies: 'on its belly' | 'on its side';
  /** Cross-sections from nose to tail. */
  readonly cuts: readonly Cut[];
  readonly projection: Projection;
  readonly titleBlock?: TitleBlock;
}

/** Where notes stand beside a view. */
export type Side = 'above' | 'below';

/** A bait on its paper. */
export interface BaitSheet {
  readonly input: BaitDrawingInput;
  readonly sizes: LayoutSizes;
  readonly scale: Scale;
  /** Where the nose's origin stands from the left [mm]. */
  readonly nose: number;
}

/** A view and what it dimensions. */
export interface DrawnView {
  readonly block: Block;
  readonly dimensions: readonly DrawnDimension[];
}

/** What the two outlines are called by how the bait lies, and which overall size each shows. */
export const VIEW_WORDS = {
  'on its belly': { plan: 'Top view', across: 'Side view', planIs: 'width', acrossIs: 'height' },
  'on its side': { plan: 'Side view', across: 'Top view', planIs: 'height', acrossIs: 'width' },
} as const;

/** From a view to its upright dimension: the middle line ends before the lettering [mm]. */
const BESIDE = 7;

/** With a capital letter first. */
export const capital = (word: string) => word.charAt(0).toUpperCase() + word.slice(1);

/** The outline in its tint, what shows inside it, and the middle line through it. */
export function silhouette(rings: readonly (readonly Point[])[], inside: Picture = EMPTY): Picture {
  const { min, max } = extent(rings);
  return joined([
    area('visible', 'plastic', rings),
    inside,
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

/** Size of the solid along an axis of the mold's frame [m]: outlines are simplified, the box is not. */
const boxSize = ({ geometry: { box } }: BaitDrawingInput, axis: 0 | 1 | 2) => box.max[axis] - box.min[axis];

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

function featureNotes({ input, scale }: BaitSheet, most: number): { note: Note; value: DrawnDimension }[] {
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
export function planView(sheet: BaitSheet, side: Side, mostFeatures: number): DrawnView {
  const { input, sizes, scale, nose } = sheet;
  const words = VIEW_WORDS[input.lies];
  const rings = outlineOnPaper(input.geometry.plan, scale);
  const { min, max } = extent(rings);
  const whole = overall(boxSize(input, 1), words.planIs, words.plan);
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
  const inside = innerEdges(input.edges.plan, rings, scale);
  const picture = moved(joined([silhouette(rings, inside), size, notes.picture]), nose, 0);
  const drawn = wanted.slice(0, notes.count).map(({ value }) => value);
  return { block: { caption: words.plan, picture }, dimensions: [whole, ...drawn] };
}

/** The view across, with the overall length, its upright size and the cutting planes. */
export function acrossView({ input, sizes, scale, nose }: BaitSheet, side: Side): DrawnView {
  const words = VIEW_WORDS[input.lies];
  const view = { ...scale, flip: input.lies === 'on its side' };
  const rings = outlineOnPaper(input.geometry.across, view);
  const { min, max } = extent(rings);
  const length = overall(boxSize(input, 0), 'length', words.across);
  const whole = overall(boxSize(input, 2), words.acrossIs, words.across);
  const [ends, tips] = [extremes(rings, 1), extremes(rings, 0)];
  const planes = input.cuts.map(({ x }, index) => ({
    x: onPaper([x, 0], view)[0],
    letter: cutLetter(index),
  }));
  const beyond = planesReach(planes);
  const line = side === 'below' ? max[1] + beyond + 5 + sizes.text : min[1] - beyond - 4;
  const picture = joined([
    silhouette(rings, innerEdges(input.edges.across, rings, view)),
    cuttingPlanes(planes, { top: min[1], bottom: max[1], size: sizes.text }),
    horizontal({ from: tips.low, to: tips.high, line, text: length.shown, size: sizes.text }),
    upright({ from: ends.low, to: ends.high, line: max[0] + BESIDE, text: whole.shown, size: sizes.text }),
  ]);
  return { block: { caption: words.across, picture: moved(picture, nose, 0) }, dimensions: [length, whole] };
}
