import type { Point } from './picture.ts';

/** Which way hatching leans: neighbouring parts lean opposite ways. */
export type Lean = 'right' | 'left';

/**
 * Distance between hatching lines for a part of a size: in proportion, never under 0.7 mm.
 * Source: ISO 128-3:2022 (hatching), lower bound from memory; the proportion is ours.
 */
export function hatchSpacing(size: number): number {
  return Math.min(4, Math.max(0.9, size / 9));
}

/**
 * Hatching at 45° of an area, as separate strokes; holes stay open.
 *
 * @param rings - outlines of the area on the paper [mm], holes told by crossing twice
 * @param spacing - distance between lines [mm]
 * @param lean - direction of the strokes as seen
 * @returns strokes of two points each [mm], all inside the area
 * Cost: lines × edges.
 * Source: ISO 128-3:2022, 45° to the main outline.
 */
export function hatching(rings: readonly (readonly Point[])[], spacing: number, lean: Lean): Point[][] {
  // u runs along the strokes, v across them; the paper's y points down.
  const sign = lean === 'right' ? 1 : -1;
  const across = ([x, y]: Point) => (x + sign * y) * Math.SQRT1_2;
  const along = ([x, y]: Point) => (x - sign * y) * Math.SQRT1_2;
  const back = (u: number, v: number): Point => [(u + v) * Math.SQRT1_2, sign * (v - u) * Math.SQRT1_2];
  const spread = rings.flatMap((ring) => ring.map(across));
  const low = Math.min(...spread);
  const high = Math.max(...spread);
  const strokes: Point[][] = [];
  // Lines lie on a grid of the whole paper, so that all sections of one part match.
  for (let v = (Math.floor(low / spacing) + 0.5) * spacing; v < high; v += spacing) {
    const cuts = rings.flatMap((ring) => crossings(ring, v, across, along)).sort((a, b) => a - b);
    for (let index = 0; index + 1 < cuts.length; index += 2) {
      const [from = 0, to = 0] = [cuts[index], cuts[index + 1]];
      if (to - from > 0.1) strokes.push([back(from, v), back(to, v)]);
    }
  }
  return strokes;
}

type Coordinate = (point: Point) => number;

function crossings(ring: readonly Point[], v: number, across: Coordinate, along: Coordinate): number[] {
  const found: number[] = [];
  ring.forEach((point, index) => {
    const next = ring[(index + 1) % ring.length] ?? point;
    const [a, b] = [across(point), across(next)];
    if (a > v !== b > v) found.push(along(point) + ((along(next) - along(point)) * (v - a)) / (b - a));
  });
  return found;
}
