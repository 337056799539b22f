import type { Outline } from '../core/section/geometry.ts';
import { LAYOUTS, type Layout, type LayoutSizes } from './layout.ts';
import { area, joined, lines, moved, type Picture, type Point } from './picture.ts';
import { fittingScale, type Scale } from './scale.ts';
import { stacked } from './stack.ts';
import { svgText, type SvgOptions } from './svg.ts';
import { extent, onPaper, outlineOnPaper } from './view.ts';

/** Two outlines, one laid over the other [m]. */
export interface OverlayView {
  readonly caption: string;
  readonly from: Outline;
  readonly to: Outline;
  /** Stretches of the later outline that lie elsewhere. */
  readonly moved: readonly (readonly (readonly [number, number])[])[];
}

/** What an overlay is made from. */
export interface OverlayInput {
  readonly name: string;
  /** Marks of the earlier and the later revision. */
  readonly from: string;
  readonly to: string;
  readonly views: readonly OverlayView[];
}

/** An overlay: SVG text with its words and scale. */
export interface OverlayDrawing {
  readonly svg: string;
  readonly title: string;
  readonly desc: string;
  readonly scale: string;
}

function scaleFor(views: readonly OverlayView[], sizes: LayoutSizes): Scale {
  const boxes = views.map(({ from, to }) => extent([...from, ...to]));
  const width = Math.max(...boxes.map(({ min, max }) => (max[0] - min[0]) * 1000));
  const height = boxes.reduce((sum, { min, max }) => sum + (max[1] - min[1]) * 1000, 0);
  const room = { width: sizes.width - 2 * sizes.margin, height: sizes.views };
  return fittingScale(width, height, room, { intermediate: true, most: 5 });
}

function viewPicture({ from, to, moved: runs }: OverlayView, scale: Scale, sizes: LayoutSizes): Picture {
  const later = outlineOnPaper(to, scale);
  const earlier = outlineOnPaper(from, scale);
  const changed = runs.map((run) => run.map((point): Point => onPaper(point, scale)));
  const { min } = extent([...later, ...earlier]);
  const picture = joined([
    area('visibleEdge', 'plastic', later),
    area('hidden', 'none', earlier),
    lines('changed', ...changed),
  ]);
  return moved(picture, sizes.margin - min[0], 0);
}

function words(input: OverlayInput, scale: string): { title: string; desc: string } {
  const places = input.views.map(({ caption, moved: runs }) =>
    runs.length === 0
      ? `${caption}: nothing has moved.`
      : `${caption}: the outline has moved in ${runs.length} ${runs.length === 1 ? 'stretch' : 'stretches'}.`,
  );
  const [from, to] = [input.from.toUpperCase(), input.to.toUpperCase()];
  return {
    title: `${input.name}: revision ${to} over revision ${from}, scale ${scale}`,
    desc: `Revision ${to} drawn solid, revision ${from} dashed over it; what has moved is drawn wide. ${places.join(' ')}`,
  };
}

/**
 * Two revisions laid over each other: the later one solid, the earlier one dashed, and what has moved drawn wide.
 *
 * @param input - outlines of both revisions in each view [m], and what has moved
 * @param options - layout, id prefix, colours of a file of its own
 * @returns SVG, title and description in words, and the scale
 */
export function overlayDrawing(
  input: OverlayInput,
  options: SvgOptions & { readonly layout: Layout },
): OverlayDrawing {
  const sizes = LAYOUTS[options.layout];
  const scale = scaleFor(input.views, sizes);
  const blocks = input.views.map((view) => ({
    caption: view.moved.length === 0 ? `${view.caption}: nothing has moved` : view.caption,
    picture: viewPicture(view, scale, sizes),
  }));
  const { picture, bottom } = stacked(blocks, sizes);
  const said = words(input, scale.text);
  const plate = { ...said, width: sizes.width, height: bottom, picture };
  return { ...said, scale: scale.text, svg: svgText(plate, options) };
}
