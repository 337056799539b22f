import { describe, expect, test } from 'vitest';
import { measureBait } from '../../../src/core/section/measure.ts';
import { rearPart } from '../../../src/core/section/rear-part.ts';
import type { BaitGeometry, FeatureMeasure } from '../../../src/core/section/geometry.ts';
import { box } from '../../support/solids.ts';

const tail: FeatureMeasure = {
  name: 'tail',
  kind: 'fin',
  length: 0.01,
  stations: [
    { s: 0, thickness: 0.002, width: 0.004, at: [0.05, 0, 0] },
    { s: 0.01, thickness: 0.001, width: 0.004, at: [0.06, 0, 0] },
  ],
  rootThickness: 0.002,
  tipThickness: 0.001,
  thinnest: { thickness: 0.001, at: [0.06, 0, 0] },
};

async function bar(): Promise<BaitGeometry> {
  const geometry = await measureBait(box([0.06, 0.01, 0.008], [0, -0.005, -0.004]), []);
  return { ...geometry, features: [tail] };
}

describe('rear part of a bait', () => {
  test('of a bar 60 mm long cut at 20 mm: two thirds of it, from x = 0 on', async () => {
    const whole = await bar();
    const part = await rearPart(whole, 0.02);
    expect(part.volume / whole.volume).toBeCloseTo(2 / 3, 9);
    expect(part.projectedArea).toBeCloseTo(0.04 * 0.01, 9);
    expect(part.box.min[0]).toBeCloseTo(0, 12);
    expect(part.box.max[0]).toBeCloseTo(0.04, 12);
  });

  test('thin parts keep their sizes and move with it', async () => {
    const part = await rearPart(await bar(), 0.02);
    expect(part.features[0]?.stations.map(({ thickness }) => thickness)).toEqual([0.002, 0.001]);
    expect(part.features[0]?.stations[0]?.at[0]).toBeCloseTo(0.03, 12);
    expect(part.features[0]?.thinnest.at[0]).toBeCloseTo(0.04, 12);
  });

  test('a cut at the root of a thin part leaves it whole; everything of it moves along x alone', async () => {
    const whole = await bar();
    const high: FeatureMeasure = {
      ...tail,
      stations: tail.stations.map((station) => ({ ...station, at: [station.at[0], 0.001, 0.002] })),
      thinnest: { thickness: 0.001, at: [0.06, 0.001, 0.002] },
    };
    const part = await rearPart({ ...whole, features: [high], repairs: ['one point welded'] }, 0.05);
    const x = (value: number) => expect.closeTo(value, 12) as unknown;
    expect(part.features).toEqual([
      {
        ...high,
        stations: [
          { ...high.stations[0], at: [x(0), 0.001, 0.002] },
          { ...high.stations[1], at: [x(0.01), 0.001, 0.002] },
        ],
        thinnest: { thickness: 0.001, at: [x(0.01), 0.001, 0.002] },
      },
    ]);
    expect(part.repairs).toEqual(['one point welded']);
    expect(part.box.min[1]).toBeCloseTo(-0.005, 9);
    expect(part.box.max[2]).toBeCloseTo(0.004, 9);
  });

  test('a cut beside the bait or through a thin part is refused', async () => {
    await expect(rearPart(await bar(), 0.07)).rejects.toThrow(
      'rearPart: wants a cut between 0 and 0.06 m, got 0.07',
    );
    for (const end of [0, 0.06, -0.01, NaN])
      await expect(rearPart(await bar(), end)).rejects.toThrow(
        `rearPart: wants a cut between 0 and 0.06 m, got ${end}`,
      );
    await expect(rearPart(await bar(), 0.055)).rejects.toThrow(
      'rearPart: wants a cut ahead of the thin part "tail", got 0.055',
    );
  });
});
