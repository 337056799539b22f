import { describe, expect, test } from 'vitest';
import { isClosedSurface } from '../../../src/core/mesh/edges.ts';
import { massProperties, meshVolume } from '../../../src/core/mesh/mass-properties.ts';
import { measureBait } from '../../../src/core/section/measure.ts';
import { sweepMesh, sweepOf, type AppendageTable } from '../../../src/core/solid/appendage.ts';
import { baitSolid, type BaitTable } from '../../../src/core/solid/bait.ts';
import { bodyOf } from '../../../src/core/solid/body.ts';
import { loadKernel } from '../../../src/core/solid/kernel.ts';
import { loft } from '../../../src/core/solid/loft.ts';

const mm = 1e-3;
const stations = [
  [0, 6, 6],
  [15, 10, 9],
  [40, 8, 7],
  [60, 4, 2],
].map(([at = 0, width = 0, height = 0]) => ({
  at: at * mm,
  width: width * mm,
  above: (height / 2) * mm,
  below: (height / 2) * mm,
  roundness: 2,
}));
const tail: AppendageTable = {
  name: 'tail',
  kind: 'curl-tail',
  root: { at: 52 * mm },
  direction: -0.2,
  length: 50 * mm,
  width: { root: 4 * mm, middle: 7 * mm, tip: 3 * mm },
  thickness: { root: 2 * mm, tip: 1.2 * mm },
  curl: 4,
};
const leg: AppendageTable = {
  name: 'leg',
  kind: 'leg',
  root: { at: 20 * mm, across: 2 * mm },
  direction: 1.1,
  length: 18 * mm,
  width: { root: 3 * mm, tip: 1.6 * mm },
  curl: -0.5,
  mirrored: true,
};
const ribs: AppendageTable = {
  name: 'ribs',
  kind: 'rib',
  root: { at: 10 * mm },
  length: 0.5 * mm,
  width: { root: 1.6 * mm, tip: 0.8 * mm },
  count: 4,
  pitch: 2.5 * mm,
};
const table: BaitTable = { stations, appendages: [tail, leg, ribs] };
const COARSE = { around: 32, along: 40 };

test('one closed body: nose at x = 0, the same above and below the parting plane', async () => {
  const { mesh } = await baitSolid(table, COARSE);
  const { box, volume, centroid } = massProperties(mesh);
  expect(isClosedSurface(mesh)).toBe(true);
  expect(volume).toBeGreaterThan(0);
  expect(box.min[0]).toBe(0);
  expect(box.max[2]).toBeCloseTo(-box.min[2], 12);
  expect(centroid[2]).toBeCloseTo(0, 9);
});

// Appendages have half the points of the body's sections round, in whole fours, and never fewer than 16.
test.each([
  [16, 16],
  [32, 16],
  [36, 20],
  [64, 32],
])('parts add up: the whole is the sum less what they share, at %d points round', async (around, points) => {
  const bait: BaitTable = { stations, appendages: [tail] };
  const resolution = { around, along: 40 };
  const whole = meshVolume((await baitSolid(bait, resolution)).mesh);
  const kernel = await loadKernel();
  const [body, limb, shared] = kernel.work((shop) => {
    const parts = [loft(bodyOf(bait), resolution), sweepMesh(sweepOf(tail), points)].map((mesh) =>
      shop.solid(mesh),
    );
    return [...parts.map(shop.volume), shop.volume(shop.intersection(parts[0]!, parts[1]!))];
  });
  expect(shared).toBeGreaterThan(0);
  expect(whole / (body! + limb! - shared!) - 1).toBeCloseTo(0, 9);
});

test('the mirrored bait has the same volume', async () => {
  const mirrored = { ...tail, direction: 0.2, curl: -4 };
  const [one, other] = await Promise.all(
    [tail, mirrored].map(async (own) =>
      meshVolume((await baitSolid({ stations, appendages: [own] }, COARSE)).mesh),
    ),
  );
  expect(one! / other! - 1).toBeCloseTo(0, 9);
});

test('without appendages it is the loft itself', async () => {
  const { mesh, features } = await baitSolid({ stations }, COARSE);
  expect(mesh).toEqual(loft(bodyOf({ stations }), COARSE));
  expect(features).toEqual([]);
});

test('with ribs alone it is the loft of a body with rings', async () => {
  const rings = Array.from({ length: 4 }, (_, i) => ({
    at: (10 + 2.5 * i) * mm,
    proud: 0.5 * mm,
    root: 1.6 * mm,
    crown: 0.8 * mm,
  }));
  const { mesh } = await baitSolid({ stations, appendages: [ribs] }, COARSE);
  expect(mesh).toEqual(loft(bodyOf({ stations, rings }), COARSE));
});

test('features: their middle line from the surface of the body to the tip, with the drawn sizes', async () => {
  const { features } = await baitSolid(table, COARSE);
  expect(features.map(({ name, copies }) => [name, copies])).toEqual([
    ['tail', 1],
    ['leg', 2],
    ['ribs', 4],
  ]);
  const [drawnTail, , drawnRibs] = features;
  expect(drawnTail!.middleLine[0]![0]).toBeCloseTo(60 * mm, 3);
  expect(drawnTail!.profile.at(-1)!.s).toBeLessThan(50 * mm);
  expect(drawnRibs!.profile[0]!.width).toBeCloseTo(1.6 * mm, 9);
  expect(drawnRibs!.profile.at(-1)!.width).toBeCloseTo(0.8 * mm, 9);
});

