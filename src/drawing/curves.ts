import type { BaitGeometry, FeatureMeasure } from '../core/section/geometry.ts';
import { dimension, distinctFeatures, featureWord, type DrawnDimension } from './bait-facts.ts';
import { capital } from './bait-views.ts';
import { finished, type Drawing, type DrawingOptions } from './drawing.ts';
import { LAYOUTS, type LayoutSizes } from './layout.ts';
import type { Line } from './lines.ts';
import { moved, textWidth } from './picture.ts';
import { plot, type Series } from './plot.ts';
import type { Block } from './stack.ts';
import type { Projection, TitleBlock } from './title-block.ts';

/** What the curves of a bait are made from. */
export interface CurvesInput {
  readonly name: string;
  readonly geometry: Pick<BaitGeometry, 'areaCurve' | 'box' | 'features'>;
  readonly projection: Projection;
  readonly titleBlock?: TitleBlock | undefined;
}

/** Curves told apart by their lines alone. */
const STROKES: readonly Line[] = ['visible', 'hidden', 'visibleEdge'];
const where = 'curves';

/** Section areas from the nose [mm, mm²], zero at both ends. */
function areaSeries({ areaCurve, box: { min, max } }: CurvesInput['geometry']): Series {
  const inner = areaCurve.map(({ x, area }) => [(x - min[0]) * 1e3, area * 1e6] as const);
  return { line: 'visible', filled: true, points: [[0, 0], ...inner, [(max[0] - min[0]) * 1e3, 0]] };
}

/** What a thin part is called: by its kind, or by its own name where it has another. */
const partWord = (feature: FeatureMeasure) =>
  feature.name === feature.kind ? featureWord(feature) : feature.name.replaceAll('-', ' ');

function thicknessSeries(feature: FeatureMeasure, index: number): Series {
  return {
    name: partWord(feature),
    line: STROKES[index] ?? 'visibleEdge',
    points: feature.stations.map(({ s, thickness }) => [s * 1e3, thickness * 1e3] as const),
  };
}

/** Thickness of a feature at its root, half-way and at its tip. */
function featureRows(feature: FeatureMeasure): DrawnDimension[] {
  const half = feature.stations.find(({ s }) => s >= feature.length / 2);
  const word = capital(partWord(feature));
  const rows = [
    ['root', 'at the root', feature.rootThickness],
    ['half', 'half-way', half?.thickness ?? feature.tipThickness],
    ['tip', 'at the tip', feature.tipThickness],
  ] as const;
  return [
    dimension(feature.length, { key: `${feature.name}-length`, label: `${word}: length`, where }),
    ...rows.map(([end, words, metres]) =>
      dimension(metres, { key: `${feature.name}-${end}`, label: `${word}: thickness ${words}`, where }),
    ),
  ];
}

/** A plot in the middle of the paper. */
function block(
  series: readonly Series[],
  sizes: LayoutSizes,
  words: { caption: string; along: string },
): Block {
  const size = sizes.small;
  const left = sizes.margin + textWidth('0000', size) + 2;
  const names = Math.max(0, ...series.map(({ name }) => (name ? textWidth(name, size) + 2 : 0)));
  const width = sizes.width - left - sizes.margin - Math.max(names, textWidth('00', size));
  const height = sizes.views * 0.36;
  const { caption, along } = words;
  return { caption, picture: moved(plot({ series, along, width, height, size }), left, 0) };
}

/**
 * Two plots of a bait: the area of its cross-sections from nose to tail, and how thick each sort of thin part is from
 * root to tip.
 *
 * @param input - measured geometry [m]
 * @param options - layout, id prefix, colours of a file of its own
 */
export function curvesDrawing(input: CurvesInput, options: DrawingOptions): Drawing {
  const sizes = LAYOUTS[options.layout];
  const { name, geometry, projection, titleBlock } = input;
  const features = distinctFeatures(geometry.features).slice(0, STROKES.length);
  const areas = areaSeries(geometry);
  const most = Math.max(...areas.points.map(([, y]) => y));
  const dimensions = features.flatMap(featureRows);
  const said = dimensions.map(({ label, shown }) => `${label} ${shown} mm.`).join(' ');
  return finished(
    {
      title: `${name}: section areas${features.length > 0 ? ' and thickness of thin parts' : ''}`,
      desc: `Area of the cross-section from nose to tail, ${most.toFixed(0)} mm² at most${features.length > 0 ? '; below it the thickness of each sort of thin part from its root to its tip' : ''}. ${said}`,
      blocks: [
        block([areas], sizes, {
          caption: 'Area of the cross-section, mm²',
          along: 'mm from the nose',
        }),
        ...(features.length > 0
          ? [
              block(features.map(thicknessSeries), sizes, {
                caption: 'Thickness from root to tip, mm',
                along: 'mm from the root',
              }),
            ]
          : []),
      ],
      scale: 'none',
      dimensions,
      projection,
      titleBlock,
    },
    options,
  );
}
