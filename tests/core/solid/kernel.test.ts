import { describe, expect, test } from 'vitest';
import { isClosedSurface } from '../../../src/core/mesh/edges.ts';
import { meshSurface, meshVolume } from '../../../src/core/mesh/mass-properties.ts';
import type { Mesh } from '../../../src/core/mesh/mesh.ts';
import { bodyOf } from '../../../src/core/solid/body.ts';
import { loadKernel, type Solid } from '../../../src/core/solid/kernel.ts';
import { loft } from '../../../src/core/solid/loft.ts';

const kernel = await loadKernel();

const pill = (length: number, size: number): Mesh => {
  const stations = [0, length].map((at) => ({
    at,
    width: size,
    above: size / 2,
    below: size / 3,
    roundness: 2.3,
  }));
  return loft(bodyOf({ stations }), { around: 32, along: 16 });
};
const sorted = ({ positions }: Mesh): string[] =>
  Array.from({ length: positions.length / 3 }, (_, i) => positions.slice(3 * i, 3 * i + 3).join()).sort();

test('a mesh comes back with every corner to the last bit but the change of unit', () => {
  const mesh = pill(0.083, 0.0113);
  const back = kernel.work((shop) => shop.mesh(shop.solid(mesh)));
  const exact = Float64Array.from(mesh.positions, (value) => (value * 1e3) / 1e3);
  expect(sorted(back)).toEqual(sorted({ ...mesh, positions: exact }));
  expect(back.triangles.length).toBe(mesh.triangles.length);
});

test('union and difference add up, and own sums agree with the kernel to 1e-9', () => {
  const [a, b] = [pill(0.05, 0.012), pill(0.02, 0.009)];
  kernel.work((shop) => {
    const first = shop.solid(a);
    const second = shop.place(shop.solid(b), { turn: 0.9, shift: [0.03, 0.001, 0.002], mirrored: true });
    const union = shop.union([first, second]);
    const overlap = shop.volume(shop.intersection(first, second));
    expect(overlap).toBeGreaterThan(1e-7);
    expect(shop.volume(union) / (shop.volume(first) + shop.volume(second) - overlap) - 1).toBeCloseTo(0, 9);
    expect(shop.volume(shop.difference(first, [second])) / (shop.volume(first) - overlap) - 1).toBeCloseTo(
      0,
      9,
    );
    const mesh = shop.mesh(union);
    expect(isClosedSurface(mesh)).toBe(true);
    expect(meshVolume(mesh) / shop.volume(union) - 1).toBeCloseTo(0, 9);
    expect(meshSurface(mesh) / shop.surface(union) - 1).toBeCloseTo(0, 9);
  });
});

test('trimming at a plane splits a volume in two', () => {
  kernel.work((shop) => {
    const solid = shop.solid(pill(0.05, 0.012));
    const [above, below] = [shop.trim(solid, [0, 0, 1], 0.001), shop.trim(solid, [0, 0, -1], -0.001)];
    expect((shop.volume(above) + shop.volume(below)) / shop.volume(solid)).toBeCloseTo(1, 9);
    expect(Math.min(...sides(shop.mesh(above), 2))).toBeCloseTo(0.001, 12);
  });
});

const sides = ({ positions }: Mesh, axis: number): number[] =>
  Array.from({ length: positions.length / 3 }, (_, i) => positions[3 * i + axis]!);

test('mirroring and turning keep the volume and put the solid where it belongs', () => {
  kernel.work((shop) => {
    const block = shop.box([0.01, 0.002, -0.001], [0.03, 0.005, 0.004]);
    const placed = shop.place(block, { mirrored: true, turn: Math.PI / 2, shift: [0.1, 0, 0] });
    expect(shop.volume(placed)).toBeCloseTo(shop.volume(block), 15);
    // (x, y) goes to (0.1 + y, x): mirrored, then a quarter turn.
    expect(Math.min(...sides(shop.mesh(placed), 0))).toBeCloseTo(0.102, 12);
    expect(Math.max(...sides(shop.mesh(placed), 1))).toBeCloseTo(0.03, 12);
  });
});

test.each<[string, [number, number, number]]>([
  ['along x', [0.02, 0, 0]],
  ['upright', [0, 0, 0.02]],
  ['askew', [0.01, -0.02, 0.005]],
])('a frustum %s has the volume of its circles', (_, to) => {
  kernel.work((shop) => {
    const length = Math.hypot(...to);
    const volume = ((Math.PI * length) / 3) * (0.006 ** 2 + 0.006 * 0.003 + 0.003 ** 2);
    expect(shop.volume(shop.cone([0, 0, 0], to, [0.006, 0.003])) / volume).toBeCloseTo(1, 9);
  });
});

test('a solid is freed with the work that made it', () => {
  let kept: Solid | undefined;
  kernel.work((shop) => (kept = shop.box([0, 0, 0], [1, 1, 1])));
  expect(() => kernel.work((shop) => shop.volume(kept!))).toThrow(/deleted/u);
});

describe('refuses', () => {
  const good = pill(0.02, 0.006);
  const flipped = Uint32Array.from(good.triangles);
  for (let i = 0; i < flipped.length; i += 3) [flipped[i], flipped[i + 1]] = [flipped[i + 1]!, flipped[i]!];
  const torn = Float64Array.from(good.positions);
  torn[7] = NaN;
  test.each<[string, Mesh, string]>([
    ['an open mesh', { ...good, triangles: good.triangles.slice(3) }, 'its surface is open'],
    ['one that is inside out', { ...good, triangles: flipped }, 'it is empty or inside out'],
    ['a corner that is no number', { ...good, positions: torn }, 'a corner is not a finite number'],
  ])('%s', (_, mesh, reason) => {
    expect(() => kernel.work((shop) => shop.solid(mesh))).toThrow(
      `solid: wants a closed mesh wound outwards, got one the kernel refuses: ${reason}`,
    );
  });
});
