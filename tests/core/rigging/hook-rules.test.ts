import { describe, expect, test } from 'vitest';
import { hookChoice, hookFit, wireMass, type HookedBait } from '../../../src/core/rigging/hook-fit.ts';
import { hookIndex } from '../../../src/core/rigging/hook-size.ts';
import { RIG_HABITS, trimStation, type Rig } from '../../../src/core/rigging/rigs.ts';

// Rules of common practice at their very limits, on a bait 1 long and 1 high, squeezed to a half: whatever the unit.

const HOOK = { gape: 0.75, length: 0.5, bite: 0.1, wire: 0.1 };
const BAIT: HookedBait = { length: 1, heightAt: () => 1 };

describe('the limits of a fit, Texas style: hook 0.35 to 0.55, gape 1.2 and 1.5, wire 0.25', () => {
  test.each([
    ['a gape of 1.5 is comfortable', {}, 'fits', 'comfortable'],
    ['less is tight', { gape: 0.7499 }, 'tight', 'gape'],
    ['1.2 is tight', { gape: 0.6 }, 'tight', 'gape'],
    ['less is too small', { gape: 0.5999 }, 'too small', 'gape'],
    ['a hook of 0.55', { length: 0.55 }, 'fits', 'comfortable'],
    ['more is too long', { length: 0.5501 }, 'too large', 'long hook'],
    ['a hook of 0.35', { length: 0.35 }, 'fits', 'comfortable'],
    ['less is too short', { length: 0.3499 }, 'too small', 'short hook'],
    ['wire of 0.25', { wire: 0.25 }, 'fits', 'comfortable'],
    ['more is too thick', { wire: 0.2501 }, 'too large', 'thick wire'],
    ['too long goes before too small a gape', { length: 0.6, gape: 0.5 }, 'too large', 'long hook'],
    ['too small a gape before too short', { length: 0.3, gape: 0.5 }, 'too small', 'gape'],
    ['too short before too thick', { length: 0.3, wire: 0.3 }, 'too small', 'short hook'],
    ['too thick before a tight gape', { wire: 0.3, gape: 0.7 }, 'too large', 'thick wire'],
  ] as const)('%s', (_, change, verdict, reason) => {
    expect(hookFit({ ...HOOK, ...change }, BAIT, 'Texas')).toMatchObject({ verdict, reason });
  });

  test('a shaky head takes a hook from 0.3 on', () => {
    const reason = (length: number) => hookFit({ ...HOOK, length }, BAIT, 'shaky head').reason;
    expect([0.3, 0.2999].map(reason)).toEqual(['comfortable', 'short hook']);
  });

  test('squeezed to 0.5, 0.4 to 0.6 of its height: clearance 0.25, 0.15 to 0.35; gape 1.5, 1.25 to 1.875 of it', () => {
    const near = (value: number) => expect.closeTo(value, 12) as number;
    expect(hookFit(HOOK, BAIT, 'Texas')).toMatchObject({
      squeezed: { value: near(0.5), low: near(0.4), high: near(0.6) },
      clearance: { value: near(0.25), low: near(0.15), high: near(0.35) },
      ratio: { value: near(1.5), low: near(1.25), high: near(1.875) },
    });
  });

  test.each(['gape', 'length', 'bite', 'wire'])('wants a %s', (size) => {
    expect(() => hookFit({ ...HOOK, [size]: 0 }, BAIT, 'Texas')).toThrow(
      `hookFit: ${size}: wants a finite number above 0, got 0`,
    );
  });

  test('wants a bait with a length and a height', () => {
    expect(() => hookFit(HOOK, { ...BAIT, length: 0 }, 'Texas')).toThrow('hookFit: baitLength: wants');
    for (const height of [0, -1, NaN, Infinity]) {
      expect(() => hookFit(HOOK, { ...BAIT, heightAt: () => height }, 'Texas')).toThrow(
        `hookFit: wants a body height above 0 at the hook, got ${height}`,
      );
    }
  });
});

