import { describe, expect, test } from 'vitest';
import { gapeClearance, hookFit, SQUEEZED } from '../../../src/core/rigging/hook-fit.ts';
import { hookForm, wireCentroid, wireExit } from '../../../src/core/rigging/hook-form.ts';
import { bodyBow, hookPlaneSection, sideBody } from '../../../src/core/rigging/side-body.ts';
import { kinks, tailRootStation } from '../../../src/core/rigging/straightness.ts';
import type { FeatureMeasure } from '../../../src/core/section/geometry.ts';
import type { Vec2 } from '../../../src/core/mesh/mesh.ts';
import { box, capsule, mapped } from '../../support/solids.ts';

const LENGTH = 0.12;
const SIZES = { gape: 0.014, length: 0.057, bite: 0.013, wire: 0.0012, offset: 0.007 };

const rectangle = (height: number, shift = 0): Vec2[][] => [
  [
    [0, shift - height / 2],
    [LENGTH, shift - height / 2],
    [LENGTH, shift + height / 2],
    [0, shift + height / 2],
  ],
];

/** An ellipse of length LENGTH and the given height, with a vertex at every station asked for. */
function ellipse(height: number, stations: readonly number[]): Vec2[][] {
  const half = (x: number) => (height / 2) * Math.sqrt(1 - ((2 * x) / LENGTH - 1) ** 2);
  const xs = [...stations].sort((a, b) => a - b);
  return [
    [
      [0, 0],
      ...xs.map((x): Vec2 => [x, -half(x)]),
      [LENGTH, 0],
      ...xs.toReversed().map((x): Vec2 => [x, half(x)]),
    ],
  ];
}

describe('clearance over the squeezed section', () => {
  test('rectangle: gape less half the height, exactly, wherever the point lies', () => {
    const body = sideBody(rectangle(0.016, 0.001));
    const bait = { length: LENGTH, heightAt: (x: number) => body.backAt(x) - body.bellyAt(x) };
    const fit = hookFit(SIZES, bait, 'Texas');
    expect(fit.height).toBeCloseTo(0.016, 15);
    expect(fit.clearance.value).toBeCloseTo(0.014 - 0.008, 15);
    expect(fit.clearance.low).toBeCloseTo(0.014 - 0.016 * SQUEEZED.high, 15);
  });

  test('ellipse: the chord at the tallest station within half a gape of the point, exactly', () => {
    const point = 0.057 - 0.013;
    const stations = [-1, -0.5, 0, 0.5, 1].map((part) => point + part * 0.007);
    const body = sideBody(ellipse(0.018, stations));
    const bait = { length: LENGTH, heightAt: (x: number) => body.backAt(x) - body.bellyAt(x) };
    const chord = 0.018 * Math.sqrt(1 - ((2 * (point + 0.007)) / LENGTH - 1) ** 2);
    const fit = hookFit(SIZES, bait, 'Texas');
    expect(fit.point).toBeCloseTo(point, 15);
    expect(fit.height).toBeCloseTo(chord, 12);
    expect(fit.clearance.value).toBeCloseTo(0.014 - 0.5 * chord, 12);
    expect(fit.ratio.value).toBeCloseTo(gapeClearance(0.014, chord / 2).ratio, 9);
  });
});

