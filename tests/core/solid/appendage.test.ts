import { describe, expect, test } from 'vitest';
import { isClosedSurface } from '../../../src/core/mesh/edges.ts';
import { massProperties, meshVolume } from '../../../src/core/mesh/mass-properties.ts';
import { sweepMesh, sweepOf, type AppendageTable } from '../../../src/core/solid/appendage.ts';

const mm = 1e-3;
const even = (size: number) => ({ root: size * mm, tip: size * mm });
const arm: AppendageTable = {
  name: 'arm',
  kind: 'arm',
  root: { at: 0 },
  length: 40 * mm,
  width: even(6),
};

test('a straight round arm is a cylinder with a half ball at its tip', () => {
  const error = (fineness: number) => {
    const mesh = sweepMesh(sweepOf(arm), 32 * fineness, 24 * fineness);
    expect(isClosedSurface(mesh)).toBe(true);
    return Math.abs(
      meshVolume(mesh) / (Math.PI * (3 * mm) ** 2 * 37 * mm + (2 / 3) * Math.PI * (3 * mm) ** 3) - 1,
    );
  };
  expect(Math.log2(error(1) / error(2))).toBeGreaterThan(1.9);
  expect(error(8)).toBeLessThan(3e-4);
});

// Pappus-Guldinus: a section carried square to the path of its centroid sweeps area × path, however it bends.
test.each([
  ['arm', 0],
  ['arm', 90],
  ['arm', -170],
  ['curl-tail', 120],
  ['curl-tail', 260],
] as const)('a %s bent by %d° keeps the volume of the straight one', (kind, degrees) => {
  const table = { ...arm, kind, length: 60 * mm, thickness: even(2) };
  const volume = (curl: number) => meshVolume(sweepMesh(sweepOf({ ...table, curl }), 32, 1500));
  expect(volume((degrees * Math.PI) / 180) / volume(0)).toBeCloseTo(1, 4);
});

test('it starts at its root, heads as told and is as long as told', () => {
  const sweep = sweepOf({
    ...arm,
    root: { at: 10 * mm, across: 2 * mm, up: 1 * mm },
    direction: Math.PI / 6,
  });
  expect(sweep.pointAt(0)).toEqual([10 * mm, 2 * mm, 1 * mm]);
  const tip = sweep.pointAt(40 * mm);
  expect(tip[0]).toBeCloseTo(10 * mm + 40 * mm * Math.cos(Math.PI / 6), 12);
  expect(tip[1]).toBeCloseTo(22 * mm, 12);
  expect(sweep.widthAt(0)).toBe(6 * mm);
  expect(sweep.widthAt(40 * mm)).toBe(0);
});

test('an arm that bends evenly is an arc of a circle', () => {
  const sweep = sweepOf({ ...arm, curl: Math.PI / 2 });
  const radius = (40 * mm) / (Math.PI / 2);
  const tip = sweep.pointAt(40 * mm);
  expect(tip[0]).toBeCloseTo(radius, 9);
  expect(tip[1]).toBeCloseTo(radius, 9);
});

test('a paddle that stands across is broad out of the parting plane and thin in it', () => {
  const paddle: AppendageTable = {
    ...arm,
    kind: 'paddle',
    length: 14 * mm,
    width: { root: 2.2 * mm, tip: 1.6 * mm },
    thickness: { root: 6 * mm, middle: 13 * mm, tip: 10 * mm },
  };
  const { box } = massProperties(sweepMesh(sweepOf(paddle), 48, 96));
  expect(box.max[2] - box.min[2]).toBeGreaterThan(12.5 * mm);
  expect(box.max[1] - box.min[1]).toBeCloseTo(2.2 * mm, 6);
  expect(box.max[0]).toBeCloseTo(14 * mm, 9);
});

const KINDS = ['curl-tail', 'ribbon-tail', 'paddle', 'arm', 'claw', 'leg', 'rib', 'fin'] as const;

test.each(KINDS)('a %s turns from its direction by its curl: tails with s², limbs evenly', (kind) => {
  const sweep = sweepOf({ ...arm, kind, direction: 0.3, curl: -0.8 });
  const half = kind.endsWith('tail') ? 0.25 : 0.5;
  expect(sweep.headingAt(0)).toBe(0.3);
  expect(sweep.headingAt(20 * mm)).toBeCloseTo(0.3 - 0.8 * half, 12);
  expect(sweep.headingAt(40 * mm)).toBeCloseTo(-0.5, 12);
});

