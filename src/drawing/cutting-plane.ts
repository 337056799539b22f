import { arrowhead } from './dimension.ts';
import { joined, label, lines, type Picture } from './picture.ts';

const BEYOND = 1.2;
const WIDE = 3;
const SHAFT = 6;

/**
 * An upright cutting plane seen edge on: long-dash-dot with wide ends, arrows that look from left to right, letters.
 *
 * @param cut - its x, top and bottom of the view it crosses [mm], letter, lettering height [mm]
 * Source: ISO 128-3:2022 (cutting plane, identification), from memory.
 */
export function cuttingPlane(cut: {
  readonly x: number;
  readonly top: number;
  readonly bottom: number;
  readonly letter: string;
  readonly size: number;
}): Picture {
  const { x, size } = cut;
  const ends = [
    { inner: cut.top - BEYOND, outer: cut.top - BEYOND - WIDE },
    { inner: cut.bottom + BEYOND, outer: cut.bottom + BEYOND + WIDE },
  ];
  return joined([
    lines('cutting', [
      [x, cut.top - BEYOND],
      [x, cut.bottom + BEYOND],
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
          text: cut.letter,
          at: [x - SHAFT - 0.6, y + 0.36 * size],
          size,
          anchor: 'end',
          letter: 'strong',
        }),
      ];
    }),
  ]);
}