describe('the plane that a hook lies in', () => {
  test('parts a box left from right: its height out of the parting plane on its belly, in it on its side', () => {
    const mesh = box([0.12, 0.01, 0.016], [0, -0.005, -0.008]);
    const heights = (['on its belly', 'on its side'] as const).map((lies) => {
      const body = sideBody(hookPlaneSection(mesh, lies));
      return body.backAt(0.06) - body.bellyAt(0.06);
    });
    expect(heights[0]).toBeCloseTo(0.016, 12);
    expect(heights[1]).toBeCloseTo(0.01, 12);
  });

  test('a capsule is as high as it is thick, and its nose is on its axis', () => {
    const mesh = mapped(capsule(0.005, 0.09, 24, 48), ([x, y, z]) => [x + 0.05, y, z]);
    const body = sideBody(hookPlaneSection(mesh, 'on its belly'));
    expect(body.length).toBeCloseTo(0.1, 9);
    expect(body.backAt(0.05) - body.bellyAt(0.05)).toBeCloseTo(0.01, 4);
    expect(body.nose[1]).toBeCloseTo(0, 6);
  });

  test('chords of a notched outline, station by station', () => {
    // From 10 to 30: a wedge from its nose at height 2, up to 6 and down to −2 at 20, then a step to 1 … 5.
    const body = sideBody([
      [
        [10, 2],
        [20, -2],
        [20, 1],
        [30, 1],
        [30, 5],
        [20, 6],
      ],
    ]);
    expect(body.length).toBe(20);
    expect([body.bellyAt(15), body.backAt(15)]).toEqual([0, 4]);
    expect([body.bellyAt(25), body.backAt(25)]).toEqual([1, 5.5]);
    // Within 0.2 % of an end, 0.04, the height there: 0.004 up and down of 2; ahead of the nose and behind the tail too.
    for (const x of [0, 10, 10.03]) {
      expect(body.bellyAt(x)).toBeCloseTo(2 - 0.016, 12);
      expect(body.backAt(x)).toBeCloseTo(2 + 0.016, 12);
    }
    for (const x of [29.97, 30, 40]) expect(body.backAt(x)).toBeCloseTo(5.004, 12);
    expect(body.nose).toEqual([10, expect.closeTo(2, 12)]);
  });

  test('of several stretches the nearest to the axis, below it or above it; of two as near the lower', () => {
    const bar = (low: number, high: number): Vec2[] => [
      [0, low],
      [1, low],
      [1, high],
      [0, high],
    ];
    const at = (...bars: Vec2[][]) => {
      const body = sideBody(bars);
      return [body.bellyAt(0.5), body.backAt(0.5)];
    };
    expect(at(bar(-9, -3), bar(2, 8))).toEqual([2, 8]);
    expect(at(bar(-9, -2), bar(3, 4))).toEqual([-9, -2]);
    expect(at(bar(-9, -3), bar(-1, 5), bar(6, 7))).toEqual([-1, 5]);
    expect(at(bar(-4, -2), bar(2, 3))).toEqual([-4, -2]);
  });

  test('no outline, no body; no bait in its middle plane, no section', () => {
    expect(() =>
      sideBody([
        [
          [0, 0],
          [1, 1],
        ],
      ]),
    ).toThrow('sideBody: wants an outline, got 2 points');
    expect(
      sideBody([
        [
          [0, 0],
          [1, 0],
          [0, 1],
        ],
      ]).length,
    ).toBe(1);
    expect(() => hookPlaneSection(box([1, 1, 1], [0, 2, 0]), 'on its belly')).toThrow(
      'hookPlaneSection: wants a bait that its own middle plane cuts, got nothing',
    );
  });

  test('a tail that curls past the body is not body', () => {
    const body = sideBody([
      ...rectangle(0.01),
      [
        [0.05, 0.02],
        [0.08, 0.02],
        [0.08, 0.024],
        [0.05, 0.024],
      ],
    ]);
    expect(body.backAt(0.06)).toBeCloseTo(0.005, 12);
  });
});

describe('a hook as it lies', () => {
  const body = sideBody(rectangle(0.012));
  test.each(['weedless', 'threaded', 'through the nose'] as const)(
    '%s: gape, throat and length are true',
    (lie) => {
      const { line, point, foot, eye } = hookForm(SIZES, lie, body, 0.004);
      expect(Math.hypot(point[0] - foot[0], point[1] - foot[1])).toBeCloseTo(SIZES.gape, 12);
      const along = lie === 'through the nose' ? 1 : 0;
      const reach = line.map((at) => Math.abs(at[along] - eye.at[along]));
      expect(Math.max(...reach)).toBeCloseTo(SIZES.length, 12);
      expect(SIZES.length - Math.abs(point[along] - eye.at[along])).toBeCloseTo(SIZES.bite, 12);
    },
  );

  test('weedless: the shank lies under the belly, the eye as far above it as it steps off', () => {
    const { foot, eye, strain } = hookForm(SIZES, 'weedless', body);
    expect(foot[1]).toBeCloseTo(-0.006 - SIZES.wire / 2, 12);
    expect(eye.at[1] - foot[1]).toBeCloseTo(SIZES.offset, 12);
    expect(strain).toBe(0);
  });

  test('the wire leaves through the belly at the step, and never when it stays inside', () => {
    const form = hookForm(SIZES, 'weedless', body);
    const exit = wireExit(form.line, body)!;
    expect(exit).toBeGreaterThan(0.1 * SIZES.length);
    expect(exit).toBeLessThan(0.19 * SIZES.length);
    expect(
      wireExit(
        [
          [0.01, 0],
          [0.02, 0],
        ],
        body,
      ),
    ).toBeNull();
  });

  test('centre of a wire: half-way along a straight one, at (¾, ¼) of an even corner', () => {
    expect(
      wireCentroid([
        [0, 0],
        [4, 2],
      ]),
    ).toEqual([2, 1]);
    expect(
      wireCentroid([
        [0, 0],
        [1, 0],
        [1, 1],
      ]),
    ).toEqual([0.75, 0.25]);
  });

  test('refuses a throat as long as the hook', () => {
    expect(() => hookForm({ ...SIZES, bite: 0.06 }, 'threaded', body)).toThrow(
      /^hookForm: shank: wants .* got/u,
    );
  });
});

