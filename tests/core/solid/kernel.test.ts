import { describe, expect, test } from 'vitest';
import { isClosedSurface } from '../../../src/core/mesh/edges.ts';
import { massProperties, meshSurface, meshVolume } from '../../../src/core/mesh/mass-properties.ts';
import type { Mesh, Vec3 } from '../../../src/core/mesh/mesh.ts';
import { bodyOf } from '../../../src/core/solid/body.ts';
import { loadKernel, type Solid, type Workshop } from '../../../src/core/solid/kernel.ts';
import { loft } from '../../../src/core/solid/loft.ts';
import { box, mapped } from '../../support/solids.ts';

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

test('in single precision corners keep seven digits', () => {
  const mesh = pill(0.083, 0.0113);
  const back = kernel.work((shop) => shop.mesh(shop.solid(mesh, 'single'), 'single'));
  const single = Float64Array.from(mesh.positions, (value) => Math.fround(value * 1e3) / 1e3);
  expect(sorted(back)).toEqual(sorted({ ...mesh, positions: single }));
  expect(sorted(back)).not.toEqual(sorted(mesh));
  expect(meshVolume(back) / meshVolume(mesh)).toBeCloseTo(1, 6);
});

test('after a union in single precision, corners of the parts are what they were, to the last bit', () => {
  const [a, plain] = [pill(0.05, 0.012), pill(0.02, 0.009)];
  // Half inside the first, askew.
  const b = mapped(plain, ([x, y, z]) => [x + 0.04, y + 0.1 * x, z + 0.0011]);
  const { union, volume } = kernel.work((shop) => ({
    union: shop.meshAfter(shop.union([a, b].map((mesh) => shop.solid(mesh, 'single'))), [a, b]),
    volume: shop.volume(shop.union([a, b].map((mesh) => shop.solid(mesh)))),
  }));
  expect(isClosedSurface(union)).toBe(true);
  expect(meshVolume(union) / volume).toBeCloseTo(1, 7);
  const own = new Set([...sorted(a), ...sorted(b)]);
  const corners = sorted(union);
  const kept = corners.filter((corner) => own.has(corner));
  // All but those of the seam.
  expect(kept.length).toBeGreaterThan(0.7 * corners.length);
  expect(kept.length).toBeLessThan(corners.length);
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

const corners = (mesh: Mesh): number[][] =>
  [...sides(mesh, 0).keys()]
    .map((i) => [0, 1, 2].map((axis) => Number(mesh.positions[3 * i + axis]!.toFixed(9)) + 0))
    .sort((a, b) => a[0]! - b[0]! || a[1]! - b[1]! || a[2]! - b[2]!);
const boxCorners = (x: number[], y: number[], z: number[]) =>
  x.flatMap((i) => y.flatMap((j) => z.map((k) => [i, j, k])));

test('a box has its eight corners, its volume and its surface', () => {
  kernel.work((shop) => {
    const solid = shop.box([0.01, 0.002, -0.001], [0.03, 0.005, 0.004]);
    expect(corners(shop.mesh(solid))).toEqual(boxCorners([0.01, 0.03], [0.002, 0.005], [-0.001, 0.004]));
    expect(shop.volume(solid)).toBeCloseTo(0.02 * 0.003 * 0.005, 15);
    expect(shop.surface(solid)).toBeCloseTo(2 * (0.02 * 0.003 + 0.02 * 0.005 + 0.003 * 0.005), 15);
  });
});

// Sides of the box: x 1 to 3, y 2 to 5, z −1 to 4.
test.each<[string, Parameters<Workshop['place']>[1], number[][]]>([
  ['as it is', {}, [[1, 3], [2, 5], [-1, 4]]], // prettier-ignore
  ['shifted', { shift: [10, 20, 30] }, [[11, 13], [22, 25], [29, 34]]], // prettier-ignore
  ['mirrored', { mirrored: true }, [[1, 3], [-5, -2], [-1, 4]]], // prettier-ignore
  ['turned', { turn: Math.PI / 2 }, [[-5, -2], [1, 3], [-1, 4]]], // prettier-ignore
  ['turned the other way', { turn: -Math.PI / 2 }, [[2, 5], [-3, -1], [-1, 4]]], // prettier-ignore
  ['mirrored, then turned, then shifted', { mirrored: true, turn: Math.PI / 2, shift: [10, 0, 0] }, [[12, 15], [1, 3], [-1, 4]]], // prettier-ignore
])('a solid set down %s', (_, placement, [x, y, z]) => {
  kernel.work((shop) => {
    const placed = shop.place(shop.box([1, 2, -1], [3, 5, 4]), placement);
    expect(corners(shop.mesh(placed))).toEqual(boxCorners(x!, y!, z!));
    expect(isClosedSurface(shop.mesh(placed))).toBe(true);
    expect(shop.volume(placed)).toBeCloseTo(30, 9);
  });
});

test('a ball has its middle, its radius and nearly its volume', () => {
  kernel.work((shop) => {
    const { box: sides, centroid, volume } = massProperties(shop.mesh(shop.ball([0.01, 0.02, 0.03], 0.004)));
    const at = (off: number) => [0.01, 0.02, 0.03].map((side) => expect.closeTo(side + off, 9) as number);
    expect(centroid).toEqual(at(0));
    expect(sides).toEqual({ min: at(-0.004), max: at(0.004) });
    // Its corners lie on the sphere, so it stays inside by little.
    const sphere = (4 / 3) * Math.PI * 0.004 ** 3;
    expect(volume).toBeLessThan(sphere);
    expect(volume).toBeGreaterThan(0.99 * sphere);
  });
});

// The centroid of a frustum lies h(R² + 2Rr + 3r²)/(4(R² + Rr + r²)) from its wide end: tables of solids, from memory.
test.each<[string, Vec3]>([
  ['along x', [0.02, 0, 0]],
  ['against y', [0, -0.02, 0]],
  ['up', [0, 0, 0.02]],
  ['down', [0, 0, -0.02]],
  ['askew', [0.01, -0.02, 0.005]],
])('a frustum %s leads from its first point to its second, wide end first', (_, [dx, dy, dz]) => {
  kernel.work((shop) => {
    const from: Vec3 = [0.1, 0.2, 0.3];
    const to: Vec3 = [0.1 + dx, 0.2 + dy, 0.3 + dz];
    const { centroid, box: sides } = massProperties(shop.mesh(shop.cone(from, to, [0.006, 0.003])));
    const share = (36 + 2 * 18 + 3 * 9) / (4 * (36 + 18 + 9));
    [dx, dy, dz].forEach((way, axis) => {
      expect(centroid[axis]).toBeCloseTo(from[axis]! + share * way, 9);
      // Its wide circle reaches R√(1 − u²) to either side, by flats that enclose the same area a little more.
      const tilt = way / Math.hypot(dx, dy, dz);
      const wide = 0.006 * Math.sqrt(1 - tilt ** 2);
      if (way >= 0) expect(sides.min[axis]).toBeCloseTo(from[axis]! - wide, 4);
      if (way <= 0) expect(sides.max[axis]).toBeCloseTo(from[axis]! + wide, 4);
    });
  });
});

test('a level bar has corners in its own level plane, an upright one has them along x', () => {
  kernel.work((shop) => {
    const flats = 64;
    const radius = 0.003 * Math.sqrt((2 * Math.PI) / flats / Math.sin((2 * Math.PI) / flats));
    const level = shop.mesh(shop.cone([0, 0, 0.01], [0, 0.05, 0.01], [0.003, 0.003]));
    const upright = shop.mesh(shop.cone([0, 0, 0], [0, 0, 0.05], [0.003, 0.003]));
    const r = Number(radius.toFixed(9));
    expect(corners(level)).toContainEqual([r, 0, 0.01]);
    expect(corners(level)).toContainEqual([-r, 0.05, 0.01]);
    expect(corners(upright)).toContainEqual([r, 0, 0]);
    expect(corners(upright)).toContainEqual([-r, 0, 0.05]);
  });
});

test('bodies that do not touch come apart', () => {
  kernel.work((shop) => {
    const two = shop.union([shop.box([0, 0, 0], [1, 1, 1]), shop.box([3, 0, 0], [5, 1, 1])]);
    expect(shop.pieces(two).map((piece) => Math.round(shop.volume(piece))).sort()).toEqual([1, 2]); // prettier-ignore
    expect(shop.pieces(shop.box([0, 0, 0], [1, 1, 1]))).toHaveLength(1);
  });
});

test('simplifying merges what is flat at once, and what is bent within its tolerance', () => {
  const mesh = pill(0.05, 0.012);
  kernel.work((shop) => {
    const solid = shop.solid(mesh);
    const [fine, coarse] = [2e-7, 5e-4].map((tolerance) => shop.simplify(solid, tolerance));
    const count = (one: Solid) => shop.mesh(one).triangles.length;
    expect(count(fine!)).toBeLessThan(mesh.triangles.length);
    expect(count(fine!)).toBeGreaterThan(0.5 * mesh.triangles.length);
    expect(count(coarse!)).toBeLessThan(0.5 * count(fine!));
    expect(shop.volume(fine!) / shop.volume(solid)).toBeCloseTo(1, 6);
    expect(Math.abs(shop.volume(coarse!) - shop.volume(solid))).toBeLessThan(5e-4 * shop.surface(solid));
  });
});

describe('outlines of loops', () => {
  type Ring = [number, number][];
  const square = (x: number, side: number): Ring => [[x, 0], [x + side, 0], [x + side, side], [x, side]]; // prettier-ignore
  const area = (ring: readonly (readonly [number, number])[]) =>
    ring.reduce((sum, [x, y], i) => sum + (ring.at(i - 1)![0] * y - x * ring.at(i - 1)![1]) / 2, 0);
  const outline = (loops: Ring[], tolerance = 1e-6) => kernel.work((shop) => shop.outline(loops, tolerance));

  test('loops that overlap become one, counter-clockwise', () => {
    const rings = outline([square(0, 0.02), square(0.01, 0.02)]);
    expect(rings).toHaveLength(1);
    expect(area(rings[0]!)).toBeCloseTo(0.03 * 0.02, 12);
    expect([...rings[0]!].sort(([a, b], [c, d]) => a - c || b - d)).toEqual([[0, 0], [0, 0.02], [0.03, 0], [0.03, 0.02]].map((point) => point.map((side) => expect.closeTo(side, 9) as number))); // prettier-ignore
  });
  test('a loop the other way round is a hole, and nothing on its own', () => {
    const hole: Ring = [[0.005, 0.005], [0.005, 0.01], [0.01, 0.01], [0.01, 0.005]]; // prettier-ignore
    const areas = outline([square(0, 0.02), hole]).map(area);
    expect(areas.sort((a, b) => a - b)).toEqual([-25e-6, 400e-6].map((one) => expect.closeTo(one, 12) as number)); // prettier-ignore
    expect(outline([hole])).toEqual([]);
  });
  test('an outline without another is a ring round it, without one that covers it nothing', () => {
    const less = (from: Ring[], tools: Ring[], tolerance = 1e-6) =>
      kernel.work((shop) => shop.outlineLess(from, tools, tolerance));
    const inner = square(0.005, 0.005).map(([x, y]): [number, number] => [x, y + 0.005]);
    const areas = less([square(0, 0.02)], [inner]).map(area);
    expect(areas.sort((a, b) => a - b)).toEqual([-25e-6, 400e-6].map((one) => expect.closeTo(one, 12) as number)); // prettier-ignore
    expect(less([square(0, 0.02)], [square(-0.001, 0.03), inner])).toEqual([]);
    expect(less([square(0, 0.02)], [])).toEqual(outline([square(0, 0.02)]));
    const bent: Ring = [[0, 0.01], [0.01, 0.0101], [0.02, 0.01], [0.02, 0.03], [0, 0.03]]; // prettier-ignore
    expect(less([square(0, 0.02)], [bent], 5e-5)[0]).toHaveLength(5);
    expect(less([square(0, 0.02)], [bent], 2e-4)[0]).toHaveLength(4);
  });
  test('points off a line by less than the tolerance go', () => {
    const bent: Ring = [[0, 0], [0.01, -0.0001], [0.02, 0], [0.02, 0.02], [0, 0.02]]; // prettier-ignore
    expect(outline([bent], 5e-5)[0]).toHaveLength(5);
    expect(outline([bent], 2e-4)[0]).toHaveLength(4);
  });
});

test('two corners that single precision cannot tell apart stay where they are to its seven digits', () => {
  // A box whose first corner is doubled: a sliver 1e-13 m long runs along one of its edges.
  const plain = box([0.07, 0.05, 0.03], [0.1, 0.2, 0.3]);
  const triangles = [...plain.triangles];
  const first = triangles.indexOf(0);
  const [a, b, c] = triangles.slice(first, first + 3) as [number, number, number];
  triangles.splice(first, 3, 8, b, c, 0, b, 8, 0, 8, c);
  // The triangle 8 b c keeps its place, the slivers close the gap to corner 0.
  const positions = Float64Array.from([...plain.positions, 0.1 + 1e-13, 0.2, 0.3]);
  expect(a).toBe(0);
  kernel.work((shop) => {
    const back = shop.mesh(shop.solid({ positions, triangles: Uint32Array.from(triangles) }));
    expect(meshVolume(back) / (0.07 * 0.05 * 0.03)).toBeCloseTo(1, 6);
    expect(Math.min(...sides(back, 0))).toBeCloseTo(0.1, 7);
    expect(Math.max(...sides(back, 2))).toBeCloseTo(0.33, 12);
  });
});

test('all callers share one kernel', () => {
  expect(loadKernel()).toBe(loadKernel());
});

test('a solid is freed when the work that made it fails', () => {
  let kept: Solid | undefined;
  const failing = () =>
    kernel.work((shop) => {
      kept = shop.box([0, 0, 0], [1, 1, 1]);
      throw new RangeError('no more work');
    });
  expect(failing).toThrow('no more work');
  expect(() => kernel.work((shop) => shop.volume(kept!))).toThrow(/deleted/u);
});

test('a solid is freed with the work that made it', () => {
  let kept: Solid | undefined;
  kernel.work((shop) => (kept = shop.box([0, 0, 0], [1, 1, 1])));
  expect(() => kernel.work((shop) => shop.volume(kept!))).toThrow(/deleted/u);
});

describe('refuses', () => {
  const good = box([0.02, 0.006, 0.004]);
  const flipped = Uint32Array.from(good.triangles);
  for (let i = 0; i < flipped.length; i += 3) [flipped[i], flipped[i + 1]] = [flipped[i + 1]!, flipped[i]!];
  const torn = Float64Array.from(good.positions);
  torn[7] = NaN;
  test.each<[string, Mesh, string]>([
    ['an open mesh', { ...good, triangles: good.triangles.slice(3) }, 'its surface is open'],
    ['one that is inside out', { ...good, triangles: flipped }, 'it is empty or inside out'],
    ['a corner that is no number', { ...good, positions: torn }, 'a corner is not a finite number'],
    ['nothing', { positions: new Float64Array(), triangles: new Uint32Array() }, 'it is empty or inside out'],
    [
      'a corner that is not there',
      { ...good, triangles: Uint32Array.of(...good.triangles.slice(0, -1), 99_999) },
      'a triangle names a corner that does not exist',
    ],
  ])('%s', (_, mesh, reason) => {
    expect(() => kernel.work((shop) => shop.solid(mesh))).toThrow(
      `solid: wants a closed mesh wound outwards, got one the kernel refuses: ${reason}`,
    );
  });
});
