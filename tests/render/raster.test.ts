import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { drawTriangles, samples, type Samples } from '../../src/render/raster.ts';

const points = (...rows: readonly (readonly [number, number, number])[]) => Float64Array.from(rows.flat());
const covered = ({ face }: Samples) => face.reduce((sum, index) => sum + (index >= 0 ? 1 : 0), 0);

/** A rectangle as two triangles; with y downwards they run clockwise as seen. */
const rectangle = (left: number, top: number, right: number, bottom: number, near = 1) =>
  points([left, top, near], [left, bottom, near], [right, bottom, near], [right, top, near]);
const QUAD = Uint32Array.from([0, 1, 2, 0, 2, 3]);

describe('a rectangle', () => {
  test('covers the samples whose middles lie in it, left and top edges included', () => {
    const drawn = samples(12, 10);
    drawTriangles(drawn, rectangle(2.5, 3.5, 10.5, 7.5), QUAD, 0, 'clockwise');
    const rows = Array.from({ length: 10 }, (_, y) =>
      Array.from({ length: 12 }, (_, x) => (drawn.face[12 * y + x]! >= 0 ? 1 : 0)),
    );
    const wanted = rows.map((row, y) => row.map((_, x) => (x >= 2 && x < 10 && y >= 3 && y < 7 ? 1 : 0)));
    expect(rows).toEqual(wanted);
  });

  test('seen from behind is left out', () => {
    const drawn = samples(12, 10);
    drawTriangles(drawn, rectangle(2, 3, 10, 7), QUAD, 0, 'counter-clockwise');
    expect(covered(drawn)).toBe(0);
  });

  test('beyond the picture is cut at its edges', () => {
    const drawn = samples(12, 10);
    drawTriangles(drawn, rectangle(-50, -50, 6, 500), QUAD, 0, 'clockwise');
    expect(covered(drawn)).toBe(6 * 10);
  });
});

test('nearness is linear across a face', () => {
  const drawn = samples(40, 30);
  const plane = (x: number, y: number) => 2 + 0.03 * x - 0.05 * y;
  const corner = (x: number, y: number) => [x, y, plane(x, y)] as const;
  drawTriangles(
    drawn,
    points(corner(1, 2), corner(3, 28), corner(38, 17)),
    Uint32Array.from([0, 1, 2]),
    0,
    'clockwise',
  );
  expect(covered(drawn)).toBeGreaterThan(400);
  drawn.near.forEach((near, at) => {
    if (drawn.face[at]! < 0) return;
    expect(near).toBeCloseTo(plane((at % 40) + 0.5, Math.floor(at / 40) + 0.5), 5);
  });
});

test('the nearest face wins, whatever is drawn first', () => {
  const scenes = [
    [0.5, 0.9],
    [0.9, 0.5],
  ].map(([one = 0, other = 0]) => {
    const drawn = samples(20, 20);
    drawTriangles(drawn, rectangle(2, 2, 12, 12, one), QUAD, 0, 'clockwise');
    drawTriangles(drawn, rectangle(8, 8, 18, 18, other), QUAD, 2, 'clockwise');
    return drawn;
  });
  const at = (drawn: Samples) => [drawn.near[20 * 10 + 10], drawn.face[20 * 10 + 10]! >= 2];
  expect(at(scenes[0]!)).toEqual([Math.fround(0.9), true]);
  expect(at(scenes[1]!)).toEqual([Math.fround(0.9), false]);
});

test('triangles around a point share no sample and leave none out', () => {
  const place = fc.double({ min: 4, max: 36, noNaN: true });
  fc.assert(
    fc.property(fc.array(fc.tuple(place, place), { minLength: 1, maxLength: 1 }), ([[x, y] = [0, 0]]) => {
      const hub = points([0, 0, 1], [0, 40, 1], [40, 40, 1], [40, 0, 1], [x, y, 1]);
      const times = new Uint8Array(40 * 40);
      for (let side = 0; side < 4; side++) {
        const drawn = samples(40, 40);
        drawTriangles(drawn, hub, Uint32Array.from([side, (side + 1) % 4, 4]), 0, 'clockwise');
        drawn.face.forEach((face, at) => (times[at]! += face >= 0 ? 1 : 0));
      }
      return times.every((count) => count === 1);
    }),
    { seed: 11, numRuns: 200 },
  );
});
