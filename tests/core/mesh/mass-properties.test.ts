import { describe, expect, test } from 'vitest';
import {
  inertiaTensor,
  massProperties,
  meshBox,
  meshSurface,
  meshVolume,
  momentsAbout,
} from '../../../src/core/mesh/mass-properties.ts';
import { box, flipped, meshOf, uvSphere } from '../../support/solids.ts';

// Closed forms of elementary solids; formulas of the sums after Mirtich, J. Graphics Tools 1(2), 1996, 31-50.

const near = (value: number, expected: number, relative: number, absolute = 0) => {
  expect(Math.abs(value - expected)).toBeLessThanOrEqual(relative * Math.abs(expected) + absolute);
};

const octahedron = meshOf(
  [
    [1, 0, 0],
    [-1, 0, 0],
    [0, 1, 0],
    [0, -1, 0],
    [0, 0, 1],
    [0, 0, -1],
  ],
  [
    [0, 2, 4],
    [2, 1, 4],
    [1, 3, 4],
    [3, 0, 4],
    [2, 0, 5],
    [1, 2, 5],
    [3, 1, 5],
    [0, 3, 5],
  ],
);

test('unit cube: V 1, A 6, centroid 1/2, I 1/6 about the centroid and 2/3 about the corner, ∫xy 1/4', () => {
  const cube = massProperties(box([1, 1, 1]));
  near(cube.volume, 1, 0, 1e-12);
  near(cube.surface, 6, 0, 1e-12);
  for (const value of cube.centroid) near(value, 0.5, 0, 1e-12);
  near(inertiaTensor(cube.moments, 1).xx, 1 / 6, 0, 1e-12);
  const corner = momentsAbout(cube, [0, 0, 0]);
  near(corner.xy, 1 / 4, 0, 1e-12);
  near(inertiaTensor(corner, 1).xx, 2 / 3, 0, 1e-12);
});

test('corner tetrahedron: V 1/6, ∫x² 1/60, ∫xy 1/120, Ixx 1/30 about the corner and 1/80 about the centroid', () => {
  const tetrahedron = massProperties(
    meshOf(
      [
        [0, 0, 0],
        [1, 0, 0],
        [0, 1, 0],
        [0, 0, 1],
      ],
      [
        [0, 2, 1],
        [0, 1, 3],
        [0, 3, 2],
        [1, 2, 3],
      ],
    ),
  );
  const corner = momentsAbout(tetrahedron, [0, 0, 0]);
  near(tetrahedron.volume, 1 / 6, 0, 1e-14);
  near(tetrahedron.surface, 1.5 + Math.sqrt(3) / 2, 0, 1e-14);
  near(tetrahedron.centroid[0], 1 / 4, 0, 1e-14);
  near(corner.xx, 1 / 60, 0, 1e-14);
  near(corner.xy, 1 / 120, 0, 1e-14);
  near(inertiaTensor(corner, 1).xx, 1 / 30, 0, 1e-14);
  near(inertiaTensor(tetrahedron.moments, 1).xx, 1 / 80, 0, 1e-14);
});

test('box 2×3×4 at (10, -5, 7): V 24, A 52, centroid (11, -3.5, 9), I (50, 40, 26)', () => {
  const solid = massProperties(box([2, 3, 4], [10, -5, 7]));
  const inertia = inertiaTensor(solid.moments, 1);
  near(solid.volume, 24, 1e-10);
  near(solid.surface, 52, 1e-10);
  [11, -3.5, 9].forEach((value, axis) => near(solid.centroid[axis]!, value, 1e-10));
  near(inertia.xx, 50, 1e-10);
  near(inertia.yy, 40, 1e-10);
  near(inertia.zz, 26, 1e-10);
  expect(solid.box).toEqual({ min: [10, -5, 7], max: [12, -2, 11] });
});

test('octahedron: V 4/3, A 4√3, I 4/15; turned over: V -4/3', () => {
  const solid = massProperties(octahedron);
  near(solid.volume, 4 / 3, 1e-12);
  near(solid.surface, 4 * Math.sqrt(3), 1e-12);
  near(inertiaTensor(solid.moments, 1).xx, 4 / 15, 1e-12);
  near(meshVolume(flipped(octahedron)), -4 / 3, 1e-12);
});

test('products of inertia carry the sign of the tensor', () => {
  const inertia = inertiaTensor(momentsAbout(massProperties(box([1, 1, 1])), [0, 0, 0]), 2);
  near(inertia.xy, -1 / 2, 1e-12);
});

/** Volume and surface of a latitude-longitude sphere of radius 1: its bands are frusta of regular polygons. */
function polygonFrusta(bands: number, segments: number) {
  const half = Math.PI / segments;
  let volume = 0;
  let surface = 0;
  for (let band = 0; band < bands; band++) {
    const [upper, lower] = [(Math.PI * band) / bands, (Math.PI * (band + 1)) / bands];
    const [r, R, h] = [Math.sin(upper), Math.sin(lower), Math.cos(upper) - Math.cos(lower)];
    volume += (segments * Math.sin(2 * half) * h * (r * r + r * R + R * R)) / 6;
    surface += segments * Math.sin(half) * (r + R) * Math.hypot(h, (R - r) * Math.cos(half));
  }
  return { volume, surface };
}

// Printed shares of the exact sphere, the same closed form summed in another program to ten digits.
const UV_SPHERES = [
  { bands: 8, segments: 16, volume: 3.9265963891112725, surface: 12.166689438554322 },
  { bands: 16, segments: 32, volume: 4.121941740785845, surface: 12.465694088650551 },
  { bands: 32, segments: 64, volume: 4.1719957618693435, surface: 12.541153640034302 },
  { bands: 64, segments: 128, volume: 4.184586431667132, surface: 12.560063371699584 },
];

describe.each(UV_SPHERES)(
  'latitude-longitude sphere $bands×$segments',
  ({ bands, segments, volume, surface }) => {
    const mesh = uvSphere(1, bands, segments);

    test('volume and surface are those of a stack of polygon frusta', () => {
      const stack = polygonFrusta(bands, segments);
      near(meshVolume(mesh), stack.volume, 1e-12);
      near(meshSurface(mesh), stack.surface, 1e-12);
    });

    test('and those tabulated', () => {
      near(meshVolume(mesh), volume, 1e-10);
      near(meshSurface(mesh), surface, 1e-10);
    });
  },
);

test('the error of an inscribed sphere falls fourfold with each doubling', () => {
  const errors = UV_SPHERES.map(
    ({ bands, segments }) => 1 - meshVolume(uvSphere(1, bands, segments)) / ((4 * Math.PI) / 3),
  );
  errors.slice(1).forEach((error, i) => near(Math.log2(errors[i]! / error), 2, 0.03));
});

test('a mesh without points or volume is refused', () => {
  const none = { positions: new Float64Array(), triangles: new Uint32Array() };
  expect(() => meshBox(none)).toThrow('meshBox: wants at least one point, got 0');
  expect(() => massProperties(meshOf([[0, 0, 0]], []))).toThrow(
    'massProperties: wants a mesh that encloses volume, got 0',
  );
});
