import { describe, expect, test } from 'vitest';
import { boxTree } from '../../../src/core/section/box-tree.ts';
import { ballMap } from '../../../src/core/section/height-map.ts';
import { isInside, stretchesInside } from '../../../src/core/section/inside.ts';
import { nearest, nearestResult } from '../../../src/core/section/nearest.ts';
import { ballAbout, thickestBall } from '../../../src/core/section/thickness.ts';
import {
  box,
  capsule,
  ellipsoid,
  frustum,
  joined,
  mapped,
  torus,
  turned,
  uvSphere,
  wedge,
} from '../../support/solids.ts';

const relative = (a: number, b: number) => Math.abs(a / b - 1);

describe('largest inscribed ball', () => {
  test('of a slab is its thickness', () => {
    const ball = thickestBall(boxTree(box([0.06, 0.02, 0.003])));
    expect(relative(ball.thickness, 0.003)).toBeLessThan(1e-9);
    expect(ball.at[2]).toBeCloseTo(0.0015, 9);
  });
  test('of a rod of 64 flats is the circle in its section, 2·r·cos(π/64)', () => {
    const ball = thickestBall(boxTree(frustum(0.004, 0.004, 0.08, 64)));
    expect(relative(ball.thickness, 0.008 * Math.cos(Math.PI / 64))).toBeLessThan(1e-5);
  });
  test('of a ball of 64 bands and 128 meridians lies between the deepest facet and the ball', () => {
    const ball = thickestBall(boxTree(uvSphere(0.01, 64, 128)));
    const deepest = 0.02 * Math.cos(Math.PI / 128) * Math.cos(Math.PI / 128);
    expect(ball.thickness).toBeLessThan(0.02);
    expect(ball.thickness).toBeGreaterThan(deepest * (1 - 1e-6));
  });
  test('of a wedge is the circle in its triangle, 4·area / perimeter', () => {
    const [length, height] = [0.03, 0.008];
    const ball = thickestBall(boxTree(wedge(length, 0.05, height)));
    const perimeter = height + 2 * Math.hypot(length, height / 2);
    expect(relative(ball.thickness, (4 * (length * height)) / 2 / perimeter)).toBeLessThan(1e-6);
  });
  test('of a ring is its tube', () => {
    const ball = thickestBall(boxTree(torus(0.02, 0.005, 240, 64)));
    expect(ball.thickness).toBeLessThan(0.01);
    expect(ball.thickness).toBeGreaterThan(0.01 * Math.cos(Math.PI / 64) * Math.cos(Math.PI / 240) - 2e-6);
    expect(Math.hypot(ball.at[0], ball.at[1])).toBeCloseTo(0.02, 4);
  });
  test('finds the thicker of two bulges, wherever the thin one lies', () => {
    const stations = (first: number, second: number): [number, number][] =>
      Array.from({ length: 161 }, (_, i) => {
        const x = i / 160;
        const bulge = (at: number, size: number) => size * Math.exp(-(((x - at) / 0.06) ** 2));
        return [x * 0.1, i === 0 || i === 160 ? 0 : 0.002 + bulge(0.25, first) + bulge(0.75, second)];
      });
    expect(thickestBall(boxTree(turned(stations(0.003, 0.0033), 64))).at[0]).toBeCloseTo(0.075, 3);
    expect(thickestBall(boxTree(turned(stations(0.0033, 0.003), 64))).at[0]).toBeCloseTo(0.025, 3);
  });
  test('grows with the solid', () => {
    const mesh = ellipsoid([0.03, 0.006, 0.004], 48, 64);
    const small = thickestBall(boxTree(mesh)).thickness;
    const large = thickestBall(boxTree(mapped(mesh, ([x, y, z]) => [3 * x, 3 * y, 3 * z]))).thickness;
    expect(relative(large, 3 * small)).toBeLessThan(1e-6);
  });
  test('refuses a resolution out of range', () => {
    expect(() => thickestBall(boxTree(box([1, 1, 1])), 0)).toThrow(
      'thickestBall: wants a resolution between 0 and 1, got 0',
    );
  });
});

