import { describe, expect, test } from 'vitest';
import {
  closerCritical,
  knownCritical,
  shiftedCritical,
  soughtCritical,
  type KnownCritical,
  type Trials,
} from '../../../../src/core/fill/grid/critical-search.ts';
import { filledFrom } from '../../../../src/core/fill/grid/filled-share.ts';

/** Reserves are sought from a tenth to ten, viscosities from a hundredth to a hundred. */
const WIDEST = Math.log(100);

/** Trials in which one feature fills up to ln viscosity `end`, and beyond it falls short by a rule. */
function ruled(end: number, short: (beyond: number) => number, feature = 0) {
  const tried: number[] = [];
  const trials: Trials = {
    tried: () => tried,
    sharesAt: (ln) => {
      if (!tried.includes(ln)) tried.push(ln);
      const share = ln <= end ? 1 : short(ln - end);
      return Array.from({ length: feature + 1 }, (_, n) => (n === feature ? share : 0.5));
    },
  };
  return { trials, tried };
}

const CELLS = 100;
const WANTED = 0.985;
const sloping = (slope: number) => (beyond: number) => Math.max(0, WANTED - slope * beyond);

/** A feature whose share is known to fall evenly [1 a unit of ln]. */
const even = (at: number, slope: number): KnownCritical => ({
  ...{ at, beyond: [0, 0.1, 0.5], shares: [1, 1 - (0.1 * slope) / WANTED, 1 - (0.5 * slope) / WANTED] },
});

