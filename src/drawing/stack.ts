import { interrupted } from './interrupt.ts';
import type { LayoutSizes, Layout } from './layout.ts';
import { area, bounds, joined, label, moved, type Picture } from './picture.ts';
import { titleBlock, titleBlockHeight, type Projection, type TitleBlock } from './title-block.ts';

/** One view on the paper: placed from left to right already, not yet from top to bottom. */
export interface Block {
  readonly caption?: string;
  readonly picture: Picture;
}

const SPACE = 4;

/** Blocks one under the other, each below its caption; `bottom` is where the paper is free again [mm]. */
export function stacked(blocks: readonly Block[], sizes: LayoutSizes): { picture: Picture; bottom: number } {
  const parts: Picture[] = [];
  let y = sizes.margin;
  for (const { caption, picture } of blocks) {
    if (caption) {
      y += sizes.small;
      parts.push(
        label({
          text: caption,
          at: [sizes.margin + 1, y],
          size: sizes.small,
          anchor: 'start',
          letter: 'caption',
        }),
      );
      y += 1.5;
    }
    const { top, bottom } = bounds(picture);
    parts.push(moved(picture, 0, y - top));
    y += bottom - top + SPACE;
  }
  return { picture: interrupted(joined(parts)), bottom: y };
}

/** Views with frame and title block, or with a bare margin; and the height of the paper [mm]. */
export function framed(
  views: { readonly picture: Picture; readonly bottom: number },
  facts: {
    readonly sizes: LayoutSizes;
    readonly layout: Layout;
    readonly scale: string;
    readonly projection: Projection;
    readonly block?: TitleBlock;
  },
): { picture: Picture; height: number } {
  const { sizes, block } = facts;
  if (!block) return { picture: views.picture, height: views.bottom - SPACE + sizes.margin };
  const edge = 1;
  const width = sizes.width - 2 * edge;
  const height = views.bottom + titleBlockHeight(facts.layout) + edge;
  const frame = area('frame', 'none', [
    [
      [edge, edge],
      [edge + width, edge],
      [edge + width, height - edge],
      [edge, height - edge],
    ],
  ]);
  const title = moved(titleBlock(block, { ...facts, width }), edge, views.bottom);
  return { picture: joined([views.picture, title, frame]), height };
}
