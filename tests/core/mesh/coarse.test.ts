import { describe, expect, test } from 'vitest';
import { coarseMesh } from '../../../src/core/mesh/coarse.ts';
import { isClosedSurface } from '../../../src/core/mesh/edges.ts';
import { massProperties, meshVolume } from '../../../src/core/mesh/mass-properties.ts';
import type { Mesh, Vec3 } from '../../../src/core/mesh/mesh.ts';
import { boxTree } from '../../../src/core/section/box-tree.ts';
import { nearest, nearestResult } from '../../../src/core/section/nearest.ts';
import { loadKernel } from '../../../src/core/solid/kernel.ts';
import { box, capsule, joined, mapped, torus, uvSphere } from '../../support/solids.ts';

const mm = 1e-3;
const um = 1e-6;
const count = ({ triangles }: Mesh): number => triangles.length / 3;

/** Distances of the corners of one mesh from the surface of another, rising [m]. */
function distances({ positions: p }: Mesh, other: Mesh): number[] {
  const tree = boxTree(other);
  return Array.from({ length: p.length / 3 }, (_, i) => {
    const found = nearestResult();
    nearest(tree, p[3 * i]!, p[3 * i + 1]!, p[3 * i + 2]!, found);
    return found.distance;
  }).sort((a, b) => a - b);
}

/** A box whose faces are cut into a grid of so many cells a side. */
function gridBox(size: Vec3, cells: number): Mesh {
  const points: Vec3[] = [];
  const rows = new Map<string, number>();
  const row = (point: Vec3): number => {
    const key = point.join();
    if (!rows.has(key)) {
      rows.set(key, points.length);
      points.push(point);
    }
    return rows.get(key)!;
  };
  const triangles: number[] = [];
  for (const axis of [0, 1, 2]) {
    for (const end of [0, cells]) {
      const at = (i: number, j: number): number => {
        const place = [0, 0, 0];
        [place[axis], place[(axis + 1) % 3], place[(axis + 2) % 3]] = [end, i, j];
        return row(place.map((step, k) => (step / cells) * size[k]!) as unknown as Vec3);
      };
      for (let i = 0; i < cells; i++) {
        for (let j = 0; j < cells; j++) {
          const [a, b, c, d] = [at(i, j), at(i + 1, j), at(i + 1, j + 1), at(i, j + 1)];
          triangles.push(...(end > 0 ? [a, b, c, a, c, d] : [a, c, b, a, d, c]));
        }
      }
    }
  }
  return { positions: Float64Array.from(points.flat()), triangles: Uint32Array.from(triangles) };
}

test('flat faces keep nothing but their corners', () => {
  const fine = gridBox([30 * mm, 20 * mm, 10 * mm], 20);
  expect(count(fine)).toBe(6 * 2 * 400);
  const coarse = coarseMesh(fine, um);
  expect(count(coarse)).toBe(12);
  expect(meshVolume(coarse)).toBeCloseTo(6000 * mm ** 3, 18);
  expect(isClosedSurface(coarse)).toBe(true);
});

const BODIES: [string, Mesh][] = [
  ['a ball', uvSphere(6 * mm, 128, 256)],
  ['a capsule', capsule(4 * mm, 60 * mm, 64, 128)],
  ['a ring', torus(20 * mm, 3 * mm, 512, 192)],
  [
    'a bar with ribs of 0.2 mm',
    mapped(capsule(4 * mm, 40 * mm, 400, 96), ([x, y, z]) => {
      const swell = 1 + 0.05 * Math.sin((2 * Math.PI * x) / (3 * mm));
      return [x, y * swell, z * swell];
    }),
  ],
];

describe.each(BODIES)('%s', (_, fine) => {
  test.each([5, 10, 20])('within %i µm', async (within) => {
    const coarse = coarseMesh(fine, within * um);
    expect(count(coarse)).toBeLessThan(0.5 * count(fine));
    expect(isClosedSurface(coarse)).toBe(true);
    const off = distances(fine, coarse);
    const square = off.reduce((sum, distance) => sum + distance ** 2, 0) / off.length;
    expect(Math.sqrt(square)).toBeLessThan(within * um);
    expect(off.at(-1)).toBeLessThan(3 * within * um);
    // Its corners are corners of the fine mesh.
    expect(distances(coarse, fine).at(-1)).toBeLessThan(1e-12);
    const { volume, surface } = massProperties(fine);
    expect(Math.abs(meshVolume(coarse) - volume)).toBeLessThan(within * um * surface);
    const kernel = await loadKernel();
    const kept = kernel.work((shop) => shop.volume(shop.solid(coarse)));
    expect(kept / meshVolume(coarse)).toBeCloseTo(1, 9);
  });

  test('the looser, the fewer triangles', () => {
    const counts = [2, 5, 10, 20, 40].map((within) => count(coarseMesh(fine, within * um)));
    expect(counts).toEqual([...counts].sort((a, b) => b - a));
    expect(counts.at(-1)).toBeLessThan(0.5 * counts[0]!);
  });
});

test('a pimple of 0.1 mm on a large flat face stays', () => {
  const fine = mapped(gridBox([30 * mm, 20 * mm, 10 * mm], 200), ([x, y, z]) => {
    const away = Math.hypot(x - 15 * mm, y - 10 * mm) / (0.5 * mm);
    return [x, y, z >= 10 * mm && away < 1 ? z + 0.1 * mm * (1 - away) : z];
  });
  const coarse = coarseMesh(fine, 10 * um);
  expect(count(coarse)).toBeLessThan(200);
  expect(massProperties(coarse).box.max[2]).toBeCloseTo(10.1 * mm, 9);
  expect(distances(fine, coarse).at(-1)).toBeLessThan(30 * um);
});

test('nothing is taken from what has no corner to spare, and bodies stay apart', () => {
  const plain = box([10 * mm, 10 * mm, 10 * mm]);
  expect(count(coarseMesh(plain, um))).toBe(12);
  const two = joined(gridBox([10 * mm, 10 * mm, 10 * mm], 8), box([mm, mm, mm], [20 * mm, 0, 0]));
  const coarse = coarseMesh(two, um);
  expect(count(coarse)).toBe(24);
  expect(meshVolume(coarse)).toBeCloseTo(1001 * mm ** 3, 18);
});

test('a tetrahedron smaller than the limit stays a body', () => {
  const tiny: Mesh = {
    positions: Float64Array.from([0, 0, 0, um, 0, 0, 0, um, 0, 0, 0, um]),
    triangles: Uint32Array.from([0, 2, 1, 0, 1, 3, 1, 2, 3, 0, 3, 2]),
  };
  const coarse = coarseMesh(tiny, mm);
  expect(count(coarse)).toBe(4);
  expect(isClosedSurface(coarse)).toBe(true);
});

test('the mesh that is given stays as it is', () => {
  const fine = uvSphere(6 * mm, 24, 48);
  const before = { positions: fine.positions.slice(), triangles: fine.triangles.slice() };
  coarseMesh(fine, 20 * um);
  expect(fine).toEqual(before);
});