describe('searches', () => {
  test.each([-4, -1.9, -0.3, 0.02, 1.1, 1.3, 3.9])('from nothing: the end at %s of any slope', (end) => {
    for (const slope of [0.1, 0.3, 0.9, 1.4, 5, 30]) {
      const { trials, tried } = ruled(end, sloping(slope), 1);
      expect(Math.abs(soughtCritical(trials, 1, CELLS, 0.015) - end)).toBeLessThan(0.0151);
      expect(tried.length).toBeLessThanOrEqual(12);
    }
  });

  test('from nothing: what bends is not taken for straight, least of all in few cells', () => {
    // As steep as 4 a unit at its end, and a tenth of that a third of a unit beyond.
    const bent = (beyond: number) => WANTED - 0.6 * (1 - Math.exp(-beyond / 0.15)) - 0.1 * beyond;
    for (const end of [-0.35, 0.2, 0.71, 2.15]) {
      const { trials } = ruled(end, bent);
      expect(Math.abs(soughtCritical(trials, 0, CELLS, 0.015) - end)).toBeLessThan(0.015);
    }
    const count = (cells: number) =>
      [-1, -0.5, 0.2, 0.71, 1.9].reduce((sum, end) => {
        const { trials, tried } = ruled(end, (beyond) => filledFrom(cells) - 0.4 * beyond);
        soughtCritical(trials, 0, cells, 0.015);
        return sum + tried.length;
      }, 0);
    expect(count(20)).toBeGreaterThan(count(1000));
  });

  test('how the share falls is what was tried up to half a unit beyond, over the share that counts as filled', () => {
    const { trials, tried } = ruled(1.3, sloping(0.4), 2);
    for (const ln of [1.2, 1.45, 1.35, 1.9]) trials.sharesAt(ln);
    const known = knownCritical(trials, 2, CELLS, 1.3);
    expect(tried).toHaveLength(4);
    expect(known.at).toBe(1.3);
    expect(known.beyond).toEqual([0, 0.05, 0.15].map((way) => expect.closeTo(way, 9) as number));
    known.shares.forEach((share, k) =>
      expect(share).toBeCloseTo((WANTED - 0.4 * known.beyond[k]!) / WANTED, 9),
    );
  });

  test('with nothing tried from 0.12 to 0.5 beyond, 0.2 beyond is; what does not fall is left out', () => {
    const sloped = ruled(1.3, sloping(0.4));
    sloped.trials.sharesAt(1.41);
    sloped.trials.sharesAt(1.81);
    expect(knownCritical(sloped.trials, 0, CELLS, 1.3).beyond).toEqual([
      0,
      expect.closeTo(0.11, 9) as number,
      expect.closeTo(0.2, 9) as number,
    ]);
    const jump = ruled(1, () => 0.3);
    for (const ln of [1.2, 1.3]) jump.trials.sharesAt(ln);
    const known = knownCritical(jump.trials, 0, CELLS, 1);
    expect(known.beyond).toEqual([0, expect.closeTo(0.2, 9) as number]);
    expect(known.shares).toEqual([1, expect.closeTo(0.3 / WANTED, 9) as number]);
  });

  test.each([-3, -0.6, -0.2, -0.05, 0, 0.05, 0.2, 0.9, 3])(
    'a shift by %s is found where the share falls as it did',
    (shift) => {
      for (const slope of [0.3, 0.8, 3]) {
        const { trials, tried } = ruled(0.7 + shift, sloping(slope), 1);
        const found = shiftedCritical(trials, 1, CELLS, even(0.5, slope), 0.2);
        expect(Math.abs(found - 0.7 - shift)).toBeLessThan(slope < 1 ? 1e-6 : 0.04);
        // One run where it comes short by a little, else a few.
        if (Math.abs(shift) < 0.06 && slope < 1) expect(tried).toHaveLength(1);
        expect(tried.length).toBeLessThanOrEqual(10);
      }
    },
  );

  test('a first run is made 0.12 beyond the expected end, or where a steep share has come down by a quarter', () => {
    const firstOf = (slope: number) => {
      const { trials, tried } = ruled(0.7, sloping(slope));
      shiftedCritical(trials, 0, CELLS, even(0.5, slope), 0.2);
      return tried[0]!;
    };
    expect(firstOf(0.4)).toBeCloseTo(0.82, 9);
    expect(firstOf(4)).toBeCloseTo(0.7 + (0.25 * WANTED) / 4, 9);
  });

  test('what fills below it is never given up: the answer is no lower than the stiffest that filled', () => {
    // Far flatter than it was known: the slope alone would lead below what has filled.
    const { trials } = ruled(1, (beyond) => WANTED - 0.05 - 0.1 * beyond);
    const found = shiftedCritical(trials, 0, CELLS, even(0.8, 0.3), 0);
    expect(found).toBeGreaterThanOrEqual(0.92);
    expect(found).toBeLessThanOrEqual(1.2);
  });

  test('where it jumps from short to full the bracket is 0.08 wide, or 0.03 in the closer searches', () => {
    for (const end of [-2, 0.33, 0.9, 2.4]) {
      const jump = () => 0.1;
      const shifted = ruled(end, jump);
      const closer = ruled(end, jump);
      const sought = ruled(end, jump);
      const known = even(0.5, 1);
      expect(Math.abs(shiftedCritical(shifted.trials, 0, CELLS, known, 0) - end)).toBeLessThan(0.04);
      expect(Math.abs(closerCritical(closer.trials, 0, CELLS, known) - end)).toBeLessThan(0.015);
      expect(Math.abs(soughtCritical(sought.trials, 0, CELLS, 0.015) - end)).toBeLessThan(0.015);
      expect(shifted.tried.length).toBeLessThanOrEqual(closer.tried.length);
      expect(closer.tried.length).toBeLessThanOrEqual(14);
    }
  });

  const searches: readonly ((trials: Trials, at: number) => number)[] = [
    (trials, at) => shiftedCritical(trials, 0, CELLS, even(at, 1), 0),
    (trials, at) => closerCritical(trials, 0, CELLS, even(at, 1)),
    (trials) => soughtCritical(trials, 0, CELLS, 0.015),
  ];

  test('what always fills or never does gives the ends of the range, and nothing is tried beyond them', () => {
    for (const search of searches) {
      for (const [end, at] of [
        [9, 0],
        [9, WIDEST],
        [-9, 0],
        [-9, -WIDEST],
      ] as const) {
        const { trials, tried } = ruled(end, () => 0);
        expect(search(trials, at)).toBe(Math.sign(end) * WIDEST);
        for (const ln of tried) expect(Math.abs(ln)).toBeLessThanOrEqual(WIDEST);
      }
    }
  });

  test('what others tried counts: a twin costs no run', () => {
    for (const search of searches) {
      const { trials, tried } = ruled(0.63, sloping(0.4));
      const once = search(trials, 0.6);
      const runs = tried.length;
      expect(search(trials, 0.6)).toBe(once);
      expect(tried).toHaveLength(runs);
    }
  });

  test.each([-0.9, -0.3, -0.05, 0, 0.08, 0.3, 1])(
    'closer: %s off, where the share falls by up to a fifth faster or more slowly than it did',
    (shift) => {
      for (const slope of [0.4, 0.5, 0.6]) {
        const { trials, tried } = ruled(0.4 + shift, sloping(slope));
        const found = closerCritical(trials, 0, CELLS, even(0.4, 0.5));
        expect(Math.abs(found - 0.4 - shift)).toBeLessThan(0.03);
        expect(tried.length).toBeLessThanOrEqual(Math.abs(shift) > 0.2 ? 12 : 4);
      }
    },
  );

  test('closer: the first run is 0.14 beyond the coarse grid’s end, and may be the only one', () => {
    const { trials, tried } = ruled(0.45, sloping(0.5));
    expect(closerCritical(trials, 0, CELLS, even(0.4, 0.5))).toBeCloseTo(0.45, 9);
    expect(tried).toEqual([expect.closeTo(0.54, 9)]);
  });
});
