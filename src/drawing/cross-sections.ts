import { cutLetter, dimension, type Cut, type DrawnDimension } from './bait-facts.ts';
import { horizontal, upright } from './dimension.ts';
import { hatching, hatchSpacing } from './hatch.ts';
import type { LayoutSizes } from './layout.ts';
import { area, bounds, joined, label, lines, moved, type Picture, type Point } from './picture.ts';
import type { Scale } from './scale.ts';
import { extent, extremes, outlineOnPaper } from './view.ts';

/** Cross-sections drawn side by side, and their dimensions. */
export interface DrawnSections {
  readonly picture: Picture;
  readonly dimensions: readonly DrawnDimension[];
}

/**
 * An outline in the cutting plane as it is seen looking from the nose to the tail, the back of the bait up.
 * The mold's frame has y across and z out of the parting plane.
 */
export function asSeen({ outline }: Cut, lies: 'on its belly' | 'on its side') {
  const turn = ([y, z]: readonly [number, number]) =>
    lies === 'on its belly' ? ([-y, z] as const) : ([z, y] as const);
  return outline.map((ring) => ring.map(turn));
}

/** Middle lines through the bait's axis, where the section lies about it. */
function centreCross(rings: readonly (readonly Point[])[]): Picture {
  const { min, max } = extent(rings);
  const level: Point[] = [
    [min[0] - 2, 0],
    [max[0] + 2, 0],
  ];
  const plumb: Point[] = [
    [0, min[1] - 2],
    [0, max[1] + 2],
  ];
  return joined([
    min[1] <= 0 && max[1] >= 0 ? lines('centre', level) : joined([]),
    min[0] <= 0 && max[0] >= 0 ? lines('centre', plumb) : joined([]),
  ]);
}

/** A section about its own middle, for a row. */
const centred = (picture: Picture, { min, max }: ReturnType<typeof extent>) =>
  moved(picture, -(min[0] + max[0]) / 2, -(min[1] + max[1]) / 2);

function sectionPicture(
  cut: Cut,
  index: number,
  lies: 'on its belly' | 'on its side',
  scale: Scale,
  text: number,
): DrawnSections {
  const seen = asSeen(cut, lies);
  const rings = outlineOnPaper(seen, scale);
  const { min, max } = extent(rings);
  const real = extent(seen);
  const letter = cutLetter(index);
  const where = `section ${letter}–${letter}`;
  const width = dimension(real.max[0] - real.min[0], {
    key: `${letter}-width`,
    label: `Width in ${where}`,
    where,
  });
  const height = dimension(real.max[1] - real.min[1], {
    key: `${letter}-height`,
    label: `Height in ${where}`,
    where,
  });
  const spacing = hatchSpacing(Math.min(max[0] - min[0], max[1] - min[1]));
  const [sides, ends] = [extremes(rings, 0), extremes(rings, 1)];
  const picture = joined([
    area('visible', 'plastic', rings),
    lines('hatch', ...hatching(rings, spacing, 'right')),
    centreCross(rings),
    horizontal({ from: sides.low, to: sides.high, line: max[1] + 4 + text, text: width.shown, size: text }),
    upright({ from: ends.low, to: ends.high, line: max[0] + 3 + text, text: height.shown, size: text }),
    label({
      text: `${letter}–${letter} (${scale.text})`,
      at: [(min[0] + max[0]) / 2, min[1] - 4],
      size: text,
      letter: 'strong',
    }),
  ]);
  return { picture: centred(picture, { min, max }), dimensions: [width, height] };
}

/** Pictures side by side on their axes, as many in a row as the width takes, each row centred. */
function inRows(pictures: readonly Picture[], width: number): Picture {
  const gap = 8;
  const rows: Picture[][] = [];
  let used = Infinity;
  for (const picture of pictures) {
    const { left, right } = bounds(picture);
    if (used + gap + right - left > width) {
      rows.push([]);
      used = -gap;
    }
    rows.at(-1)?.push(picture);
    used += gap + right - left;
  }
  let y = 0;
  return joined(
    rows.map((row) => {
      const boxes = row.map(bounds);
      const total = boxes.reduce((sum, { left, right }) => sum + right - left, gap * (row.length - 1));
      const top = Math.min(...boxes.map((box) => box.top));
      const bottom = Math.max(...boxes.map((box) => box.bottom));
      let x = (width - total) / 2;
      const placed = row.map((picture, index) => {
        const { left = 0, right = 0 } = boxes[index] ?? {};
        const at = moved(picture, x - left, y - top);
        x += right - left + gap;
        return at;
      });
      y += bottom - top + gap;
      return joined(placed);
    }),
  );
}

/**
 * Stepped cross-sections with hatching, width and height, all at one scale.
 *
 * @param cuts - from nose to tail, outlines [m]
 * @param facts - how the bait lies, scale, sizes of the layout
 */
export function crossSections(
  cuts: readonly Cut[],
  facts: {
    readonly lies: 'on its belly' | 'on its side';
    readonly scale: Scale;
    readonly sizes: LayoutSizes;
  },
): DrawnSections {
  const drawn = cuts.map((cut, index) =>
    sectionPicture(cut, index, facts.lies, facts.scale, facts.sizes.text),
  );
  const width = facts.sizes.width - 2 * facts.sizes.margin;
  return {
    picture: moved(
      inRows(
        drawn.map(({ picture }) => picture),
        width,
      ),
      facts.sizes.margin,
      0,
    ),
    dimensions: drawn.flatMap(({ dimensions }) => dimensions),
  };
}
