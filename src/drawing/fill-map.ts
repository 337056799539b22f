import type { Outline } from '../core/section/geometry.ts';
import type { FillPicture } from '../sheet/fill-grid.ts';
import { capital } from './bait-views.ts';
import { scaleColour } from './colour-scale.ts';
import { contourMarks, ringArea, type Contour } from './contour-marks.ts';
import { regions } from './contours.ts';
import { finished, type Drawing, type DrawingOptions } from './drawing.ts';
import { hatching } from './hatch.ts';
import { LAYOUTS, type LayoutSizes } from './layout.ts';
import { leaders, type Note } from './leader.ts';
import { simplifiedRing } from './path.ts';
import {
  area,
  circle,
  EMPTY,
  joined,
  label,
  lines,
  moved,
  textWidth,
  type Path,
  type Picture,
  type Point,
} from './picture.ts';
import { tickStep } from './plot.ts';
import { fittingScale, type Scale } from './scale.ts';
import type { Projection, TitleBlock } from './title-block.ts';
import { extent, onPaper, outlineOnPaper } from './view.ts';

/** What a fill map is made from. */
export interface FillMapInput {
  readonly name: string;
  /** Outline on the parting plane [m]. */
  readonly plan: Outline;
  readonly picture: FillPicture;
  /** What it was filled with: `cold mold, 22 °C / 72 °F`. */
  readonly condition: string;
  readonly projection: Projection;
  readonly titleBlock?: TitleBlock | undefined;
}

type Rings = readonly (readonly Point[])[];

const MOST_STEPS = 7;
/** Islands smaller than this say nothing at the size of the drawing [mm²]. */
const ISLAND = 1.5;
const TOLERANCE = 0.05;
const MOST_LAST = 5;

/** Times of the isochrones [s]. */
function timesOf({ end }: FillPicture): number[] {
  const step = tickStep(end, MOST_STEPS);
  const count = Math.ceil(end / step - 1e-9) - 1;
  return Array.from({ length: count }, (_, k) => Number(((k + 1) * step).toPrecision(6)));
}

const seconds = (time: number) => `${Number(time.toFixed(2))}`;

/** Bright where it fills first, dark where last. */
const bandColour = (band: number, bands: number) => scaleColour(bands < 2 ? 0.5 : 1 - band / (bands - 1));

function ringsOnPaper(rings: Rings, scale: Scale, least: number): Point[][] {
  return rings
    .map((ring) =>
      simplifiedRing(
        ring.map((point) => onPaper(point, scale)),
        TOLERANCE,
      ),
    )
    .filter((ring) => Math.abs(ringArea(ring)) >= least);
}

const boxRing = (rings: Rings): Point[] => {
  const { min, max } = extent(rings);
  return [min, [max[0], min[1]], max, [min[0], max[1]]];
};

const tinted = (runs: Rings, tint: string, clip?: Rings): Path => ({
  ...{ line: 'contour', fill: 'plastic', closed: true, runs, tint },
  ...(clip && { clip }),
});

/** Bands between isochrones, and their times. */
function isochrones(picture: FillPicture, times: readonly number[], outline: Rings, scale: Scale) {
  const values = picture.time.map((time) => (time > 0 ? time : 0));
  const bands = times.length + 1;
  const contours: Contour[] = regions({ ...picture, values }, times).map(({ level, rings }) => ({
    text: seconds(level),
    rings: ringsOnPaper(rings, scale, ISLAND),
  }));
  const layers = contours
    .map(({ rings }, k) => tinted(rings, bandColour(k + 1, bands), outline))
    .filter(({ runs }) => runs.length > 0);
  const first: Path = { ...tinted([boxRing(outline)], bandColour(0, bands), outline), line: 'none' };
  return { paths: [first, ...layers], contours };
}

/** The part that is left short: bare and hatched. */
function shortRegion(picture: FillPicture, outline: Rings, scale: Scale): Path[] {
  if (!picture.short.includes(1)) return [];
  const values = Float64Array.from(picture.short, (short, k) => (short ? 2 : picture.time[k]! > 0 ? 1 : 0));
  const [region] = regions({ ...picture, values }, [1.5]);
  const rings = ringsOnPaper(region?.rings ?? [], scale, 0.2);
  if (rings.length === 0) return [];
  return [
    { line: 'cuttingEnd', fill: 'sheet', closed: true, runs: rings, clip: outline },
    { line: 'hatch', fill: 'none', closed: false, runs: hatching(rings, 1.1, 'right'), clip: outline },
  ];
}

interface View {
  readonly picture: FillPicture;
  readonly outline: Rings;
  readonly scale: Scale;
  readonly sizes: LayoutSizes;
}

/** True where the cell at a place is left short. */
function isShort({ short, nx, x0, y0, cell }: FillPicture, x: number, y: number): boolean {
  return short[Math.round((x - x0) / cell) + nx * Math.round((y - y0) / cell)] === 1;
}

/** Places that fill last; where a part is left short, only those that do fill. */
function lastPlaces(picture: FillPicture) {
  return picture.last.filter(({ x, y }) => !isShort(picture, x, y)).slice(0, MOST_LAST);
}

function marks({ picture, scale }: View): { readonly picture: Picture; readonly notes: readonly Note[] } {
  const places = lastPlaces(picture).map(({ x, y }) => onPaper([x, y], scale));
  const welds = picture.welds.map(({ from, to }) => [onPaper(from, scale), onPaper(to, scale)]);
  const [first] = places;
  return {
    picture: joined([
      ...(welds.length > 0 ? [lines('cuttingEnd', ...welds)] : []),
      ...places.map((at) => circle('visible', 'sheet', at, 0.9)),
    ]),
    notes:
      first && !picture.short.includes(1) ? [{ at: first, text: `last, ${seconds(picture.end)} s` }] : [],
  };
}

