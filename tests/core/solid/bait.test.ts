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

test('parts add up: the whole is the sum less what they share', async () => {
  const bait: BaitTable = { stations, appendages: [tail] };
  const whole = meshVolume((await baitSolid(bait, COARSE)).mesh);
  const kernel = await loadKernel();
  const [body, limb, shared] = kernel.work((shop) => {
    const parts = [loft(bodyOf(bait), COARSE), sweepMesh(sweepOf(tail), 16)].map(shop.solid);
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
      'ribs: wants a pitch of at least the ribs',
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
