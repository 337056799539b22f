import { describe, expect, test } from 'vitest';
import type { Box, Mesh, Vec3 } from '../../../src/core/mesh/mesh.ts';
import { boxTree } from '../../../src/core/section/box-tree.ts';
import { acrossAt, measureFeature } from '../../../src/core/section/feature.ts';
import { middleLineOf } from '../../../src/core/section/middle-line.ts';
import { box, joined } from '../../support/solids.ts';

/** A bar of 20 × 4 × 2 mm from x = 0, about the x axis moved by (0, 7, 5) mm. */
const bar = (from = 0, length = 0.02): Mesh => box([length, 0.004, 0.002], [from, 0.005, 0.004]);
const straight = (...xs: number[]): Vec3[] => xs.map((x) => [x, 0.007, 0.005]);
const measured = (mesh: Mesh, from: number, to: number, within?: Box) =>
  measureFeature(boxTree(mesh), { name: 'fin', kind: 'fin', middleLine: straight(from, to), within });
const MM = 1e-3;

describe('a bar of 20 × 4 × 2 mm', () => {
  test('a section across it', () => {
    const line = middleLineOf(straight(0, 0.02), { min: [0, 0, 0], max: [0.015, 1, 1] });
    const got = acrossAt(boxTree(bar()), line, 0.006)!;
    expect(Object.keys(got).sort()).toEqual(['at', 'part', 's']);
    expect(got.s).toBe(0.006);
    expect(got.part.area).toBeCloseTo(8e-6, 12);
    expect(got.part.width).toBeCloseTo(4 * MM, 9);
    expect(Math.abs(got.part.thickness / (2 * MM) - 1)).toBeLessThan(1e-4);
    expect(got.at).toEqual([expect.closeTo(0.006, 9), expect.closeTo(0.007, 9), expect.closeTo(0.005, 9)]);
    // Beyond its box, and beyond the solid.
    expect(acrossAt(boxTree(bar()), line, 0.016)).toBeNull();
    expect(acrossAt(boxTree(bar()), middleLineOf(straight(0, 0.02)), 0.021)).toBeNull();
  });

  test('25 even stations from its root to half a thickness short of its end', () => {
    const got = measured(bar(), 0, 0.02);
    expect(Object.keys(got).sort()).toEqual([
      'kind',
      'length',
      'name',
      'rootThickness',
      'stations',
      'thinnest',
      'tipThickness',
    ]);
    expect([got.name, got.kind]).toEqual(['fin', 'fin']);
    // Found by halving: to a step over 2¹⁴, of a line of 48 steps.
    expect(Math.abs(got.length - 0.02)).toBeLessThan(1e-7);
    expect(got.stations).toHaveLength(25);
    const last = got.stations.at(-1)!.s;
    expect(Math.abs(last - (0.02 - 1 * MM))).toBeLessThan(5e-6);
    got.stations.forEach(({ s, thickness, width, at }, i) => {
      expect(s).toBeCloseTo((last * i) / 24, 9);
      expect(Math.abs(thickness / (2 * MM) - 1)).toBeLessThan(1e-4);
      expect(width).toBeCloseTo(4 * MM, 9);
      // The first is taken a ten-thousandth of the line along it.
      expect(at[0]).toBeCloseTo(i === 0 ? 2e-6 : s, 9);
      expect(at[1]).toBeCloseTo(0.007, 9);
      expect(at[2]).toBeCloseTo(0.005, 9);
    });
    for (const thickness of [got.rootThickness, got.tipThickness, got.thinnest.thickness])
      expect(Math.abs(thickness / (2 * MM) - 1)).toBeLessThan(1e-4);
  });

  test.each<[string, Mesh, [number, number, Box?], length: number, first: number]>([
    [
      'a line that begins before it: from the first look inside, 5/12 mm apart',
      bar(0.005),
      [0, 0.02],
      0.02,
      0.005,
    ],
    ['a line that ends before it: to its end', bar(), [0, 0.016], 0.02, 0],
    ['a line that ends far beyond it', bar(), [0, 0.035], 0.02, 0],
    ['another behind a gap is not its own', joined(bar(), bar(0.024, 0.012)), [0, 0.036], 0.02, 0],
    ['between the sides of a box', bar(), [0, 0.02, { min: [0.005, 0, 0], max: [0.015, 1, 1] }], 0.01, 0.005],
    ['in a box that holds all of it', bar(), [0, 0.02, { min: [-1, 0, 0], max: [1, 1, 1] }], 0.02, 0],
  ])('%s', (_, mesh, args, length, first) => {
    const got = measured(mesh, ...args);
    expect(Math.abs(got.stations[0]!.at[0] - first)).toBeLessThan(5e-4);
    expect(Math.abs(got.length - length)).toBeLessThan(5e-4);
    // From its own root to its end.
    expect(got.stations[0]!.at[0] + got.length).toBeCloseTo(first + length, 4);
  });

  test('a line of which less than half runs through it is refused, one of half is not', () => {
    // 49 places 100/48 mm apart: ten of them up to 20 mm.
    expect(() => measured(bar(), 0, 0.1)).toThrow(
      'fin: wants a middle line inside the solid, got one that runs through it at 10 of 49 places',
    );
    // Places i/48 of the line: 24 of them within 20 mm when the line is 41 mm, 23 when it is 43 mm.
    expect(() => measured(bar(), 0, 0.041)).not.toThrow();
    expect(() => measured(bar(), 0, 0.043)).toThrow('at 23 of 49 places');
    expect(() => measured(bar(), 1, 2)).toThrow('at 0 of 49 places');
  });
});

