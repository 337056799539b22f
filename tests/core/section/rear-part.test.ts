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

  test('a cut beside the bait or through a thin part is refused', async () => {
    await expect(rearPart(await bar(), 0.07)).rejects.toThrow(
      'rearPart: wants a cut between 0 and 0.06 m, got 0.07',
    );
    await expect(rearPart(await bar(), 0.055)).rejects.toThrow(
      'rearPart: wants a cut ahead of the thin part "tail", got 0.055',
    );
  });
});