test('what is measured on the solid is what was drawn', async () => {
  const { mesh, features } = await baitSolid({ stations, appendages: [tail, leg] });
  const measured = (await measureBait(mesh, features)).features;
  for (const [i, { rootThickness, tipThickness }] of measured.entries()) {
    const { thickness, width } = [tail, leg][i]!;
    const sizes = thickness ?? width;
    expect(tipThickness).toBeGreaterThan(sizes.tip * 0.95);
    expect(tipThickness).toBeLessThan(sizes.root);
    expect(rootThickness).toBeGreaterThan(tipThickness);
  }
});

/** A bar 60 mm long, 10 mm wide, 4 mm above and 3 mm below its middle, with flat ends. */
const bar: BaitTable = {
  stations: [0, 60].map((at) => ({
    at: at * mm,
    width: 10 * mm,
    above: 4 * mm,
    below: 3 * mm,
    roundness: 3,
  })),
  noseRounding: 0,
  tailRounding: 0,
};
const fin: AppendageTable = {
  name: 'fin',
  kind: 'fin',
  root: { at: 30 * mm },
  direction: Math.PI / 2,
  length: 21 * mm,
  width: { root: 4 * mm, tip: 2 * mm },
  thickness: { root: 2.5 * mm, tip: 1.5 * mm },
};
const drawn = async (appendage: AppendageTable, body = bar) =>
  (await baitSolid({ ...body, appendages: [appendage] }, { around: 16, along: 4 })).features[0]!;

// Where |y/a|³ + |z/b|³ = 1 is first passed, looked for in 400 steps of the length: 21/400 = 0.0525 mm.
test.each<[string, number, number]>([
  ['in the parting plane', 0, 5],
  ['2 mm above it', 2, 5 * Math.cbrt(1 - 1 / 8)],
  ['2 mm below it', -2, 5 * Math.cbrt(1 - 8 / 27)],
])('a fin %s begins where it leaves the body', async (_, up, across) => {
  const { middleLine, profile } = await drawn({ ...fin, root: { at: 30 * mm, up: up * mm } });
  const exit = Math.ceil(across / 0.0525) * 0.0525;
  const near = (value: number): number => expect.closeTo(value, 9) as number;
  const lengths = Array.from({ length: 49 }, (_, i) => ((21 - exit) * i) / 48);
  expect(middleLine).toEqual(lengths.map((s) => [near(30 * mm), near((exit + s) * mm), up * mm]));
  // Straight tapers up to the roundings of the tip over half of each size.
  const straight = lengths.slice(0, -5);
  expect(profile.slice(0, -5)).toEqual(
    straight.map((s) => ({
      s: near(s * mm),
      width: near((4 - (2 * (exit + s)) / 21) * mm),
      thickness: near((2.5 - (exit + s) / 21) * mm),
    })),
  );
  expect(profile).toHaveLength(49);
});

test('one that points straight back begins where the body ends', async () => {
  const { middleLine } = await drawn({ ...fin, root: { at: 50 * mm }, direction: 0 });
  expect(middleLine[0]![0]).toBeCloseTo((50 + Math.ceil(10 / 0.0525) * 0.0525) * mm, 9);
});

test.each<[string, AppendageTable, BaitTable]>([
  ['never leaves the body', { ...fin, length: 4 * mm, direction: 0 }, bar],
  ['starts outside it', { ...fin, root: { at: 30 * mm, up: 4.5 * mm } }, bar],
  [
    'starts in a flat side’s own plane and runs along it',
    { ...fin, length: 4 * mm, direction: 0 },
    { ...bar, stations: bar.stations.map((station) => ({ ...station, below: 0 })) },
  ],
  [
    'starts under a flat side',
    { ...fin, root: { at: 30 * mm, up: -0.5 * mm } },
    { ...bar, stations: bar.stations.map((station) => ({ ...station, below: 0 })) },
  ],
])('one that %s is drawn from its root', async (_, appendage, body) => {
  const { middleLine } = await drawn(appendage, body);
  const { at, up = 0 } = appendage.root;
  expect(middleLine[0]).toEqual([at, 0, up]);
});

test('on a body with a flat side it begins where it leaves the side’s edge', async () => {
  const flat = { ...bar, stations: bar.stations.map((station) => ({ ...station, below: 0 })) };
  expect((await drawn(fin, flat)).middleLine[0]![1]).toBeCloseTo(Math.ceil(5 / 0.0525) * 0.0525 * mm, 9);
});