test('nearest point: seeded points against every triangle of the mesh, one at a time', () => {
  const mesh = torus(0.02, 0.006, 24, 12);
  const tree = boxTree(mesh);
  const found = nearestResult();
  const alone = Array.from({ length: mesh.triangles.length / 3 }, (_, t) =>
    boxTree({ positions: mesh.positions, triangles: mesh.triangles.slice(3 * t, 3 * t + 3) }),
  );
  for (let i = 0; i < 200; i++) {
    const at = [Math.sin(i * 12.9898), Math.sin(i * 78.233), Math.sin(i * 37.719)].map((v) => v * 0.03) as [
      number,
      number,
      number,
    ];
    nearest(tree, ...at, found);
    const least = Math.min(
      ...alone.map((one) => {
        const own = nearestResult();
        nearest(one, ...at, own);
        return own.distance;
      }),
    );
    expect(found.distance).toBeCloseTo(least, 15);
  }
});

describe('inside', () => {
  test('a ring: seeded points against its distance from the circle', () => {
    const tree = boxTree(torus(0.02, 0.005, 400, 100));
    for (let i = 0; i < 2000; i++) {
      const [x, y, z] = [Math.sin(i * 12.9898), Math.sin(i * 78.233), Math.sin(i * 37.719)].map(
        (v) => v * 0.026,
      ) as [number, number, number];
      const depth = 0.005 - Math.hypot(Math.hypot(x, y) - 0.02, z);
      if (Math.abs(depth) > 2e-5) expect(isInside(tree, x, y, z)).toBe(depth > 0);
    }
  });
  test('along lines through vertices and edges', () => {
    const tree = boxTree(uvSphere(0.01, 16, 16));
    expect(stretchesInside(tree, 0, 0)).toHaveLength(1);
    expect(isInside(tree, 0, 0, 0)).toBe(true);
    expect(isInside(tree, 0, 0, 0.011)).toBe(false);
    expect(isInside(tree, 0, 0, -0.011)).toBe(false);
  });
  test('two decks one above the other', () => {
    const decks = joined(box([0.01, 0.01, 0.001]), box([0.01, 0.01, 0.002], [0, 0, 0.005]));
    const stretches = stretchesInside(boxTree(decks), 0.003, 0.004);
    expect(stretches.map(([bottom, top]) => top - bottom)).toEqual([
      expect.closeTo(0.001, 12),
      expect.closeTo(0.002, 12),
    ]);
  });
});

describe('ball about a point', () => {
  test('in a slab, off its middle, is the slab’s thickness', () => {
    const tree = boxTree(box([0.06, 0.06, 0.004]));
    expect(relative(ballAbout(tree, [0.03, 0.03, 0.001]).thickness, 0.004)).toBeLessThan(1e-3);
  });
  test('in a rod, off its axis, is the rod’s within 0.5 %', () => {
    const tree = boxTree(capsule(0.004, 0.06, 64, 512));
    expect(relative(ballAbout(tree, [0.003, 0.001, 0.0007]).thickness, 0.008)).toBeLessThan(5e-3);
  });
  test('an edge that turns by 8° does not: beside the waist of two cones the ball spans the solid', () => {
    const [waist, half, slope] = [0.012, 0.04, Math.PI / 45];
    const end = waist - half * Math.tan(slope);
    const tree = boxTree(
      turned(
        [
          [0, end],
          [half, waist],
          [2 * half, end],
        ],
        128,
      ),
    );
    for (const beside of [5e-5, 2e-4, 8e-4]) {
      // Under the middle of a flat of the front cone; touching both cones there it would measure 28 times `beside`.
      const height = (waist - beside * Math.tan(slope)) * Math.cos(Math.PI / 128) - 1e-6;
      const [y, z] = [height * Math.cos(Math.PI / 128), height * Math.sin(Math.PI / 128)];
      const { thickness } = ballAbout(tree, [half - beside, y, z]);
      expect(thickness).toBeGreaterThan(2 * waist * 0.8);
      expect(thickness).toBeLessThan(2 * waist);
    }
  });
  test('an edge that turns by 24° stops it: beside one, the ball touches both flats', () => {
    const [radius, turn] = [0.004, (2 * Math.PI) / 15];
    const tree = boxTree(frustum(radius, radius, 0.08, 15));
    const [away, along] = [turn / 2, turn / 2 + Math.PI / 2];
    for (const beside of [1e-4, 2e-4, 4e-4]) {
      // On the flat behind the corner at angle 0, a little below it.
      const [u, v] = [0, 1].map((axis) => {
        const part = (angle: number) => (axis === 0 ? Math.cos(angle) : Math.sin(angle));
        return (axis === 0 ? radius : 0) + beside * part(along) - 1e-6 * part(away);
      }) as [number, number];
      const { thickness } = ballAbout(tree, [0.04, u, v]);
      // What reaches 0.4 % deep into it does not stop it yet.
      expect(relative(thickness, 2 * beside * Math.tan((Math.PI - turn) / 2))).toBeLessThan(3e-2);
    }
  });
});