describe('straightness', () => {
  const body = sideBody(rectangle(0.012));
  const stations = (at: number) => [{ s: 0, thickness: 1e-3, width: 2e-3, at: [at, 0, 0] as const }];
  const rigged = (sizes = SIZES) => ({
    body,
    form: hookForm(sizes, 'weedless', body),
    gape: sizes.gape,
    entry: 0,
    point: 0.044,
    reach: 0.057,
  });

  test('an even bait without limbs lies straight', () => {
    expect(kinks({ ...rigged(), features: [] })).toEqual([]);
  });

  test('a leg at the point, a tail at the bend and a step too high each force a kink', () => {
    const leg = { name: 'front-legs', kind: 'leg' as const, stations: stations(0.047) };
    const tail = { name: 'tail', kind: 'curl-tail' as const, stations: stations(0.05) };
    const found = kinks({ ...rigged({ ...SIZES, offset: 0.016 }), features: [leg, tail] });
    expect(found.map(({ cause }) => cause)).toEqual(['root', 'tail', 'step']);
    expect(tailRootStation([leg, tail], 0)).toBe(0.05);
    expect(tailRootStation([leg], 0)).toBeUndefined();
  });

  test('a threaded hook bends outside the body: only its point must keep clear of the tail', () => {
    const tail = { name: 'tail', kind: 'curl-tail' as const, stations: stations(0.05) };
    const form = hookForm(SIZES, 'threaded', body);
    const at = (point: number) => kinks({ ...rigged(), form, point, features: [tail] });
    expect([0.044, 0.051].map((point) => at(point).map(({ cause }) => cause))).toEqual([[], ['tail']]);
  });

  // A body 20 high whose nose stands at 5: a kink is worth a word from 15 % of the height on, 3; a limb within half a
  // gape of the point, 7.
  const plain = { nose: [5, 0] as Vec2, length: 120, bellyAt: () => -10, backAt: () => 10 };
  const asked = {
    body: plain,
    form: { ...hookForm(SIZES, 'weedless', body), strain: 0 },
    gape: 14,
    entry: 0,
    point: 44,
    reach: 57,
  };
  const feature = (kind: FeatureMeasure['kind'], root: number) => ({
    name: kind,
    kind,
    stations: [{ s: 0, thickness: 1, width: 2, at: [5 + root, 0, 0] as const }],
  });

  test.each(['arm', 'claw', 'leg', 'fin'] as const)(
    '%s: half a gape from the point is far enough',
    (kind) => {
      const causes = (root: number) => kinks({ ...asked, features: [feature(kind, root)] });
      expect([37, 51].map(causes)).toEqual([[], []]);
      expect(causes(37.5)).toEqual([{ cause: 'root', feature: kind, at: 37.5 }]);
      expect(causes(50.5)).toEqual([{ cause: 'root', feature: kind, at: 50.5 }]);
      expect(tailRootStation([feature(kind, 44)], 5)).toBeUndefined();
    },
  );

  test.each(['curl-tail', 'ribbon-tail', 'paddle'] as const)('%s: the bend may reach its root', (kind) => {
    const causes = (root: number) => kinks({ ...asked, features: [feature(kind, root)] });
    expect(causes(57)).toEqual([]);
    expect(causes(56)).toEqual([{ cause: 'tail', feature: kind, at: 56 }]);
    expect(tailRootStation([feature(kind, 60), feature(kind, 44)], 5)).toBe(44);
  });

  test('a rib kinks nothing; a part without stations begins at the nose', () => {
    expect(kinks({ ...asked, features: [feature('rib', 44)] })).toEqual([]);
    expect(tailRootStation([{ ...feature('paddle', 9), stations: [] }], 5)).toBe(0);
  });

  test('a step of more than 15 % of the height at the point, at most at the end of the body', () => {
    const causes = (strain: number, change: object = {}) =>
      kinks({ ...asked, form: { ...asked.form, strain }, features: [], ...change });
    expect(causes(3)).toEqual([]);
    expect(causes(3.01)).toEqual([{ cause: 'step', size: 3.01 }]);
    // Twice as high at the point, or at its end where the point lies behind it.
    const half = (from: number) => (x: number) => (x >= 5 + from ? 20 : 10);
    const tall = (from: number) => ({ ...plain, backAt: half(from), bellyAt: (x: number) => -half(from)(x) });
    expect(causes(6, { body: tall(44) })).toEqual([]);
    expect(causes(6, { body: tall(44.5) })).toEqual([{ cause: 'step', size: 6 }]);
    expect(causes(6, { body: { ...tall(40), length: 40 }, point: 44 })).toEqual([]);
  });

  test('a bow of more than 15 % of the height between entry and point', () => {
    // A middle line with a peak half-way between nose and point, at 25.
    const peak = (size: number) => (x: number) => size * Math.max(0, 1 - Math.abs(x - 25) / 20);
    const causes = (size: number, change: object = {}) =>
      kinks({
        ...asked,
        body: { ...plain, bellyAt: (x) => peak(size)(x) - 10, backAt: (x) => peak(size)(x) + 10 },
        point: 40,
        features: [],
        ...change,
      });
    expect(causes(3)).toEqual([]);
    expect(causes(4)).toEqual([{ cause: 'bow', size: 4 }]);
    expect(causes(4, { entry: 40 })).toEqual([]);
    expect(causes(9, { form: hookForm(SIZES, 'through the nose', body) })).toEqual([]);
    expect(() => causes(4, { gape: 0 })).toThrow('kinks: gape: wants a finite number above 0, got 0');
  });

  test('bow: the sagitta of a bent middle line', () => {
    const xs = Array.from({ length: 41 }, (_, i) => (LENGTH * i) / 40);
    const sag = (x: number) => 0.004 * (1 - ((2 * x) / LENGTH - 1) ** 2);
    const bent = sideBody([
      [...xs.map((x): Vec2 => [x, sag(x) - 0.005]), ...xs.toReversed().map((x): Vec2 => [x, sag(x) + 0.005])],
    ]);
    // A parabola over the middle half: a quarter of the whole sag, 1 mm.
    expect(bodyBow(bent, 0.03, 0.09)).toBeCloseTo(0.001, 4);
    expect(bodyBow(body, 0.03, 0.09)).toBeCloseTo(0, 12);
  });

  test('bow of a middle line that is stated: greatest distance from its own chord', () => {
    // Middle line (x − 5)² from 5 to 21: chord 16·(x − 5), greatest distance 64 half-way, at 13.
    const middle = (x: number) => (x - 5) ** 2;
    const bowed = {
      nose: [5, 0] as Vec2,
      length: 40,
      bellyAt: (x: number) => middle(x) - 3,
      backAt: (x: number) => middle(x) + 3,
    };
    expect(bodyBow(bowed, 0, 16)).toBe(64);
    // From 8 to 16: 4², wherever it begins.
    expect(bodyBow(bowed, 8, 16)).toBe(16);
    // A sine of one turn, taken away from the chord both ways: an amplitude at a quarter and at three quarters.
    const wave = (x: number) => Math.sin((2 * Math.PI * (x - 5)) / 16);
    expect(bodyBow({ ...bowed, bellyAt: wave, backAt: wave }, 0, 16)).toBeCloseTo(1, 12);
    expect(() => bodyBow(bowed, 3, 3)).toThrow('bodyBow: wants an end behind the beginning, got 3 to 3');
  });
});
