import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { rotation, type Block } from '../../../src/core/plan/rotation.ts';
import { paceForPeak, steadyCycle } from '../../../src/core/heat/block-warming.ts';

const block = (id: string, shots: number, rest: number, handling = 60): Block => ({
  id,
  shots,
  rest,
  handling,
});

describe('rotation', () => {
  test('one block: hands and rest take turns', () => {
    expect(rotation([block('a', 3, 120)])).toEqual({
      order: ['a'],
      time: 3 * 180,
      waiting: 2 * 120,
      apart: 3 * 180,
    });
  });

  test('three blocks that rest two minutes and are handled in one keep the hands busy', () => {
    const got = rotation(['a', 'b', 'c'].map((id) => block(id, 10, 120)));
    expect(got.waiting).toBe(0);
    // Thirty minutes of hands, and the last block's rest.
    expect(got.time).toBe(30 * 60 + 120);
  });

  test('worked by hand: a slow block and a quick one', () => {
    // Slow at 0, 60 … quick at 60; slow is ready at 360: the quick one's second visit comes after it.
    const got = rotation([block('quick', 2, 60), block('slow', 2, 300)]);
    expect(got.order).toEqual(['slow', 'quick']);
    expect(got.time).toBe(360 + 60 + 300);
    expect(got.waiting).toBe(360 - 120);
  });

  test('resting while others fill is never slower than one by one, nor quicker than hands or any block allow', () => {
    const blocks = fc.array(
      fc.record({
        shots: fc.integer({ min: 0, max: 30 }),
        rest: fc.integer({ min: 0, max: 400 }),
        handling: fc.integer({ min: 10, max: 200 }),
      }),
      { minLength: 1, maxLength: 5 },
    );
    fc.assert(
      fc.property(blocks, (drawn) => {
        const all = drawn.map((one, i) => ({ ...one, id: `${i}` }));
        const { time, apart } = rotation(all);
        const alone = all.map(({ shots, rest, handling }) => shots * (rest + handling));
        const hands = all.reduce((sum, { shots, handling }) => sum + shots * handling, 0);
        expect(apart).toBe(alone.reduce((sum, one) => sum + one, 0));
        expect(time).toBeLessThanOrEqual(apart);
        expect(time).toBeGreaterThanOrEqual(Math.max(hands, ...alone) - 1e-9);
      }),
      { seed: 63 },
    );
  });

  test('worked by hand: three blocks of different shots, visit by visit', () => {
    // Longest rest first: c, b, a. Hands of 10 s each.
    // c 0–10, ready 110; b 10–20, ready 70; a 20–30, ready 50; c waits 80 for 110: 110–120; b 120–130; then a has made its
    // one shot, c is ready at 220: waits 90, 220–230, and rests to 330.
    const got = rotation([block('a', 1, 20, 10), block('b', 2, 50, 10), block('c', 3, 100, 10)]);
    expect(got).toEqual({
      order: ['c', 'b', 'a'],
      time: 330,
      waiting: 80 + 90,
      apart: 30 + 2 * 60 + 3 * 110,
    });
  });

  test('the last to be ready need not be the last that was shot', () => {
    // The slow one is shot at 0 and rests to 505; the quick one at 5 rests to 11.
    expect(rotation([block('quick', 1, 1, 5), block('slow', 1, 500, 5)])).toEqual({
      order: ['slow', 'quick'],
      time: 505,
      waiting: 0,
      apart: 505 + 6,
    });
  });

  test('blocks that rest alike: the longer handled first, then by their ids', () => {
    const got = rotation([
      block('z', 1, 60, 20),
      block('m', 1, 60, 30),
      block('b', 1, 60, 20),
      block('y', 1, 90, 1),
    ]);
    expect(got.order).toEqual(['y', 'm', 'b', 'z']);
  });

  test('a block without shots is left out; without blocks there is nothing to do', () => {
    expect(rotation([block('a', 0, 60), block('b', 1, 30)]).order).toEqual(['b']);
    expect(rotation([])).toEqual({ order: [], time: 0, waiting: 0, apart: 0 });
  });

  test.each([
    [{ shots: 1.5 }, 'rotation: wants whole shots of 0 or more, got 1.5'],
    [{ shots: -1 }, 'rotation: wants whole shots of 0 or more, got -1'],
    [{ handling: 0 }, 'rotation: handling: wants a finite number above 0, got 0'],
    [{ rest: -1 }, 'rotation: rest: wants a finite number of 0 or more, got -1'],
    [{ shots: 200_001 }, 'rotation: wants at most 200000 shots, got 200001'],
  ])('refuses %j', (wrong, message) => {
    expect(() => rotation([{ ...block('a', 1, 1), ...wrong }])).toThrow(message);
  });

  test('takes up to 200 000 shots in all', () => {
    const half = (id: string, shots: number) => block(id, shots, 0, 1);
    expect(rotation([half('a', 100_000), half('b', 100_000)]).time).toBe(200_000);
    expect(() => rotation([half('a', 100_000), half('b', 100_001)])).toThrow(
      'wants at most 200000 shots, got 200001',
    );
  });

  test('refuses a block that stands twice', () => {
    expect(() => rotation([block('a', 1, 1), block('a', 1, 1)])).toThrow(
      'rotation: wants each block once, got a, a',
    );
  });
});

describe('pace for a peak', () => {
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

  test('is the inverse of the steady cycle', () => {
    for (const pace of [60, 180, 600]) {
      const { after } = steadyCycle({ ...cycle, start: 295.15, pace });
      expect(paceForPeak(cycle, after)).toBeCloseTo(pace, 6);
    }
  });

  test('one shot that is too hot by itself has none; a peak that the melt never reaches needs none', () => {
    expect(paceForPeak(cycle, 296)).toBe(Infinity);
    expect(paceForPeak(cycle, 450)).toBe(0);
    expect(() => paceForPeak(cycle, 290)).toThrow(RangeError);
  });
});
