import type { Outline } from '../core/section/geometry.ts';
import { dimension, shownLength, type DrawnDimension } from './bait-facts.ts';
import { scaleColour } from './colour-scale.ts';
import { contourMarks, ringArea, type Contour } from './contour-marks.ts';
import { preferredLevels, regions, type Grid } from './contours.ts';
import { finished, type Drawing, type DrawingOptions } from './drawing.ts';
import { LAYOUTS, type LayoutSizes } from './layout.ts';
import { leaders } from './leader.ts';
import { simplifiedRing } from './path.ts';
import { area, EMPTY, joined, label, moved, type Path, type Picture, type Point } from './picture.ts';
import { fittingScale, type Scale } from './scale.ts';
import type { Projection, TitleBlock } from './title-block.ts';
import { extent, onPaper, outlineOnPaper } from './view.ts';

/** What a thickness map is made from. */
export interface ThicknessMapInput {
  readonly name: string;
  /** Outline on the parting plane [m]. */
  readonly plan: Outline;
  /** Local thickness over the plan [m]. */
  readonly grid: Grid;
  /** Thickness of the thinnest part that has a name; Infinity when none has [m]. */
  readonly thinnest: number;
  readonly projection: Projection;
  readonly titleBlock?: TitleBlock | undefined;
}

type Rings = readonly (readonly Point[])[];

/** Levels between the bands, and the greatest thickness [m]. */
interface Bands {
  readonly levels: readonly number[];
  readonly high: number;
}

const MOST_LEVELS = 9;
/** Share of the cells left below the lowest level: the rounding of the very edge is no wall. */
const EDGE = 0.03;
/** The lowest level stands no lower than this part of the thinnest named part: what is thinner is its rounded rim. */
const RIM = 0.8;
/** Islands smaller than this say nothing at the size of the drawing [mm²]. */
const ISLAND = 3;
/** Contours stay this close to the computed ones [mm on paper]. */
const TOLERANCE = 0.05;

function bandsOf({ grid: { values }, thinnest }: ThicknessMapInput): Bands {
  const inside = values.filter((value) => value > 0).sort();
  const edge = inside[Math.floor(EDGE * inside.length)] ?? 0;
  const low = thinnest < Infinity ? Math.max(edge, RIM * thinnest) : edge;
  return {
    levels: low > 0 ? preferredLevels(low, inside.at(-1) ?? low, MOST_LEVELS) : [],
    high: inside.at(-1) ?? 0,
  };
}

/** A level without the zeros that say nothing: `2.5`, `10`. */
const shownLevel = (metres: number) => `${Number((metres * 1000).toPrecision(4))}`;

const bandColour = (band: number, { levels }: Bands) =>
  scaleColour(levels.length === 0 ? 0.5 : band / levels.length);

function tintedArea(rings: Rings, tint: string, clip?: Rings): Path {
  return { line: 'none', fill: 'plastic', closed: true, runs: rings, tint, ...(clip && { clip }) };
}

function contoursOnPaper(grid: Grid, levels: readonly number[], scale: Scale): Contour[] {
  return regions(grid, levels).map(({ level, rings }) => ({
    text: shownLevel(level),
    rings: rings
      .map((ring) =>
        simplifiedRing(
          ring.map((point) => onPaper(point, scale)),
          TOLERANCE,
        ),
      )
      .filter((ring) => Math.abs(ringArea(ring)) >= ISLAND),
  }));
}

/** The least rectangle around rings, as a ring. */
function boxRing(rings: Rings): Point[] {
  const { min, max } = extent(rings);
  return [min, [max[0], min[1]], max, [min[0], max[1]]];
}

/** Bands one over the other from thin to thick, each with its contour line, seen through the outline; and values. */
function mapPicture(bands: Bands, contours: readonly Contour[], outline: Rings, sizes: LayoutSizes): Picture {
  const layers = contours.map(({ rings }, index): Path => ({
    ...tintedArea(rings, bandColour(index + 1, bands), outline),
    line: 'contour',
  }));
  const thinnest = tintedArea([boxRing(outline)], bandColour(0, bands), outline);
  const { labels, notes } = contourMarks(contours, outline, sizes.small);
  const { min, max } = extent(outline);
  const half = (sizes.width - (max[0] - min[0])) / 2 - sizes.margin;
  const beside = {
    left: min[0] - half,
    right: max[0] + half,
    edge: max[1],
    side: 'below',
    size: sizes.small,
  } as const;
  return joined([
    { ...EMPTY, paths: [thinnest, ...layers.filter(({ runs }) => runs.length > 0)] },
    area('visible', 'none', outline),
    { ...EMPTY, labels },
    leaders(notes, beside).picture,
  ]);
}