test('limbs are round or rounder than tails, which are flat with round edges', () => {
  const roundness = (kind: AppendageTable['kind']) => sweepOf({ ...arm, kind }).roundness;
  for (const kind of KINDS) expect(roundness(kind)).toBeGreaterThanOrEqual(2);
  for (const limb of ['arm', 'leg', 'rib'] as const) expect(roundness(limb)).toBe(2);
  expect(roundness('curl-tail')).toBeGreaterThan(roundness('fin'));
  expect(roundness('ribbon-tail')).toBe(roundness('curl-tail'));
});

// Euler's spiral: heading s²; its points are the integrals of cos s² and sin s², here by the midpoint rule.
test('every point of a tail that curls more and more', () => {
  const sweep = sweepOf({
    ...arm,
    kind: 'curl-tail',
    root: { at: 2, across: 3, up: 4 },
    length: 1,
    width: even(10),
    curl: 1,
  });
  const integral = (f: (angle: number) => number, to: number) =>
    Array.from({ length: 4000 }, (_, i) => f(((to * (i + 0.5)) / 4000) ** 2)).reduce((a, b) => a + b) *
    (to / 4000);
  for (const s of [0.1, 0.333, 0.5, 0.777, 1]) {
    const [x, y, z] = sweep.pointAt(s);
    expect(x).toBeCloseTo(2 + integral(Math.cos, s), 6);
    expect(y).toBeCloseTo(3 + integral(Math.sin, s), 6);
    expect(z).toBe(4);
  }
});

test('sizes run from root over the middle to the tip and are rounded off there by a quarter ellipse', () => {
  const sweep = sweepOf({
    ...arm,
    width: { root: 8 * mm, tip: 4 * mm },
    thickness: { root: 2 * mm, middle: 5 * mm, tip: 3 * mm },
  });
  const widths = [0, 10, 20, 30, 38].map((s) => sweep.widthAt(s * mm) / mm);
  expect(widths).toEqual([8, 7, 6, 5, 4.2].map((width) => expect.closeTo(width, 9) as number));
  // Half way into a rounding of 4/2 mm: √(½ · 1½) of the taper's 4.1 mm; three quarters in: √(¼ · 1¾) of 4.05 mm.
  expect(sweep.widthAt(39 * mm) / mm).toBeCloseTo(4.1 * Math.sqrt(0.75), 9);
  expect(sweep.widthAt(39.5 * mm) / mm).toBeCloseTo(4.05 * Math.sqrt(0.4375), 9);
  expect(sweep.thicknessAt(0)).toBe(2 * mm);
  expect(sweep.thicknessAt(20 * mm)).toBe(5 * mm);
  expect(sweep.thicknessAt(38.5 * mm)).toBeGreaterThan(3 * mm);
  expect(sweep.thicknessAt(40 * mm)).toBe(0);
  expect(sweep.widthAt(40.1 * mm)).toBe(0);
});

test('left out, the thickness is the width', () => {
  const sweep = sweepOf({ ...arm, width: { root: 6 * mm, middle: 8 * mm, tip: 2 * mm } });
  for (const s of [0, 7, 20, 33, 39.5]) expect(sweep.thicknessAt(s * mm)).toBe(sweep.widthAt(s * mm));
});

test.each<[string, Partial<AppendageTable>, number]>([
  ['half the tip', {}, 3],
  ['half the larger of its two sizes', { thickness: { root: 6 * mm, tip: 10 * mm } }, 5],
  ['half the width where that is larger', { thickness: even(2) }, 3],
  ['half the length of a short one', { length: 4 * mm }, 2],
])('the tip is rounded over %s', (_, changes, rounding) => {
  expect(sweepOf({ ...arm, ...changes }).rounding).toBeCloseTo(rounding * mm, 12);
});

test('a point for a tip needs no rounding', () => {
  const sweep = sweepOf({ ...arm, width: { root: 6 * mm, tip: 0 } });
  expect(sweep.rounding).toBe(0);
  expect([20, 40].map((s) => sweep.widthAt(s * mm) / mm)).toEqual([expect.closeTo(3, 9), 0]);
});

