import { describe, expect, test } from 'vitest';
import { gapeClearance, hookFit, SQUEEZED } from '../../../src/core/rigging/hook-fit.ts';
import { hookForm, wireCentroid, wireExit } from '../../../src/core/rigging/hook-form.ts';
import { bodyBow, hookPlaneSection, sideBody } from '../../../src/core/rigging/side-body.ts';
import { kinks, tailRootStation } from '../../../src/core/rigging/straightness.ts';
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
});