describe('where the hook sits', () => {
  // Weedless from the nose; threaded 6 % of the hook ahead of it; through the nose 3 % of the bait behind it.
  test.each([
    ['Texas', 0, 0.4, 0.5],
    ['jig head', 0, 0.5 - 0.03 - 0.1, 0.5 - 0.03],
    ['drop shot', 0.03, 0.03, 0.03],
  ] as const)('%s: enters at %f, point %f, bend %f', (rig, entry, point, reach) => {
    const fit = hookFit(HOOK, BAIT, rig);
    expect(fit.entry).toBeCloseTo(entry, 12);
    expect(fit.point).toBeCloseTo(point, 12);
    expect(fit.reach).toBeCloseTo(reach, 12);
  });

  const spike =
    (at: number) =>
    (x: number): number =>
      x < 0 || x > 1 ? 9 : Math.abs(x - at) < 1e-9 ? 2 : 1;

  test.each([-1, -0.5, 0, 0.5, 1])('the height counts %f half gapes from the point', (part) => {
    const bait = { length: 1, heightAt: spike(0.4 + (part * 0.75) / 2) };
    expect(hookFit(HOOK, bait, 'Texas').height).toBe(2);
  });

  test('but not between these places, nor ahead of the nose or behind the tail', () => {
    expect(hookFit(HOOK, { length: 1, heightAt: spike(0.5) }, 'Texas').height).toBe(1);
    expect(hookFit(HOOK, { length: 1, heightAt: spike(0) }, 'drop shot').height).toBe(2);
    expect(
      hookFit({ ...HOOK, length: 0.9, bite: 0.01 }, { length: 1, heightAt: spike(1) }, 'Texas').height,
    ).toBe(2);
  });

  test('of a hook longer than the bait: half a gape ahead of its end', () => {
    const fit = hookFit({ ...HOOK, gape: 0.4, length: 2 }, { length: 1, heightAt: spike(0.8) }, 'Texas');
    expect(fit.height).toBe(2);
    expect(fit.point).toBeCloseTo(1.9, 12);
  });

  test('a point at the very root of the tail is not in it; only rigs that cut to length ask', () => {
    const { point } = hookFit(HOOK, BAIT, 'tail on a jig');
    const reason = (tailRoot: number, rig: Rig) => hookFit(HOOK, { ...BAIT, tailRoot }, rig).reason;
    expect(reason(point, 'tail on a jig')).not.toBe('into the tail');
    expect(reason(point - 1e-9, 'tail on a jig')).toBe('into the tail');
    expect(reason(point - 1e-9, 'jig trailer')).toBe('into the tail');
    expect(reason(point - 1e-9, 'jig head')).not.toBe('into the tail');
  });
});

describe('cutting to length', () => {
  // A jig trailer: hook 0.4 to 0.65 of what is left. Hook 0.2, its point 0.1 behind the entry.
  const bait = { length: 1, hook: 0.2, free: 0.1 };
  const trailer = RIG_HABITS['jig trailer'];

  test.each([
    ['without a tail until the hook is 0.4 of the rest', undefined, 1 - 0.2 / 0.4],
    ['before a tail by what the hook takes up', 0.3, 0.2],
    ['but never until the hook is more than 0.65 of the rest', 0.95, 1 - 0.2 / 0.65],
    ['not at all for three hundredths', 0.13, 0],
    ['for more than that', 0.131, 0.031],
    ['nor where the tail is too near', 0.05, 0],
  ])('%s', (_, tailRoot, station) => {
    expect(trimStation(trailer, { ...bait, tailRoot })).toBeCloseTo(station, 12);
  });

  test('three hundredths go by the length', () => {
    const long = { length: 2, hook: 0.4, free: 0 };
    expect(trimStation(trailer, { ...long, tailRoot: 0.06 })).toBe(0);
    expect(trimStation(trailer, { ...long, tailRoot: 0.061 })).toBe(0.061);
  });

  test('a tail alone may be cut until the hook is 0.85 of it', () => {
    expect(trimStation(RIG_HABITS['tail on a jig'], { ...bait, tailRoot: 0.95 })).toBeCloseTo(
      1 - 0.2 / 0.85,
      12,
    );
  });

  test.each(['Texas', 'Carolina', 'shaky head', 'weightless', 'jig head', 'drop shot'] as const)(
    '%s leaves the bait whole',
    (rig) => {
      expect(trimStation(RIG_HABITS[rig], bait)).toBe(0);
    },
  );
});

describe('which size', () => {
  const choice = (...verdicts: ReturnType<typeof hookFit>['verdict'][]) =>
    hookChoice(verdicts.map((verdict, i) => ({ verdict, trim: 1 - i / 10 })));

  test('the first that fits, be it the smallest of all, goes before any tight one', () => {
    expect(choice('fits', 'tight', 'too large')).toEqual({ best: 0, smallest: 0, largest: 1 });
    expect(choice('too small', 'fits', 'fits')).toEqual({ best: 1, smallest: 1, largest: 2 });
  });

  test('the least cut counts only among those that fit', () => {
    const fits = [
      { verdict: 'tight' as const, trim: 0 },
      { verdict: 'fits' as const, trim: 2 },
      { verdict: 'fits' as const, trim: 1 },
    ];
    expect(hookChoice(fits, true)).toEqual({ best: 2, smallest: 0, largest: 2 });
    expect(hookChoice(fits)).toEqual({ best: 1, smallest: 0, largest: 2 });
  });
});

test.each(['wire', 'length', 'density'])('the mass of a wire wants a %s', (name) => {
  const [wire, length, density] = ['wire', 'length', 'density'].map((one) => (one === name ? 0 : 1));
  expect(() => wireMass(wire!, length!, density!)).toThrow(
    `wireMass: ${name}: wants a finite number above 0, got 0`,
  );
});

// Trade convention, from memory: whole sizes fall, aughts rise.
test.each([
  ['12', -12],
  ['1', -1],
  ['10/0', 10],
])('size %s stands at %i', (size, index) => {
  expect(hookIndex(size)).toBe(index);
});

test.each(['', '0', 'x4', '4x', '123', '4/0/0', '/0', '4/'])('"%s" is no size', (size) => {
  expect(() => hookIndex(size)).toThrow(`hookIndex: wants a size like 4, 1 or 3/0, got ${size}`);
});
