import { describe, expect, test } from 'vitest';
import type { Vec2 } from '../../../src/core/mesh/mesh.ts';
import { channelsOf } from '../../../src/core/solid/channel-layout.ts';
import type { MoldTable, PlacedCavity } from '../../../src/core/solid/mold-table.ts';

/** Lengths in millimetres: the layout has no unit of its own. */
const mold: MoldTable = {
  cavities: [],
  block: { length: 120, width: 80, thickness: 24 },
  sprue: { mouth: 12, end: 7, length: 20 },
  runner: { diameter: 6 },
  gate: { width: 4, depth: 2, length: 3, at: 'nose' },
  vents: [],
};
const cavity = (x: number, y: number, out: Vec2): PlacedCavity => ({
  ...{ x, y, turn: 0, mirrored: false, outline: [] },
  gate: { at: [x, y], out },
});
const near = (value: number): number => expect.closeTo(value, 9) as number;
/** Stretches as [from, to], each pair of ends in one row. */
const shown = (bars: readonly { from: Vec2; to: Vec2 }[]) => bars.map(({ from, to }) => [...from, ...to]);
const rows = (expected: readonly (readonly number[])[]) => expected.map((row) => row.map(near));

// Gates are 3 long and end on the runner's middle line, 3 further on.
interface Case {
  readonly name: string;
  readonly cavities: readonly PlacedCavity[];
  readonly gates: number[][];
  readonly runner: number[][];
  readonly sprue: number[];
}
const CASES: readonly Case[] = [
  {
    name: 'gates that face the left edge: a trunk where the outermost ends, a lead to it in the middle',
    cavities: [cavity(46, 10, [-1, 0]), cavity(36, 30, [-1, 0]), cavity(40, 60, [-1, 0])],
    gates: [[46, 10, 40, 10], [36, 30, 30, 30], [40, 60, 34, 60]], // prettier-ignore
    runner: [[20, 35, 30, 35], [30, 10, 30, 35], [30, 35, 30, 60], [30, 10, 40, 10], [30, 60, 34, 60]], // prettier-ignore
    sprue: [0, 35, 20, 35],
  },
  {
    name: 'gates that face the left edge and reach the sprue: a trunk off its end',
    cavities: [cavity(26, 10, [-1, 0]), cavity(26, 30, [-1, 0])],
    gates: [[26, 10, 20, 10], [26, 30, 20, 30]], // prettier-ignore
    runner: [[20, 10, 20, 20], [20, 20, 20, 30]], // prettier-ignore
    sprue: [0, 20, 20, 20],
  },
  {
    name: 'gates that end beside the sprue: the trunk lies no further out than its end',
    cavities: [cavity(21, 10, [-1, 0]), cavity(26, 30, [-1, 0])],
    gates: [[21, 10, 15, 10], [26, 30, 20, 30]], // prettier-ignore
    runner: [[20, 10, 20, 20], [20, 20, 20, 30], [20, 10, 15, 10]], // prettier-ignore
    sprue: [0, 20, 20, 20],
  },
  {
    name: 'gates that face the right edge',
    cavities: [cavity(60, 10, [1, 0]), cavity(70, 40, [1, 0])],
    gates: [[60, 10, 66, 10], [70, 40, 76, 40]], // prettier-ignore
    runner: [[100, 25, 76, 25], [76, 10, 76, 25], [76, 25, 76, 40], [76, 10, 66, 10]], // prettier-ignore
    sprue: [120, 25, 100, 25],
  },
  {
    name: 'gates that face the right edge beyond the sprue’s end',
    cavities: [cavity(98, 10, [1, 0]), cavity(70, 40, [1, 0])],
    gates: [[98, 10, 104, 10], [70, 40, 76, 40]], // prettier-ignore
    runner: [[100, 10, 100, 25], [100, 25, 100, 40], [100, 10, 104, 10], [100, 40, 76, 40]], // prettier-ignore
    sprue: [120, 25, 100, 25],
  },
  {
    name: 'gates that face the lower edge',
    cavities: [cavity(10, 46, [0, -1]), cavity(30, 36, [0, -1])],
    gates: [[10, 46, 10, 40], [30, 36, 30, 30]], // prettier-ignore
    runner: [[20, 20, 20, 30], [10, 30, 20, 30], [20, 30, 30, 30], [10, 30, 10, 40]], // prettier-ignore
    sprue: [20, 0, 20, 20],
  },
  {
    name: 'gates that face the upper edge',
    cavities: [cavity(10, 40, [0, 1]), cavity(30, 44, [0, 1])],
    gates: [[10, 40, 10, 46], [30, 44, 30, 50]], // prettier-ignore
    runner: [[20, 60, 20, 50], [10, 50, 20, 50], [20, 50, 30, 50], [10, 50, 10, 46]], // prettier-ignore
    sprue: [20, 80, 20, 60],
  },
  {
    name: 'gates that face each other along the block: a trunk between them from the lower edge',
    cavities: [cavity(66, 30, [-1, 0]), cavity(50, 50, [1, 0])],
    gates: [[66, 30, 60, 30], [50, 50, 56, 50]], // prettier-ignore
    runner: [[58, 20, 58, 30], [58, 30, 58, 50], [58, 30, 60, 30], [58, 50, 56, 50]], // prettier-ignore
    sprue: [58, 0, 58, 20],
  },
  {
    name: 'gates that face each other across the block: a trunk from the left edge',
    cavities: [cavity(50, 30, [0, 1]), cavity(40, 50, [0, -1])],
    gates: [[50, 30, 50, 36], [40, 50, 40, 44]], // prettier-ignore
    runner: [[20, 40, 40, 40], [40, 40, 50, 40], [50, 40, 50, 36], [40, 40, 40, 44]], // prettier-ignore
    sprue: [0, 40, 20, 40],
  },
  {
    name: 'a gate askew, more along than across',
    cavities: [cavity(50, 30, [0.8, 0.6])],
    gates: [[50, 30, 54.8, 33.6]],
    runner: [[54.8, 20, 54.8, 33.6]],
    sprue: [54.8, 0, 54.8, 20],
  },
  {
    name: 'a gate askew, more across than along',
    cavities: [cavity(50, 30, [-0.6, -0.8])],
    gates: [[50, 30, 46.4, 25.2]],
    runner: [[20, 25.2, 46.4, 25.2]],
    sprue: [0, 25.2, 20, 25.2],
  },
  {
    name: 'a gate half along, half across',
    cavities: [cavity(50, 30, [-Math.SQRT1_2, -Math.SQRT1_2])],
    gates: [[50, 30, 50 - 6 * Math.SQRT1_2, 30 - 6 * Math.SQRT1_2]],
    runner: [[50 - 6 * Math.SQRT1_2, 20, 50 - 6 * Math.SQRT1_2, 30 - 6 * Math.SQRT1_2]],
    sprue: [50 - 6 * Math.SQRT1_2, 0, 50 - 6 * Math.SQRT1_2, 20],
  },
];

