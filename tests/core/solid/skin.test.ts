import { expect, test } from 'vitest';
import { isClosedSurface } from '../../../src/core/mesh/edges.ts';
import { meshVolume } from '../../../src/core/mesh/mass-properties.ts';
import type { Mesh, Vec3 } from '../../../src/core/mesh/mesh.ts';
import { skin, type Ring } from '../../../src/core/solid/skin.ts';

/** A regular ring of unit radius across x, counter-clockwise seen from +x. */
const ring = (x: number, count: number, radius = 1): Ring => ({
  middle: [x, 0, 0],
  points: Array.from({ length: count }, (_, i): Vec3 => {
    const angle = (2 * Math.PI * i) / count;
    return [x, radius * Math.cos(angle), radius * Math.sin(angle)];
  }),
});
const tip = (x: number): Ring => ({ middle: [x, 0, 0], points: [[x, 0, 0]] });

// A regular n-gon in the unit circle has the area n/2·sin(2π/n). Triangles: two a side of a strip, one a side of a fan.
const area = (count: number) => (count / 2) * Math.sin((2 * Math.PI) / count);
test.each<[string, Ring[], number, number, number]>([
  ['a prism', [ring(0, 8), ring(3, 8)], 8 * 4, 18, 3 * area(8)],
  ['a prism of two lengths', [ring(0, 8), ring(1, 8), ring(3, 8)], 8 * 6, 26, 3 * area(8)],
  ['a double pyramid', [tip(-1), ring(0, 8), tip(2)], 8 * 2, 10, area(8)],
  ['a pyramid with its tip ahead', [tip(0), ring(3, 12)], 12 * 2, 14, area(12)],
  ['a pyramid with its tip behind', [ring(0, 12), tip(3)], 12 * 2, 14, area(12)],
])('%s: closed, wound outwards, no triangle too many', (_, rings, triangles, corners, volume) => {
  const mesh = skin(rings);
  expect(isClosedSurface(mesh)).toBe(true);
  expect(meshVolume(mesh)).toBeCloseTo(volume, 12);
  expect(mesh.triangles.length / 3).toBe(triangles);
  expect(mesh.positions.length / 3).toBe(corners);
});

test('points keep their order, the middles of flat ends come last', () => {
  const rings = [ring(0, 4), ring(2, 4)];
  const { positions } = skin(rings);
  expect([...positions]).toEqual([...rings.flatMap(({ points }) => points), [0, 0, 0], [2, 0, 0]].flat());
});

/** Triangles as places, each from its least corner on, in one order. */
function places({ positions, triangles }: Mesh, [x, y, z]: Vec3): string[] {
  const corner = (i: number): string =>
    [x, y, z].map((sign, axis) => (sign * positions[3 * i + axis]!).toFixed(9).replace('-0.000000000', '0.000000000')).join(); // prettier-ignore
  const turnedOver = x * y * z < 0;
  const shown = Array.from({ length: triangles.length / 3 }, (_, t) => {
    const [a, b, c] = [...triangles.slice(3 * t, 3 * t + 3)].map(corner) as [string, string, string];
    const round = turnedOver ? [a, c, b] : [a, b, c];
    const first = round.indexOf([...round].sort()[0]!);
    return [...round.slice(first), ...round.slice(0, first)].join(' ');
  });
  return shown.sort();
}

test.each<[string, Vec3]>([
  ['across', [1, -1, 1]],
  ['upside down', [1, 1, -1]],
])('a symmetric body has a symmetric mesh: mirrored %s it is the same triangles', (_, signs) => {
  const mesh = skin([ring(0, 16), ring(1, 16, 2), ring(3, 16)]);
  expect(places(mesh, signs)).toEqual(places(mesh, [1, 1, 1]));
});
