import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { parse } from 'yaml';
import {
  gapeClearance,
  hookChoice,
  hookFit,
  SQUEEZED,
  wireMass,
  type HookedBait,
} from '../../../src/core/rigging/hook-fit.ts';
import { RIG_HABITS, type Rig } from '../../../src/core/rigging/rigs.ts';
import { hookIndex } from '../../../src/core/rigging/hook-size.ts';
import { hookSchema, type Hook } from '../../../src/schema/hook.ts';

const demoHook = (id: string): Hook =>
  hookSchema.parse(
    parse(readFileSync(new URL(`../../../content/hooks/${id}.yaml`, import.meta.url), 'utf8')),
  );

const even = (length: number, height: number): HookedBait => ({ length, heightAt: () => height });

const best = (hook: Hook, bait: HookedBait, rig: Rig): string | undefined => {
  const fits = hook.sizes.map((size) => hookFit(size, bait, rig));
  return hook.sizes[hookChoice(fits).best]?.size;
};

// Trade convention: 8, 4, 2, 1, 1/0, 2/0, 5/0 from small to large; the index carries no millimetres.
test('hook sizes in order', () => {
  const sizes = ['8', '4', '2', '1', '1/0', '2/0', '5/0'];
  expect(sizes.map(hookIndex)).toEqual([-8, -4, -2, -1, 1, 2, 5]);
  expect(() => hookIndex('3/1')).toThrow('hookIndex: wants a size like 4, 1 or 3/0, got 3/1');
  expect(() => hookIndex('0/0')).toThrow(RangeError);
});

test('gape of 12 mm over a body of 8 mm: 4 mm to spare, ratio 1.5', () => {
  const { clearance, ratio } = gapeClearance(0.012, 0.008);
  expect(clearance).toBeCloseTo(0.004, 15);
  expect(ratio).toBeCloseTo(1.5, 12);
});

test('80 mm of 1.2 mm steel wire weigh 0.71025 g', () => {
  expect(Math.abs((wireMass(0.0012, 0.08, 7850) * 1e3) / 0.7102512671 - 1)).toBeLessThan(1e-6);
});

describe('fit', () => {
  const hook = { gape: 0.0143, length: 0.057, bite: 0.013, wire: 0.0012 };

  test('Texas style clears the whole body squeezed to half', () => {
    const fit = hookFit(hook, even(0.127, 0.018), 'Texas');
    expect(fit.clearance.value).toBeCloseTo(0.0143 - 0.009, 12);
    expect(fit.ratio.value).toBeCloseTo(14.3 / 9, 9);
    expect(fit.ratio.low).toBeCloseTo(14.3 / (18 * SQUEEZED.high), 9);
    expect([fit.trim, fit.entry, fit.reach]).toEqual([0, 0, 0.057]);
    expect(fit.point).toBeCloseTo(0.057 - 0.013, 12);
    expect(fit.wireShare).toBeCloseTo(1.2 / 18, 12);
    expect(fit.verdict).toBe('fits');
  });

  test('a threaded hook clears half of that', () => {
    const texas = hookFit(hook, even(0.127, 0.018), 'Texas');
    const trailer = hookFit(hook, even(0.127, 0.018), 'jig trailer');
    expect(trailer.ratio.value).toBeCloseTo(2 * texas.ratio.value, 9);
  });

  test('the thresholds stand at 1.2 and 1.5', () => {
    const height = (ratio: number) => (2 * hook.gape) / ratio;
    const verdict = (ratio: number) => hookFit(hook, even(0.127, height(ratio)), 'Texas').verdict;
    expect([1.19, 1.21, 1.49, 1.51].map(verdict)).toEqual(['too small', 'tight', 'tight', 'fits']);
  });

  test('length decides too, and says so', () => {
    expect(hookFit(hook, even(0.2, 0.012), 'Texas').reason).toBe('short hook');
    expect(hookFit(hook, even(0.09, 0.012), 'Texas').reason).toBe('long hook');
    expect(hookFit({ ...hook, wire: 0.0035 }, even(0.127, 0.012), 'Texas').reason).toBe('thick wire');
  });

  test('the tallest height near the point counts, not the one exactly there', () => {
    const humped: HookedBait = { length: 0.127, heightAt: (x) => (x > 0.05 ? 0.02 : 0.01) };
    expect(hookFit(hook, humped, 'Texas').height).toBe(0.02);
  });

  test('no size is recommended when none will do', () => {
    const choice = (...verdicts: ReturnType<typeof hookFit>['verdict'][]) =>
      Object.values(hookChoice(verdicts.map((verdict) => ({ verdict, trim: 0 }))));
    expect(choice('too small', 'too large')).toEqual([-1, -1, -1]);
    expect(choice('tight', 'tight', 'too large')).toEqual([1, 0, 1]);
    expect(choice('too small', 'tight', 'fits', 'fits', 'too large')).toEqual([2, 1, 3]);
  });
});

