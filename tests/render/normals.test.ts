import { expect, test } from 'vitest';
import type { Mesh } from '../../src/core/mesh/mesh.ts';
import { normalsOf } from '../../src/render/normals.ts';
import { box, uvSphere } from '../support/solids.ts';

const degrees = Math.PI / 180;

/** Normals of every corner of every face, one after another. */
function cornerNormals(mesh: Mesh, crease: number): Float32Array {
  const { rows, corners } = normalsOf(mesh, crease);
  return Float32Array.from([...corners].flatMap((row) => [...rows.subarray(3 * row, 3 * row + 3)]));
}

test('a sphere is smooth: every corner faces straight out', () => {
  const sphere = uvSphere(2, 24, 48);
  const normals = cornerNormals(sphere, 40 * degrees);
  sphere.triangles.forEach((point, corner) => {
    let straight = 0;
    for (let axis = 0; axis < 3; axis++) {
      straight += (normals[3 * corner + axis]! * sphere.positions[3 * point + axis]!) / 2;
    }
    expect(straight).toBeGreaterThan(Math.cos(1 * degrees));
  });
});

test('a box keeps its edges: every corner of a face faces as the face does', () => {
  const normals = cornerNormals(box([1, 2, 3]), 40 * degrees);
  for (let corner = 0; corner < normals.length; corner += 3) {
    const parts = [...normals.subarray(corner, corner + 3)].map(Math.abs).sort();
    expect(parts).toEqual([0, 0, 1]);
  }
});

test('angles count, not numbers of triangles: with no creases the corners of a cube face along its diagonals', () => {
  const cube = box([2, 2, 2], [-1, -1, -1]);
  const normals = cornerNormals(cube, 120 * degrees);
  cube.triangles.forEach((point, corner) => {
    for (let axis = 0; axis < 3; axis++) {
      expect(normals[3 * corner + axis]).toBeCloseTo(cube.positions[3 * point + axis]! / Math.sqrt(3), 6);
    }
  });
});
