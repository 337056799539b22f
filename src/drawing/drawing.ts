import type { DrawnDimension } from './bait-facts.ts';
import { LAYOUTS, type Layout } from './layout.ts';
import type { Picture } from './picture.ts';
import { framed, stacked, type Block } from './stack.ts';
import { svgText, type SvgOptions } from './svg.ts';
import type { Projection, TitleBlock } from './title-block.ts';

/** How a drawing is laid out and put into SVG. */
export interface DrawingOptions extends SvgOptions {
  readonly layout: Layout;
}

/** A drawing: SVG text, its words, and every dimension that stands in it. */
export interface Drawing {
  /** Written when it is asked for. */
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
  /** The same views in a frame with a title block. */
  readonly titled: (block: TitleBlock) => Drawing;
}

/** What a drawing is finished from. */
export interface Unfinished {
  readonly title: string;
  readonly desc: string;
  readonly blocks: readonly Block[];
  readonly scale: string;
  readonly dimensions: readonly DrawnDimension[];
  readonly projection: Projection;
  readonly titleBlock?: TitleBlock | undefined;
}

/** Views stacked on the paper, with the title block if there is one, and the SVG of it all. */
export function finished(raw: Unfinished, options: DrawingOptions): Drawing {
  return onSheet(stacked(raw.blocks, LAYOUTS[options.layout]), raw, options);
}

function onSheet(
  views: ReturnType<typeof stacked>,
  { title, desc, scale, dimensions, projection, titleBlock: block }: Omit<Unfinished, 'blocks'>,
  options: DrawingOptions,
): Drawing {
  const { layout } = options;
  const sizes = LAYOUTS[layout];
  const { width } = sizes;
  const { picture, height } = framed(views, { sizes, layout, scale, projection, block });
  let svg: string | undefined;
  return {
    get svg() {
      return (svg ??= svgText({ title, desc, width, height, picture }, options));
    },
    ...{ title, desc, width, height, scale, dimensions, picture },
    titled: (titleBlock) =>
      onSheet(views, { title, desc, scale, dimensions, projection, titleBlock }, options),
  };
}