test.each(CASES)('$name', ({ cavities, gates, runner, sprue }) => {
  const channels = channelsOf(mold, cavities);
  expect(shown(channels.gates)).toEqual(rows(gates));
  expect(channels.gates.map(({ width }) => width)).toEqual(cavities.map(() => 4));
  expect(shown(channels.runner)).toEqual(rows(runner));
  const length = runner.reduce((sum, [ax, ay, bx, by]) => sum + Math.hypot(bx! - ax!, by! - ay!), 0);
  expect(channels.runnerLength).toBeCloseTo(length, 9);
  expect([...channels.sprue.mouth, ...channels.sprue.end]).toEqual(sprue.map(near));
});

describe('without a runner', () => {
  const plain = { ...mold, runner: undefined };
  test('the gate alone leads from the sprue to one cavity', () => {
    expect(channelsOf(plain, [cavity(23, 30, [-1, 0])])).toEqual({
      gates: [{ from: [23, 30], to: [20, 30], width: 4 }],
      runner: [],
      runnerLength: 0,
      sprue: { mouth: [0, 30], end: [20, 30] },
    });
  });
  test('several cavities are refused', () => {
    expect(() => channelsOf(plain, [cavity(23, 30, [-1, 0]), cavity(23, 50, [-1, 0])])).toThrow(
      'runner: wants one for 2 cavities, got none; add "runner" to the mold',
    );
  });
});