/** The scale of colours as a bar of boxes, thin to thick, with the levels between them. */
function legend(bands: Bands, sizes: LayoutSizes): Picture {
  const left = sizes.margin + 6;
  const right = sizes.width - sizes.margin - 6;
  const box = (right - left) / (bands.levels.length + 1);
  const size = sizes.small;
  const height = 4;
  const boxes = Array.from({ length: bands.levels.length + 1 }, (_, index): Path => {
    const [x0, x1] = [left + index * box, left + (index + 1) * box];
    const ends: Point[] = [
      [x0, 0],
      [x1, height],
    ];
    return { ...tintedArea([boxRing([ends])], bandColour(index, bands)), line: 'visibleEdge' };
  });
  const below = height + size + 0.8;
  return joined([
    { ...EMPTY, paths: boxes },
    label({ text: 'Local thickness in mm', at: [left, -1.4], size, anchor: 'start', letter: 'caption' }),
    label({
      text: `most ${shownLength(bands.high)}`,
      at: [right, -1.4],
      size,
      anchor: 'end',
      letter: 'caption',
    }),
    ...bands.levels.map((level, index) =>
      label({ text: shownLevel(level), at: [left + (index + 1) * box, below], size }),
    ),
  ]);
}

function dimensionsOf({ high, levels }: Bands): DrawnDimension[] {
  const where = 'thickness map';
  return [
    dimension(high, {
      key: 'map-most',
      label: 'Greatest local thickness',
      where,
      figure: 'bait.thickestSection',
    }),
    ...levels.map((level, index) => ({
      ...dimension(level, { key: `map-contour-${index + 1}`, label: `Contour ${index + 1}`, where }),
      shown: shownLevel(level),
    })),
  ];
}

function wordsOf(name: string, { levels, high }: Bands, scale: Scale) {
  const lines = levels.length > 0 ? ` with contour lines at ${levels.map(shownLevel).join(', ')} mm` : '';
  return {
    title: `${name}: wall thickness, scale ${scale.text}`,
    desc: `Plan view of the bait as it lies in the mold, shaded from dark where it is thin to bright where it is thick, up to ${shownLength(high)} mm,${lines}. Thickness is the diameter of the largest ball inside the bait that reaches over the place.`,
  };
}

/**
 * Local thickness over the plan view: bands of a colour scale whose lightness alone tells their order, contour lines
 * at preferred numbers with their values on them, and a legend.
 *
 * @param input - outline and grid of thickness [m]
 * @param options - layout, id prefix, colours of a file of its own
 */
export function thicknessMap(input: ThicknessMapInput, options: DrawingOptions): Drawing {
  const sizes = LAYOUTS[options.layout];
  const { min, max } = extent(input.plan);
  const [length, width] = [(max[0] - min[0]) * 1000, (max[1] - min[1]) * 1000];
  const room = { width: sizes.width - 2 * sizes.margin - 4, height: sizes.views };
  const scale = fittingScale(length, width, room, { intermediate: options.layout === 'compact', most: 5 });
  const outline = outlineOnPaper(input.plan, scale);
  const bands = bandsOf(input);
  const contours = contoursOnPaper(input.grid, bands.levels, scale);
  const nose = sizes.width / 2 - ((min[0] + max[0]) / 2) * 1000 * scale.factor;
  const { projection, titleBlock } = input;
  return finished(
    {
      ...wordsOf(input.name, bands, scale),
      blocks: [
        { picture: moved(mapPicture(bands, contours, outline, sizes), nose, 0) },
        { picture: legend(bands, sizes) },
      ],
      scale: scale.text,
      dimensions: dimensionsOf(bands),
      projection,
      titleBlock,
    },
    options,
  );
}
