import { area } from '../../drawing/picture.ts';
import { svgText } from '../../drawing/svg.ts';
import { extent, outlineOnPaper } from '../../drawing/view.ts';
import { printed } from '../../core/quantity/print.ts';
import type { Brief } from '../../sheet/brief.ts';
import { figureOf } from '../figure/homes.ts';

const MARGIN = 1;

/** Largest length of the baits of a catalogue [mm]: what all outlines are scaled by. */
export function longestBait(sheets: readonly Brief[]): number {
  return Math.max(1, ...sheets.map(({ geometry: { box } }) => (box.max[0] - box.min[0]) * 1000));
}

/**
 * Outline of a sheet's bait as it lies in the mold, on paper as wide as the longest bait of the catalogue, so that
 * all outlines of a page show true relative sizes.
 *
 * @param sheet - the bait
 * @param longest - largest length of a bait [mm]
 * @returns SVG text, one user unit a millimetre
 */
export function baitOutline(sheet: Brief, longest: number): string {
  const still = { factor: 1, flip: false };
  const rings = outlineOnPaper(sheet.geometry.plan, still);
  const { min, max } = extent(rings);
  const moved = rings.map((ring) =>
    ring.map(([x, y]) => [x - min[0] + MARGIN, y - min[1] + MARGIN] as const),
  );
  const length = printed(figureOf(sheet, 'bait.length'), sheet.shop.units).text;
  return svgText(
    {
      title: `Outline of ${sheet.bait.name}`,
      desc: `${sheet.bait.family}, ${length} long, as it lies in the mold`,
      width: longest + 2 * MARGIN,
      height: max[1] - min[1] + 2 * MARGIN,
      picture: area('visible', 'plastic', moved),
    },
    { prefix: `outline-${sheet.id}` },
  );
}