// A rib's flank is half a cosine from its crown to its root: at the share t of its height it is
// crown + (root − crown)·acos(2t − 1)/π long.
test('a rib is measured across, from the body’s surface to its crown', async () => {
  const { middleLine, profile, copies } = await drawn({ ...ribs, root: { at: 30 * mm }, mirrored: true });
  const near = (value: number): number => expect.closeTo(value, 12) as number;
  const shares = Array.from({ length: 49 }, (_, i) => i / 48);
  expect(middleLine).toEqual(shares.map((t) => [30 * mm, near((5 + 0.5 * t) * mm), 0]));
  expect(profile).toEqual(
    shares.map((t) => ({
      s: near(0.5 * t * mm),
      width: near((0.8 + (0.8 * Math.acos(2 * t - 1)) / Math.PI) * mm),
      thickness: near(8 * mm),
    })),
  );
  expect(copies).toBe(4);
});

test('a row of limbs stands at its pitch, each with its mirror image', async () => {
  const limb = { ...fin, kind: 'leg', count: 2, pitch: 8 * mm } as const;
  const resolution = { around: 16, along: 4 };
  const row = await baitSolid({ ...bar, appendages: [{ ...limb, mirrored: true }] }, resolution);
  expect(row.features[0]!.copies).toBe(4);
  const singles = [0, 8].flatMap((off) =>
    [1, -1].map((side) => ({
      ...fin,
      kind: 'leg' as const,
      root: { at: (30 + off) * mm },
      direction: (side * Math.PI) / 2,
    })),
  );
  const same = await baitSolid({ ...bar, appendages: singles }, resolution);
  expect(meshVolume(row.mesh) / meshVolume(same.mesh)).toBeCloseTo(1, 9);
  const [a, b] = [row, same].map(({ mesh }) => massProperties(mesh));
  for (const end of ['min', 'max'] as const)
    a!.box[end].forEach((side, axis) => expect(side).toBeCloseTo(b!.box[end][axis]!, 9));
  // One side only: half of what the limbs add.
  const half = await baitSolid({ ...bar, appendages: [limb] }, resolution);
  const body = meshVolume(loft(bodyOf(bar), resolution));
  expect((meshVolume(half.mesh) - body) / (meshVolume(row.mesh) - body)).toBeCloseTo(0.5, 6);
  expect(half.features[0]!.copies).toBe(2);
});

test('ribs as close as they are wide are taken, one alone needs no pitch', async () => {
  const close = { ...ribs, count: 2, pitch: 1.6 * mm };
  expect((await drawn(close)).copies).toBe(2);
  const { mesh } = await baitSolid({ ...bar, appendages: [close] }, COARSE);
  const single = (at: number): AppendageTable => ({
    name: 'rib',
    kind: 'rib',
    root: { at: at * mm },
    length: ribs.length,
    width: ribs.width,
  });
  const both = await baitSolid({ ...bar, appendages: [single(10), single(11.6)] }, COARSE);
  expect(meshVolume(both.mesh) / meshVolume(mesh)).toBeCloseTo(1, 9);
  expect(both.features.map(({ copies }) => copies)).toEqual([1, 1]);
});

describe('refuses', () => {
  test.each<[string, BaitTable, string]>([
    [
      'an appendage that does not touch the body',
      { stations, appendages: [{ ...leg, root: { at: 20 * mm, across: 20 * mm } }] },
      'leg: wants a root inside the body, got one that does not touch it',
    ],
    [
      'a mirror image that does not touch it',
      { stations, appendages: [{ ...leg, root: { at: 20 * mm, up: 30 * mm } }] },
      'does not touch it',
    ],
    [
      'an appendage ahead of the nose',
      { stations, appendages: [{ ...leg, root: { at: 3 * mm }, direction: Math.PI, curl: 0 }] },
      'wants every distance measured from its foremost point, got an appendage 15 mm ahead of the nose',
    ],
    [
      'ribs closer than they are wide',
      { stations, appendages: [{ ...ribs, pitch: 1 * mm }] },
      "ribs: wants a pitch of at least the ribs' own 1.6 mm, got 1 mm",
    ],
    [
      'a row of ribs without a pitch',
      { stations, appendages: [{ ...ribs, pitch: undefined }] },
      "ribs: wants a pitch of at least the ribs' own 1.6 mm, got 0 mm",
    ],
    // A leg bent back to the flank, roofed and floored by two fins: air no metal can reach.
    [
      'a hollow',
      {
        ...bar,
        appendages: [
          {
            ...fin,
            name: 'loop',
            kind: 'leg',
            root: { at: 34 * mm, across: 4 * mm },
            length: 4 * Math.PI * mm,
            width: { root: 3 * mm, tip: 3 * mm },
            thickness: { root: 4.5 * mm, tip: 4.5 * mm },
            curl: Math.PI,
          },
          ...[2, -2].map((up) => ({
            ...fin,
            root: { at: 30 * mm, up: up * mm },
            width: { root: 22 * mm, tip: 22 * mm },
            thickness: { root: 2 * mm, tip: 2 * mm },
          })),
        ],
      },
      'bait: wants one body, got 2',
    ],
    [
      'stations out of order',
      { stations: [stations[0]!, stations[2]!, stations[1]!] },
      'wants each further from the nose',
    ],
  ])('%s', async (_, bait, message) => {
    await expect(baitSolid(bait, COARSE)).rejects.toThrow(message);
  });
});
