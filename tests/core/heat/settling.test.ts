import { describe, expect, test } from 'vitest';
import {
  beforeShotTemperature,
  coolDownTime,
  cyclesToShare,
  paceForPeak,
  steadyCycle,
  warmUpShots,
} from '../../../src/core/heat/block-warming.ts';

const cycle = {
  shotMass: 0.02,
  shotHeat: 2000,
  blockMass: 1.215,
  blockHeat: 896,
  melt: 448.15,
  ambient: 295.15,
  loss: 10,
  surface: 0.0405,
};
/** The share of the temperature gap that one shot takes: mc/(mc + MC) = 40/(40 + 1088.64). */
const share = 40 / (40 + 1088.64);

describe('the pace at which a block settles to a temperature', () => {
  test.each([60, 180, 600, 3000])('gives the pace back from the peak that %i s lead to', (pace) => {
    const { after } = steadyCycle({ ...cycle, start: cycle.ambient, pace });
    expect(paceForPeak(cycle, after) / pace).toBeCloseTo(1, 9);
  });

  test('is none where no block gets that hot, and endless where one shot does it', () => {
    expect(paceForPeak(cycle, cycle.melt)).toBe(0);
    expect(paceForPeak(cycle, cycle.melt + 1)).toBe(0);
    const oneShot = cycle.ambient + share * (cycle.melt - cycle.ambient);
    expect(paceForPeak(cycle, oneShot - 1e-6)).toBe(Infinity);
    expect(paceForPeak(cycle, oneShot + 1e-6)).toBeGreaterThan(1e4);
    expect(paceForPeak(cycle, oneShot + 1e-6)).toBeLessThan(Infinity);
  });
});

test('a block that is there already need not cool, one below has nothing to do', () => {
  expect(coolDownTime(320, 320, 295, 2000)).toBe(0);
  expect(coolDownTime(310, 320, 295, 2000)).toBe(0);
  // τ·ln(25/12.5) = 2000·0.693147
  expect(coolDownTime(320, 307.5, 295, 2000)).toBeCloseTo(1386.294, 3);
});

describe('shots of a block that starts where it is', () => {
  const block = { ...cycle, start: 300, pace: 180 };
  const { before, memory } = steadyCycle(block);

  test('none when it starts at the target; never when the target is where it settles', () => {
    expect(warmUpShots(block, 300)).toBe(0);
    expect(warmUpShots(block, before)).toBe(Infinity);
  });

  test('a target that a whole number of shots reaches takes that many, whatever the rounding', () => {
    for (const shots of [1, 2, 3, 5, 8, 13]) {
      expect(warmUpShots(block, beforeShotTemperature(block, shots))).toBe(shots);
    }
  });

  test('shares of the way are 1 − memoryⁿ; the whole way is never made', () => {
    expect(cyclesToShare(block, 1 - memory ** 4)).toBeCloseTo(4, 9);
    expect(() => cyclesToShare(block, 1)).toThrow('cyclesToShare: share: wants a number from 0 to');
    expect(() => paceForPeak(cycle, cycle.ambient)).toThrow('paceForPeak: peak − ambient');
  });
});
