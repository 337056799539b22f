import type { WarmUp } from '../sheet/warm-up.ts';
import { finished, type Drawing, type DrawingOptions } from './drawing.ts';
import { LAYOUTS } from './layout.ts';
import {
  EMPTY,
  joined,
  labelRect,
  lines,
  moved,
  overlap,
  textWidth,
  type Label,
  type Picture,
  type Point,
} from './picture.ts';
import {
  celsiusScale,
  fahrenheitScale,
  plainScale,
  plotFrame,
  plotPoint,
  type PlotFrame,
} from './plot-frame.ts';
import type { Projection, TitleBlock } from './title-block.ts';

/** What the block's warming is drawn from; temperatures [K]. */
export interface BlockPlotInput {
  readonly name: string;
  readonly warmUp: WarmUp;
  /** Levels worth a line: what bare hands stand, what thin parts need. */
  readonly marks: readonly { readonly at: number; readonly word: string }[];
  readonly projection: Projection;
  readonly titleBlock?: TitleBlock | undefined;
}

/** Room kept above the warmest [K]. */
const ABOVE = 6;

function curves(frame: PlotFrame, { before }: WarmUp): Picture {
  const along = (pick: 'value' | 'low' | 'high') =>
    before.map((band, shots) => plotPoint(frame, [shots, band[pick]]));
  return joined([lines('hidden', along('low'), along('high')), lines('visible', along('value'))]);
}

/** Levels as lines across, each word at its right end; a word that would cover another goes below its line. */
function levels(frame: PlotFrame, marks: BlockPlotInput['marks']): Picture {
  const { width, size } = frame;
  const inside = marks.filter(({ at }) => at > frame.y[0] && at < frame.y[1]);
  const height = (at: number) => plotPoint(frame, [0, at])[1];
  const placed: Label[] = [];
  for (const { at, word } of inside) {
    const on = (y: number): Label => ({
      text: word,
      at: [width - 1, y],
      size,
      anchor: 'end',
      letter: 'halo',
    });
    const above = on(height(at) - 0.7);
    const covered = placed.some((other) => overlap(labelRect(other), labelRect(above)));
    placed.push(covered ? on(height(at) + size + 0.3) : above);
  }
  return joined([
    lines(
      'cutting',
      ...inside.map(({ at }): Point[] => [
        [0, height(at)],
        [width, height(at)],
      ]),
    ),
    { ...EMPTY, labels: placed },
  ]);
}

/**
 * Temperature of the block before each shot of a run at an even pace, with its bounds.
 *
 * @param input - temperatures [K] shot by shot, and levels [K]
 * @param options - layout, id prefix, colours of a file of its own
 */
export function blockPlot(input: BlockPlotInput, options: DrawingOptions): Drawing {
  const sizes = LAYOUTS[options.layout];
  const size = sizes.small;
  const { name, warmUp, marks, projection, titleBlock } = input;
  const { before, pace } = warmUp;
  const left = sizes.margin + textWidth('°C00', size) + 2;
  const wanted = marks.map(({ at }) => at);
  const frame: PlotFrame = {
    x: [0, before.length - 1],
    y: [Math.min(...before.map(({ low }) => low)) - 2, Math.max(before.at(-1)!.high, ...wanted) + ABOVE],
    width: sizes.width - left - sizes.margin - textWidth('°F00', size) - 2,
    height: sizes.views * 0.5,
    ...{ size, bottom: plainScale('shots'), left: celsiusScale, right: fahrenheitScale },
  };
  const shown = (kelvin: number) => celsiusScale.shown(kelvin).toFixed(0);
  const last = before.at(-1)!;
  return finished(
    {
      title: `${name}: block temperature, shot by shot`,
      desc: `Temperature of the block before each shot at an even pace of ${pace.value.toFixed(0)} seconds, from ${shown(before[0]!.value)} °C to ${shown(last.value)} °C after ${before.length - 1} shots; dashed lines bound it, ${shown(last.low)} to ${shown(last.high)} °C.`,
      blocks: [
        {
          caption: `Block before each shot, one every ${pace.value.toFixed(0)} s (${pace.low.toFixed(0)} to ${pace.high.toFixed(0)})`,
          picture: moved(joined([curves(frame, warmUp), levels(frame, marks), plotFrame(frame)]), left, 0),
        },
      ],
      scale: 'none',
      dimensions: [],
      projection,
      titleBlock,
    },
    options,
  );
}