describe('a bar that stands on a body beside its middle', () => {
  // A body of 6 × 22 × 10 mm from x = −5 mm, its middle 9 mm off the line; the bar goes on from x = 1 mm to 21 mm.
  const mesh = joined(box([0.006, 0.022, 0.01], [-0.005, -0.013, 0]), bar(0.001));
  const look = 0.026 / 48;

  test('without a box it begins where the section leaps from 220 mm² to 8 mm²', () => {
    const got = measured(mesh, -0.005, 0.021);
    expect(Math.abs(got.rootThickness / (2 * MM) - 1)).toBeLessThan(1e-4);
    expect(Math.abs(got.length - 0.02)).toBeLessThan(look);
    expect(got.stations[0]!.at[0]).toBeGreaterThan(0.001);
  });

  test('in a box it begins at the first section whose middle is the line’s own', () => {
    const got = measured(mesh, -0.005, 0.021, { min: [0, -1, -1], max: [1, 1, 1] });
    expect(Math.abs(got.rootThickness / (2 * MM) - 1)).toBeLessThan(1e-4);
    expect(Math.abs(got.length - 0.02)).toBeLessThan(look);
    expect(got.stations[0]!.at[0]).toBeGreaterThan(0.001);
  });

  test('in a box that ends in the body the body is all there is: its first section', () => {
    const got = measured(mesh, -0.005, 0.001, { min: [-0.0049, -1, -1], max: [0.0009, 1, 1] });
    expect(Math.abs(got.rootThickness / 0.01 - 1)).toBeLessThan(1e-4);
    expect(Math.abs(got.length - 0.0058)).toBeLessThan(0.006 / 48);
  });

  test('of two bars one on the other, of 8 and 7 mm², neither is the body of the other', () => {
    const both = joined(bar(0, 0.01), box([0.01, 0.0035, 0.002], [0.01, 0.005, 0.004]));
    expect(Math.abs(measured(both, 0, 0.02).length - 0.02)).toBeLessThan(1e-6);
  });
});

describe('a slab that tapers in steps', () => {
  // Ten steps of 2 mm, 3, 2.8 … 1.2 mm thick: each is longer than half its thickness.
  const thicknessAt = (x: number) => 3 * MM - 0.2 * MM * Math.floor(x / (2 * MM));
  const mesh = joined(
    ...Array.from({ length: 10 }, (_, i) => {
      const thickness = 3 * MM - 0.2 * MM * i;
      return box([2 * MM, 0.008, thickness], [i * 2 * MM, 0.003, 0.005 - thickness / 2]);
    }),
  );
  test('each station has the thickness of its step; the thinnest is the last', () => {
    const got = measured(mesh, 1e-6, 0.02);
    for (const { at, thickness } of got.stations) {
      const within = (at[0] / (2 * MM)) % 1;
      if (within > 0.01 && within < 0.99)
        expect(Math.abs(thickness / thicknessAt(at[0]) - 1)).toBeLessThan(1e-4);
    }
    expect(Math.abs(got.rootThickness / (3 * MM) - 1)).toBeLessThan(1e-4);
    expect(Math.abs(got.thinnest.thickness / (1.2 * MM) - 1)).toBeLessThan(1e-4);
    expect(got.thinnest.at[0]).toBeGreaterThan(0.018);
    expect(Math.abs(got.tipThickness / (1.2 * MM) - 1)).toBeLessThan(1e-4);
  });
});
