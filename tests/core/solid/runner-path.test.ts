import { expect, test } from 'vitest';
import type { MoldLayout } from '../../../src/core/solid/mold-table.ts';
import { runnerPaths } from '../../../src/core/solid/runner-path.ts';

type Vec2 = readonly [number, number];

function layout(ends: readonly Vec2[], runner: readonly (readonly [Vec2, Vec2])[], sprue: Vec2): MoldLayout {
  return {
    ...{ cavities: [], runnerLength: 0, vents: [], pins: [], notes: [] },
    runner: runner.map(([from, to]) => ({ from, to })),
    gates: ends.map((to) => ({ from: to, to, width: 1e-3 })),
    sprue: { mouth: [0, 0], end: sprue },
  };
}

test('a trunk with branches off its length: near pieces are shared by all that lie beyond', () => {
  const ends: Vec2[] = [0.01, 0.03, 0.06].map((y) => [0.02, y]);
  const paths = runnerPaths(
    layout(
      ends,
      [[[0.01, 0], [0.01, 0.06]], ...ends.map(([x, y]) => [[0.01, y], [x, y]] as const)], // prettier-ignore
      [0.01, 0],
    ),
  );
  const shown = paths.map((path) => path.map(({ length, shared }) => [Math.round(length * 1e3), shared]));
  expect(shown).toEqual([
    [
      [10, 3],
      [10, 1],
    ],
    [
      [10, 3],
      [20, 2],
      [10, 1],
    ],
    [
      [10, 3],
      [20, 2],
      [30, 1],
      [10, 1],
    ],
  ]);
});

test('the lengths of all stretches, each once, are the runner; a sprue at the gate needs none', () => {
  const ends: Vec2[] = [
    [0.02, -0.02],
    [0.02, 0],
    [0.02, 0.03],
  ];
  const paths = runnerPaths(layout(ends, [[[0.02, -0.02], [0.02, 0.03]]], [0.02, 0])); // prettier-ignore
  const once = paths.flat().reduce((sum, { length, shared }) => sum + length / shared, 0);
  expect(once).toBeCloseTo(0.05, 12);
  expect(paths[1]).toEqual([]);
});
