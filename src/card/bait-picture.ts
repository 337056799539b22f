import type { Outline } from '../core/section/geometry.ts';
import { pathData } from '../drawing/path.ts';
import { extent, outlineOnPaper } from '../drawing/view.ts';
import { LIGHT } from '../styles/tokens.ts';
import type { CardFacts } from './facts.ts';

/** A picture of the bait over a ruler, and where the ruler's numbers stand [px]. */
export interface BaitPicture {
  readonly svg: string;
  readonly marks: readonly { readonly text: string; readonly x: number; readonly y: number }[];
}

const RULER = 62;
const GAP = 26;
/** Half a stroke above, and room for the middle line beyond both ends. */
const EDGE = { above: 4, beside: 26 };

/** One division of the ruler [m], how many of them carry a number and a longer tick. */
const RULERS = {
  us: { step: 0.0254 / 8, long: 8, half: 4, unit: 'in' },
  metric: { step: 0.002, long: 5, half: 0, unit: 'mm' },
} as const;

interface Room {
  readonly width: number;
  readonly height: number;
}

function size(outline: Outline): { width: number; height: number; left: number; top: number } {
  const { min, max } = extent(outline);
  return { width: max[0] - min[0], height: max[1] - min[1], left: min[0], top: max[1] };
}

/** Pixels for a metre, and whether both views fit without making the bait much smaller. */
function fit(facts: CardFacts, room: Room): { factor: number; both: boolean } {
  const [plan, across] = [size(facts.plan), size(facts.across)];
  const wide = (room.width - 2 * EDGE.beside) / plan.width;
  const height = room.height - RULER - 2 * EDGE.above;
  const one = Math.min(wide, height / plan.height);
  const two = Math.min(wide, (height - GAP) / (plan.height + across.height));
  const both = two >= 0.8 * one;
  return { factor: both ? two : one, both };
}

function shape(outline: Outline, factor: number, at: { left: number; top: number }): string {
  const box = size(outline);
  const rings = outlineOnPaper(outline, { factor: factor / 1000 }).map((ring) =>
    ring.map(([x, y]) => [x + at.left - box.left * factor, y + at.top + box.top * factor] as const),
  );
  const axis = at.top + box.top * factor;
  return [
    `<path d="${pathData(rings, true)}" fill="${LIGHT.plastic}" stroke="${LIGHT.ink}" stroke-width="4" stroke-linejoin="round"/>`,
    `<path d="M${at.left - 18} ${axis.toFixed(1)}h${(box.width * factor + 36).toFixed(1)}" stroke="${LIGHT.muted}" stroke-width="1.5" stroke-dasharray="30 5 2 5"/>`,
  ].join('');
}

function ruler(facts: CardFacts, factor: number, at: { left: number; top: number }, right: number) {
  const { step, long, half, unit } = RULERS[facts.units];
  const count = Math.min(
    Math.ceil(size(facts.plan).width / step),
    Math.floor((right - at.left) / (step * factor)),
  );
  const ticks = Array.from({ length: count + 1 }, (_, index) => {
    const height = index % long === 0 ? 22 : half && index % half === 0 ? 16 : 9;
    return `M${(at.left + index * step * factor).toFixed(1)} ${at.top}v${height}`;
  });
  const every = facts.units === 'us' ? 1 : 2;
  const marks = Array.from({ length: Math.floor(count / (long * every)) + 1 }, (_, index) => {
    const number = facts.units === 'us' ? index : index * 20;
    return {
      text: index === 0 ? `0 ${unit}` : `${number}`,
      x: at.left + index * long * every * step * factor,
      y: at.top + 24,
    };
  });
  const base = `M${at.left} ${at.top}h${(count * step * factor).toFixed(1)}`;
  return {
    svg: `<path d="${base}${ticks.join('')}" fill="none" stroke="${LIGHT.accent}" stroke-width="2"/>`,
    marks,
  };
}

/**
 * The bait's own outline, as large as the room takes, over a ruler that starts at its nose.
 *
 * @param facts - outlines [m] and the units of the ruler
 * @param room - size of the picture [px]
 */
export function baitPicture(facts: CardFacts, room: Room): BaitPicture {
  const { factor, both } = fit(facts, room);
  const [plan, across] = [size(facts.plan), size(facts.across)];
  const used = plan.height * factor + (both ? GAP + across.height * factor : 0);
  const left = Math.round((room.width - plan.width * factor) / 2);
  const top = (room.height - RULER - used) / 2;
  const second = top + plan.height * factor + GAP;
  const scale = ruler(facts, factor, { left, top: room.height - 48 }, room.width);
  const views =
    shape(facts.plan, factor, { left, top }) +
    (both ? shape(facts.across, factor, { left, top: second }) : '');
  return {
    svg: views + scale.svg,
    marks: scale.marks,
  };
}