describe('cut to length for a jig', () => {
  const hook = { gape: 0.01, length: 0.034, bite: 0.01, wire: 0.001 };
  const grub: HookedBait = { length: 0.08, heightAt: () => 0.011, tailRoot: 0.037 };
  // Shank 0.94 × 34 mm behind the entry, less a throat of 10 mm.
  const reach = 0.94 * 0.034 - 0.01;

  test('a tail on a jig: the point comes out half a gape ahead of the tail', () => {
    const fit = hookFit(hook, grub, 'tail on a jig');
    expect(fit.trim).toBeCloseTo(0.037 - reach - 0.005, 12);
    expect(fit.point).toBeCloseTo(0.037 - 0.005, 12);
    expect(fit.verdict).toBe('fits');
  });

  test('a trailer is never cut so short that the hook is long for what is left', () => {
    const fit = hookFit({ ...hook, length: 0.05 }, { ...grub, tailRoot: 0.079 }, 'jig trailer');
    expect(fit.lengthShare).toBeCloseTo(RIG_HABITS['jig trailer'].most, 12);
  });

  test('without a tail it is cut until the hook suits; with a tail too near the nose it does not fit', () => {
    const worm: HookedBait = { length: 0.15, heightAt: () => 0.009 };
    expect(hookFit(hook, worm, 'jig trailer').lengthShare).toBeCloseTo(0.4, 12);
    expect(hookFit(hook, { ...grub, tailRoot: 0.015 }, 'tail on a jig').reason).toBe('into the tail');
  });

  test('where the bait should stay whole, the size that cuts least is named; for a tail alone the smallest', () => {
    const fits = [0.02, 0.01, 0.003, 0.003].map((trim) => ({ verdict: 'fits' as const, trim }));
    expect([true, false].map((keep) => hookChoice(fits, keep).best)).toEqual([2, 0]);
  });

  test('other rigs leave the bait whole', () => {
    expect(hookFit(hook, grub, 'jig head').trim).toBe(0);
  });
});

// Common practice, no source: a bulky five-inch bait takes about a 3/0 extra wide gap rigged Texas style.
test.each([16, 17, 18, 19])('five inches long and %i mm high: 3/0 extra wide gap', (height) => {
  expect(best(demoHook('extra-wide-gap'), even(0.127, height / 1e3), 'Texas')).toBe('3/0');
});

// Common practice: four-inch finesse worm on about a 1/0, six-inch worm on a 3/0 or 4/0 offset hook.
test.each([
  [101.6, 8, ['1', '1/0']],
  [152.4, 9, ['3/0', '4/0']],
])('worm of %f mm', (length, height, sizes) => {
  expect(sizes).toContain(best(demoHook('offset-worm'), even(length / 1e3, height / 1e3), 'Texas'));
});

// Common practice: a three-inch grub on about a 1/0 jig head, a five-inch swimbait on about a 5/0, a four-and-a-half
// inch worm nose-hooked on about a 2 or 1.
test.each([
  ['jig', 'jig head', 77, 11, ['1', '1/0', '2/0']],
  ['jig', 'jig head', 127, 22, ['4/0', '5/0']],
  ['drop-shot', 'drop shot', 115, 6, ['2', '1']],
] as const)('%s on a %s, bait of %i mm', (id, rig, length, height, sizes) => {
  expect(sizes).toContain(best(demoHook(id), even(length / 1e3, height / 1e3), rig));
});

test('every size of a pattern goes from too small through fitting to too large, in that order', () => {
  const order = { 'too small': 0, tight: 1, fits: 2, 'too large': 3 };
  for (const height of [6, 8, 11, 14, 18, 22]) {
    const bait: HookedBait = { length: 0.09, heightAt: (x) => (x > 0.055 ? 0.03 : height / 1e3) };
    const ranks = demoHook('offset-worm').sizes.map((size) => order[hookFit(size, bait, 'Texas').verdict]);
    expect(
      [...ranks].sort((a, b) => a - b),
      `${height} mm`,
    ).toEqual(ranks);
  }
});

test.each(['extra-wide-gap', 'offset-worm', 'straight-shank', 'jig', 'drop-shot'])(
  '%s: sizes stand in order and grow in every dimension; mass agrees with the wire',
  (id) => {
    const { sizes } = demoHook(id);
    sizes.slice(1).forEach((size, i) => {
      const before = sizes[i] as (typeof sizes)[number];
      expect(hookIndex(size.size)).toBeGreaterThan(hookIndex(before.size));
      for (const key of ['gape', 'length', 'bite', 'wire', 'mass'] as const) {
        expect(size[key], `${size.size} ${key}`).toBeGreaterThan(before[key]);
      }
    });
    for (const { mass, wire, length } of sizes) {
      expect(Math.abs(mass / wireMass(wire, 1.75 * length, 7850) - 1)).toBeLessThan(0.06);
    }
  },
);