describe('height map', () => {
  test('of a wedge: height exact in each cell, thickness 2·x·sin β / (1 − sin β) away from its back', () => {
    const [length, height] = [0.03, 0.004];
    const map = ballMap(boxTree(wedge(length, 0.02, height)), 0.0005).map;
    const sin = Math.sin(Math.atan(height / 2 / length));
    const row = map.nx * (map.ny >> 1);
    for (let i = 4; i < map.nx / 2; i++) {
      const x = map.x0 + i * map.cell;
      expect(relative(map.height[row + i]!, (height * x) / length)).toBeLessThan(1e-9);
      const ideal = (2 * x * sin) / (1 - sin);
      // The largest ball that reaches x is centred on some cell up to one pitch off the best.
      expect(map.thickness[row + i]!).toBeLessThan(ideal * 1.001);
      expect(map.thickness[row + i]!).toBeGreaterThan(ideal - 2 * map.cell * sin);
    }
  });
  test('adds up to the volume of a box that the grid tiles', () => {
    const map = ballMap(boxTree(box([0.01, 0.02, 0.003])), 0.001).map;
    expect(map.nx * map.ny).toBe(200);
    expect(relative(map.height.reduce((sum, h) => sum + h, 0) * map.cell ** 2, 6e-7)).toBeLessThan(1e-9);
    for (const thickness of map.thickness) expect(relative(thickness, 0.003)).toBeLessThan(1e-3);
  });
  test('of a rod: 2·r in every cell over it, none beside it', () => {
    const map = ballMap(boxTree(capsule(0.004, 0.04, 64, 128)), 0.0005).map;
    const column = Math.round((0 - map.x0) / map.cell);
    for (let j = 1; j < map.ny - 1; j++)
      expect(relative(map.thickness[column + map.nx * j]!, 0.008)).toBeLessThan(5e-3);
    expect(map.height[0]).toBe(0);
    expect(map.thickness[0]).toBe(0);
  });
  test('of two decks holds both heights, the lowest bottom and the highest top', () => {
    const decks = joined(box([0.01, 0.01, 0.001]), box([0.01, 0.01, 0.002], [0, 0, 0.005]));
    const map = ballMap(boxTree(decks), 0.001).map;
    expect(map.height[33]).toBeCloseTo(0.003, 12);
    expect(map.bottom[33]).toBeCloseTo(0, 12);
    expect(map.top[33]).toBeCloseTo(0.007, 12);
  });
  test('refuses a pitch of nothing', () => {
    expect(() => ballMap(boxTree(box([1, 1, 1])), 0)).toThrow('heightMap: wants a pitch above 0');
  });
});
