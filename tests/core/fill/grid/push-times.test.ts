import { describe, expect, test } from 'vitest';
import { cutCavity, type Cavity } from '../../../../src/core/fill/grid/cavity.ts';
import { coarseCavity } from '../../../../src/core/fill/grid/coarsened.ts';
import { gateEntries } from '../../../../src/core/fill/grid/gate.ts';
import { pushTimes, type Shot } from '../../../../src/core/fill/grid/push-times.ts';
import type { ShotConditions } from '../../../../src/core/fill/grid/reserve-table.ts';
import { shotFill } from '../../../../src/core/fill/grid/shot-fill.ts';
import { bait, mapOf } from './maps.ts';

interface Fed extends Pick<Shot, 'feed'> {
  readonly cavity: Cavity;
}

const map = bait(0.9e-3);
const FED: Fed = {
  cavity: cutCavity(map, gateEntries(map, { at: 'nose', width: 4e-3, depth: 3e-3 })),
  feed: { stretches: [{ drag: 2e9, thickness: 6e-3, round: true }], airResistance: 3e8 },
};
const SHOT: ShotConditions = {
  ...{ pressure: 3e5, diffusivity: 7.5e-8, noFlow: 373.15, melt: 435, wall: 331 },
  ...{ flow: 4e-6, gap: 0, closing: 0, viscosity: { reference: 1, at: 448.15, activation: 35000 } },
};

/** Times of half and of twice the flow, as they are told and as they are run on the grid itself. */
function bothWays({ cavity, feed }: Fed, shot: ShotConditions) {
  const others = [0.5, 2].map((times) => ({ ...shot, flow: shot.flow * times }));
  const usual = { feed, shot, fill: shotFill(cavity, feed, shot) };
  return {
    usual,
    told: pushTimes(usual, others),
    run: others.map((other) => shotFill(cavity, feed, other)),
  };
}

describe('times of other pushes', () => {
  test.each([
    ['a stiff melt', 4],
    ['a thin melt', 1],
  ])('are within 3 %% of runs on the grid itself, where the hand gives its pressure: %s', (_, reference) => {
    const shot = { ...SHOT, flow: 2e-5, viscosity: { ...SHOT.viscosity, reference } };
    const { usual, told, run } = bothWays(FED, shot);
    expect(run.every(({ filled }) => filled)).toBe(true);
    // The ends are no mere copies of the flow.
    expect(usual.fill.time / run[1]!.time).toBeLessThan(1.8);
    run.forEach(({ time }, n) => expect(Math.abs(told[n]! / time - 1)).toBeLessThan(0.03));
    expect(told).not.toEqual(run.map(({ time }) => time));
  });

  test('are those of the flow alone, where it never meets the pressure', () => {
    const { usual, told } = bothWays(FED, { ...SHOT, pressure: 1e8 });
    expect(told[0]! / usual.fill.time).toBeCloseTo(2, 2);
    expect(told[1]! / usual.fill.time).toBeCloseTo(0.5, 2);
  });

  test('are run on the grid itself where the coarse grid comes short, or the shot itself', () => {
    const stiff = (reference: number) => ({ ...SHOT, viscosity: { ...SHOT.viscosity, reference } });
    const coarse = coarseCavity(FED.cavity)!;
    const fills = (cavity: Cavity, shot: ShotConditions) => shotFill(cavity, FED.feed, shot).filled;
    const shots = Array.from({ length: 24 }, (_, k) => stiff(1.12 ** k * 4));
    const between = shots.find((shot) => !fills(coarse, shot) && fills(FED.cavity, shot))!;
    for (const shot of [between, shots.at(-1)!]) {
      const { told, run } = bothWays(FED, shot);
      expect(told).toEqual(run.map(({ time }) => time));
    }
  });

  test('are run on the grid itself where the coarse grid has no gate', () => {
    const row = mapOf({ nx: 12, ny: 1, cell: 1e-3 }, (x) => (x < 1e-3 ? 2e-3 : 3e-3));
    row.height[1] = 0;
    const alone: Fed = { cavity: cutCavity(row, [0]), feed: { stretches: [] } };
    expect(coarseCavity(alone.cavity)).toBeNull();
    const { told, run } = bothWays(alone, SHOT);
    expect(told).toEqual(run.map(({ time }) => time));
  });
});
