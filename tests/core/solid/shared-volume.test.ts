import { expect, test } from 'vitest';
import { placedMesh } from '../../../src/core/mesh/placement.ts';
import { meshVolume } from '../../../src/core/mesh/mass-properties.ts';
import { loadKernel } from '../../../src/core/solid/kernel.ts';
import { meshFromBlock, meshInBlock } from '../../../src/core/solid/plan.ts';
import { sharedVolumes } from '../../../src/core/solid/shared-volume.ts';
import { box, ellipsoid, flipped, joined, uvSphere } from '../../support/solids.ts';

// Lengths in millimetres: the function does not care.
const slab = box([20, 10, 8], [0, -5, -4]);

test('boxes that overlap share a box', () => {
  const bars = [
    box([6, 4, 2], [-2, -2, -1]), // 4 mm of it inside
    box([6, 4, 2], [-2, 3, -1]), // two of its 4 mm of width inside
    box([6, 4, 2], [-2, -2, 3]), // one of its 2 mm of height inside
    box([6, 4, 20], [-2, -2, -10]), // right through
    box([6, 4, 2], [5, -2, -1]), // all inside
    box([6, 4, 2], [-7, -2, -1]), // beside it
    box([6, 4, 2], [2, -2, 5]), // above it
    box([6, 4, 2], [2, -2, -7]), // below it
  ];
  const wanted = [4 * 4 * 2, 4 * 2 * 2, 4 * 4, 4 * 4 * 8, 6 * 4 * 2, 0, 0, 0];
  const shared = sharedVolumes(slab)(bars);
  expect(shared).toEqual(wanted.map((volume) => expect.closeTo(volume, 10) as number));
  expect(sharedVolumes(slab)([])).toEqual([]);
});

test('a bar with a hole in it, in two pieces', () => {
  const hollow = joined(box([10, 4, 2], [2, -2, -1]), flipped(box([2, 2, 1], [4, -1, -0.5])));
  const pieces = joined(box([3, 4, 2], [-1, -2, -1]), box([3, 4, 2], [18, -2, -1]));
  const shared = sharedVolumes(slab)([hollow, pieces]);
  expect(shared[0]).toBeCloseTo(10 * 4 * 2 - 2 * 2, 10);
  expect(shared[1]).toBeCloseTo(4 * 4 * 2, 10);
});

test('of a hollow body the hollow is not shared', () => {
  const shell = joined(box([20, 10, 8], [0, -5, -4]), flipped(box([10, 6, 4], [5, -3, -2])));
  // Half of the bar lies in the hollow, at half of its depth.
  expect(sharedVolumes(shell)([box([10, 2, 4], [0, -1, 0])])[0]).toBeCloseTo(10 * 2 * 4 - 5 * 2 * 2, 10);
});

test('a ball and a slab share a cap: π·h²·(R − h/3)', () => {
  const radius = 5;
  const ball = uvSphere(radius, 120, 240);
  const height = 2;
  const cap = Math.PI * height ** 2 * (radius - height / 3);
  const slice = box([20, 20, 10], [-10, -10, radius - height]);
  expect(sharedVolumes(ball)([slice])[0]! / cap).toBeCloseTo(1, 2);
  // The two sides of a level share the whole ball, to rounding.
  const below = box([20, 20, 20], [-10, -10, radius - height - 20]);
  const both = sharedVolumes(ball)([slice, below]).reduce((sum, part) => sum + part);
  expect(both / meshVolume(ball)).toBeCloseTo(1, 12);
});

test('turned bars and a curved body: as the kernel has it', async () => {
  const body = ellipsoid([0.03, 0.008, 0.005], 40, 48);
  const bar = box([0.01, 0.004, 0.003], [-0.004, -0.002, -0.001]);
  const kernel = await loadKernel();
  for (const [x, y, turn] of [
    [0.03, 0, 0.3],
    [-0.025, 0.002, 2],
    [0.01, 0.007, -1],
  ] as const) {
    const turned = placedMesh(
      bar,
      [
        [Math.cos(turn), -Math.sin(turn), 0],
        [Math.sin(turn), Math.cos(turn), 0],
        [0, 0, 1],
      ],
      [x, y, 0],
    );
    const wanted = kernel.work((shop) =>
      shop.volume(shop.intersection(shop.solid(body), shop.solid(turned))),
    );
    expect(wanted).toBeGreaterThan(1e-9);
    expect(sharedVolumes(body)([turned])[0]! / wanted).toBeCloseTo(1, 8);
    // As seen from a bait that lies mirrored and askew in a block.
    const lie = { x: 0.08, y: 0.05, turn: 0.7, mirrored: true };
    const back = meshFromBlock(meshInBlock(turned, lie), lie);
    expect(sharedVolumes(body)([back])[0]! / wanted).toBeCloseTo(1, 8);
  }
});