test('the mesh of a straight arm, point by point', () => {
  // 8 points round, 2 steps to the tip's rounding, then 4 crowded as the sine of equal angles; heading along +y, so that
  // the section's width lies along −x.
  const table = { ...arm, root: { at: 1, across: 2, up: 3 }, direction: Math.PI / 2, length: 40 };
  const { positions } = sweepMesh(
    sweepOf({ ...table, width: { root: 6, tip: 6 }, thickness: { root: 4, tip: 4 } }),
    8,
    2,
  );
  const places = [0, 18.5, ...[0, 1, 2, 3].map((i) => 40 - 3 * (1 - Math.sin((i * Math.PI) / 8)))];
  const quarterEllipse = (t: number) => (t < 1 ? Math.sqrt(t * (2 - t)) : 1);
  const expected = places.flatMap((s) => {
    const [half, high] = [3 * quarterEllipse((40 - s) / 3), 2 * quarterEllipse((40 - s) / 2)];
    const c = Math.SQRT1_2;
    return [[1, 0], [c, c], [0, 1], [-c, c], [-1, 0], [-c, -c], [0, -1], [c, -c]].flatMap(([across, up]) => [1 - across! * half, 2 + s, 3 + up! * high]); // prettier-ignore
  });
  const near = (values: number[]) => values.map((value) => expect.closeTo(value, 6) as number);
  expect([...positions]).toEqual(near([...expected, 1, 42, 3, 1, 2, 3]));
});

test('the corners of every section lie exactly in its own plane', () => {
  const sweep = sweepOf({ ...arm, direction: 0, curl: 0 });
  const { positions } = sweepMesh(sweep, 16, 4);
  for (let row = 0; row + 16 <= positions.length / 3 - 2; row += 16) {
    expect([0, 8].map((i) => positions[3 * (row + i) + 2])).toEqual([0, 0]);
    expect([4, 12].map((i) => positions[3 * (row + i) + 1])).toEqual([0, 0]);
  }
});

// A bend is too tight where curvature × width is above 1.9: of an arm curl·width/length everywhere; of a tail that tapers to
// a point 2·curl·s/L² · w(1 − s/L), greatest half way, curl·w/(2L).
describe('the tightest bend', () => {
  const tapered = {
    ...arm,
    kind: 'curl-tail',
    width: { root: 60.82 * mm, tip: 0.001 * mm },
    curl: 2.5,
  } as const;
  test.each<[string, AppendageTable]>([
    ['an arm', { ...arm, length: 12 * mm, curl: 3.79 }],
    ['an arm that bends the other way', { ...arm, length: 12 * mm, curl: -3.79 }],
    ['a tail', { ...tapered, width: { ...tapered.width, root: 60.78 * mm } }],
  ])('%s', (_, table) => {
    expect(sweepOf(table).length).toBe(table.length);
  });
  test.each<[string, AppendageTable, string]>([
    ['an arm', { ...arm, length: 12 * mm, curl: 3.81 }, '6 mm of width on a radius of 3.15 mm'],
    [
      'an arm that bends the other way',
      { ...arm, length: 12 * mm, curl: -3.81 },
      '6 mm of width on a radius of 3.15 mm',
    ],
    ['a tail', tapered, '30.41 mm of width on a radius of 16 mm'],
  ])('but not %s', (_, table, sizes) => {
    expect(() => sweepOf(table)).toThrow(
      `${table.name}: wants a bend wider than the part itself, got ${sizes}; make it longer, narrower or less curled`,
    );
  });
});

// A whole turn of an arm 96 mm long, 4 mm wide: at 1 mm a station the first that lies within 4 mm of the root is the
// fourth from its end, at a chord of 96/π·sin(4π/96) = 3.99 mm.
test('a full circle meets its own root', () => {
  const circle = { ...arm, length: 96 * mm, width: even(4) };
  expect(() => sweepOf({ ...circle, curl: 2 * Math.PI })).toThrow(
    'arm: wants a middle line that stays clear of itself, got two turns 3.99 mm apart where 4 mm is needed; curl it less or make it longer',
  );
  // Bent by 300° its ends stay 96/(10π/6)·2·sin(π/6) = 18 mm apart.
  expect(sweepOf({ ...circle, curl: (-10 * Math.PI) / 6 }).length).toBe(96 * mm);
  expect(() => sweepOf({ ...circle, curl: -2 * Math.PI })).toThrow('stays clear of itself');
});

describe('refuses', () => {
  test('a bend tighter than the part is wide', () => {
    expect(() => sweepOf({ ...arm, curl: 16 })).toThrow('arm: wants a bend wider than the part itself');
  });
  test('a tail that runs into itself', () => {
    const tail = { ...arm, kind: 'curl-tail', length: 80 * mm, width: even(8), curl: 5.3 } as const;
    expect(() => sweepOf(tail)).not.toThrow();
    expect(() => sweepOf({ ...tail, curl: 9, width: even(4) })).toThrow('stays clear of itself');
  });
});