function mapPicture(view: View, times: readonly number[]): Picture {
  const { picture, outline, scale, sizes } = view;
  const { paths, contours } = isochrones(picture, times, outline, scale);
  const filled = ([x, y]: Point) => !isShort(picture, x / (1e3 * scale.factor), -y / (1e3 * scale.factor));
  const written = contours.map((one) => ({ ...one, rings: one.rings.map((ring) => ring.filter(filled)) }));
  const { labels, notes } = contourMarks(written, outline, sizes.small);
  const own = marks(view);
  const { min, max } = extent(outline);
  const half = (sizes.width - (max[0] - min[0])) / 2 - sizes.margin;
  const beside = { left: min[0] - half, right: max[0] + half, size: sizes.small } as const;
  return joined([
    { ...EMPTY, paths: [...paths, ...shortRegion(picture, outline, scale)] },
    area('visible', 'none', outline),
    { ...EMPTY, labels },
    own.picture,
    leaders([...notes, ...own.notes], { ...beside, edge: max[1], side: 'below' }).picture,
  ]);
}

/** The colours as a bar, first to last, with the times between them [s]. */
function colourBar(times: readonly number[], sizes: LayoutSizes): Picture {
  const [left, right, height] = [sizes.margin + 6, sizes.width - sizes.margin - 6, 4];
  const bands = times.length + 1;
  const box = (right - left) / bands;
  const size = sizes.small;
  const boxes = Array.from({ length: bands }, (_, k): Path => {
    const [x0, x1] = [left + k * box, left + (k + 1) * box];
    return tinted([boxRing([[[x0, 0], [x1, height]]])], bandColour(k, bands)); // prettier-ignore
  });
  return joined([
    { ...EMPTY, paths: boxes },
    label({ text: 'Filled after, s', at: [left, -1.4], size, anchor: 'start', letter: 'caption' }),
    ...times.map((time, k) =>
      label({ text: seconds(time), at: [left + (k + 1) * box, height + size + 0.8], size }),
    ),
  ]);
}

/** Signs of the map with their words, side by side. */
function signs(picture: FillPicture, sizes: LayoutSizes): Picture {
  const { welds, short } = picture;
  const size = sizes.small;
  const box: Point[] = [
    [0, -2.4],
    [4, -2.4],
    [4, 0],
    [0, 0],
  ];
  const all: { readonly sign: Picture; readonly word: string }[] = [
    ...(lastPlaces(picture).length > 0
      ? [{ sign: circle('visible', 'sheet', [2, -1.1], 0.9), word: 'fills last' }]
      : []),
    ...(welds.length > 0
      ? [{ sign: lines('cuttingEnd', [[0, -1.1], [4, -1.1]]), word: 'fronts meet' }] // prettier-ignore
      : []),
    ...(short.includes(1)
      ? [
          {
            sign: joined([
              lines('hatch', ...hatching([box], 1.1, 'right')),
              area('cuttingEnd', 'none', [box]),
            ]),
            word: 'left short',
          },
        ]
      : []),
  ];
  let x = sizes.margin + 6;
  return joined(
    all.map(({ sign, word }) => {
      const at = x;
      x += 5.5 + textWidth(word, size) + 5;
      return joined([moved(sign, at, 0), label({ text: word, at: [at + 5.5, 0], size, anchor: 'start' })]);
    }),
  );
}

function wordsOf({ name, condition, picture }: FillMapInput, scale: Scale) {
  const full = !picture.short.includes(1);
  const share = Math.floor(100 * picture.share);
  const ends = full
    ? `It is full after ${seconds(picture.end)} seconds.`
    : `It stops after ${seconds(picture.end)} seconds with ${share}% of the cavity filled; what is left short is hatched.`;
  const welds = picture.welds.length > 0 ? ' Heavy lines mark where fronts meet.' : '';
  return {
    title: `${name}: how it fills, ${condition}, scale ${scale.text}`,
    desc: `Plan view of the bait as it lies in the mold, shaded from bright where it fills first to dark where it fills last, with lines of equal time in seconds. ${ends} Circles mark the places that fill last.${welds}`,
  };
}

/**
 * How a cavity fills, over the plan view: lines of equal time, the places that fill last, where fronts meet, and what is
 * left short; a colour scale whose lightness alone tells the order, and a legend.
 *
 * @param input - outline [m] and a filling run [m, s]
 * @param options - layout, id prefix, colours of a file of its own
 */
export function fillMapDrawing(input: FillMapInput, options: DrawingOptions): Drawing {
  const sizes = LAYOUTS[options.layout];
  const { min, max } = extent(input.plan);
  const room = { width: sizes.width - 2 * sizes.margin - 4, height: sizes.views };
  const scale = fittingScale((max[0] - min[0]) * 1e3, (max[1] - min[1]) * 1e3, room, {
    intermediate: options.layout === 'compact',
    most: 5,
  });
  const outline = outlineOnPaper(input.plan, scale);
  const times = timesOf(input.picture);
  const middle = sizes.width / 2 - ((min[0] + max[0]) / 2) * 1e3 * scale.factor;
  const view: View = { picture: input.picture, outline, scale, sizes };
  const { projection, titleBlock } = input;
  const { welds, short } = input.picture;
  const signed = lastPlaces(input.picture).length + welds.length > 0 || short.includes(1);
  return finished(
    {
      ...wordsOf(input, scale),
      blocks: [
        { caption: capital(input.condition), picture: moved(mapPicture(view, times), middle, 0) },
        { picture: colourBar(times, sizes) },
        ...(signed ? [{ picture: signs(input.picture, sizes) }] : []),
      ],
      scale: scale.text,
      dimensions: [],
      projection,
      titleBlock,
    },
    options,
  );
}
