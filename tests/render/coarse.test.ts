import { describe, expect, test } from 'vitest';
import { meshBox, meshVolume } from '../../src/core/mesh/mass-properties.ts';
import type { Mesh } from '../../src/core/mesh/mesh.ts';
import { coarse } from '../../src/render/coarse.ts';
import { normalsOf } from '../../src/render/normals.ts';
import { capsule, uvSphere } from '../support/solids.ts';

const coarsened = (mesh: Mesh, edge: number) => coarse(mesh, normalsOf(mesh, 0.6).rows, edge);
const faces = ({ triangles }: Mesh) => triangles.length / 3;

describe.each([
  ['a sphere', uvSphere(5, 150, 300)],
  ['a rod', capsule(2, 60, 40, 400)],
])('%s', (_, mesh) => {
  const edge = 0.1;
  const few = coarsened(mesh, edge);

  test('is left with few triangles', () => {
    expect(faces(few)).toBeLessThan(faces(mesh) / 4);
  });

  test('stays closed: every edge is passed once each way', () => {
    const passed = new Map<string, number>();
    few.triangles.forEach((from, corner) => {
      const to = few.triangles[corner % 3 === 2 ? corner - 2 : corner + 1]!;
      const key = from < to ? `${from} ${to}` : `${to} ${from}`;
      passed.set(key, (passed.get(key) ?? 0) + (from < to ? 1 : -1));
    });
    expect([...passed.values()].filter((sum) => sum !== 0)).toEqual([]);
  });

  test('keeps its extents within half of the smallest cell, and its volume', () => {
    const [before, after] = [meshBox(mesh), meshBox(few)];
    for (const axis of [0, 1, 2] as const) {
      expect(Math.abs(after.min[axis] - before.min[axis])).toBeLessThan(edge / 2);
      expect(Math.abs(after.max[axis] - before.max[axis])).toBeLessThan(edge / 2);
    }
    expect(Math.abs(meshVolume(few) / meshVolume(mesh) - 1)).toBeLessThan(0.02);
  });
});

test('a plate a few cells thick does not close up', () => {
  const plate = (thickness: number): Mesh => {
    const sphere = uvSphere(5, 60, 120);
    return { ...sphere, positions: sphere.positions.map((v, i) => (i % 3 === 2 ? (v * thickness) / 10 : v)) };
  };
  const thick = coarsened(plate(1), 0.2);
  expect(Math.abs(meshVolume(thick) / meshVolume(plate(1)) - 1)).toBeLessThan(0.1);
});

test('a mesh whose cells hold one point each stays as it is', () => {
  const sphere = uvSphere(5, 12, 24);
  expect(coarsened(sphere, 1e-3).triangles).toHaveLength(sphere.triangles.length);
});
