import { arrowhead } from './dimension.ts';
import { joined, label, lines, type Picture } from './picture.ts';

const BEYOND = 1.2;
const WIDE = 3;
const SHAFT = 6;

const LEVEL = 5;
/** Planes nearer than this to the one before reach a level farther out, so that letters stay clear [mm]. */
const CLEAR = 10.5;

/** One cutting plane seen edge on: where it crosses the view [mm], and its letter. */
export interface Plane {
  readonly x: number;
  readonly letter: string;
}

function levels(planes: readonly Plane[]): number[] {
  const found: number[] = [];
  planes.forEach(({ x }, index) => {
    const before = planes[index - 1];
    found.push(before && x - before.x < CLEAR ? (found[index - 1] ?? 0) + 1 : 0);
  });
  return found;
}

/** How far the planes reach beyond the view on either side [mm]. */
export const planesReach = (planes: readonly Plane[]) =>
  planes.length === 0 ? 0 : BEYOND + WIDE + LEVEL * Math.max(...levels(planes));

/** How far arrow and letter of the first plane, `x` behind the left end of the view, reach out before it [mm]. */
export const planesBefore = (x: number) => Math.max(0, SHAFT + 0.6 + 3 - x);

/**
 * Upright cutting planes from left to right: long-dash-dot with wide ends, arrows that look to the right, letters.
 *
 * @param planes - in order
 * @param view - top and bottom of the view that they cross [mm], lettering height [mm]
 * Source: ISO 128-3:2022 (cutting plane, identification), from memory.
 */
export function cuttingPlanes(
  planes: readonly Plane[],
  view: { readonly top: number; readonly bottom: number; readonly size: number },
): Picture {
  const out = levels(planes);
  return joined(planes.map((plane, index) => cuttingPlane(plane, view, (out[index] ?? 0) * LEVEL)));
}

function cuttingPlane(
  { x, letter }: Plane,
  { top, bottom, size }: { readonly top: number; readonly bottom: number; readonly size: number },
  farther: number,
): Picture {
  const ends = [
    { inner: top - BEYOND - farther, outer: top - BEYOND - WIDE - farther },
    { inner: bottom + BEYOND + farther, outer: bottom + BEYOND + WIDE + farther },
  ] as const;
  return joined([
    lines('cutting', [
      [x, ends[0].inner],
      [x, ends[1].inner],
    ]),
    ...ends.flatMap(({ inner, outer }) => {
      const y = (inner + outer) / 2;
      return [
        lines('cuttingEnd', [
          [x, inner],
          [x, outer],
        ]),
        lines('visibleEdge', [
          [x - SHAFT, y],
          [x - 2, y],
        ]),
        arrowhead([x - 0.25, y], [1, 0], 'cuttingEnd'),
        label({
          text: letter,
          at: [x - SHAFT - 0.6, y + 0.36 * size],
          size,
          anchor: 'end',
          letter: 'strong',
        }),
      ];
    }),
  ]);
}
