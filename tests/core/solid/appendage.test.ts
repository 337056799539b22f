import { describe, expect, test } from 'vitest';
import { isClosedSurface } from '../../../src/core/mesh/edges.ts';
import { massProperties, meshVolume } from '../../../src/core/mesh/mass-properties.ts';
import { sweepMesh, sweepOf, type AppendageTable } from '../../../src/core/solid/appendage.ts';

const mm = 1e-3;
const even = (size: number) => ({ root: size * mm, tip: size * mm });
const arm: AppendageTable = {
  name: 'arm',
  kind: 'arm',
  root: { at: 0 },
  length: 40 * mm,
  width: even(6),
};

test('a straight round arm is a cylinder with a half ball at its tip', () => {
  const error = (fineness: number) => {
    const mesh = sweepMesh(sweepOf(arm), 32 * fineness, 24 * fineness);
    expect(isClosedSurface(mesh)).toBe(true);
    return Math.abs(
      meshVolume(mesh) / (Math.PI * (3 * mm) ** 2 * 37 * mm + (2 / 3) * Math.PI * (3 * mm) ** 3) - 1,
    );
  };
  expect(Math.log2(error(1) / error(2))).toBeGreaterThan(1.9);
  expect(error(8)).toBeLessThan(3e-4);
});

// Pappus-Guldinus: a section carried square to the path of its centroid sweeps area × path, however it bends.
test.each([
  ['arm', 0],
  ['arm', 90],
  ['arm', -170],
  ['curl-tail', 120],
  ['curl-tail', 260],
] as const)('a %s bent by %d° keeps the volume of the straight one', (kind, degrees) => {
  const table = { ...arm, kind, length: 60 * mm, thickness: even(2) };
  const volume = (curl: number) => meshVolume(sweepMesh(sweepOf({ ...table, curl }), 32, 1500));
  expect(volume((degrees * Math.PI) / 180) / volume(0)).toBeCloseTo(1, 4);
});

test('it starts at its root, heads as told and is as long as told', () => {
  const sweep = sweepOf({
    ...arm,
    root: { at: 10 * mm, across: 2 * mm, up: 1 * mm },
    direction: Math.PI / 6,
  });
  expect(sweep.pointAt(0)).toEqual([10 * mm, 2 * mm, 1 * mm]);
  const tip = sweep.pointAt(40 * mm);
  expect(tip[0]).toBeCloseTo(10 * mm + 40 * mm * Math.cos(Math.PI / 6), 12);
  expect(tip[1]).toBeCloseTo(22 * mm, 12);
  expect(sweep.widthAt(0)).toBe(6 * mm);
  expect(sweep.widthAt(40 * mm)).toBe(0);
});

test('an arm that bends evenly is an arc of a circle', () => {
  const sweep = sweepOf({ ...arm, curl: Math.PI / 2 });
  const radius = (40 * mm) / (Math.PI / 2);
  const tip = sweep.pointAt(40 * mm);
  expect(tip[0]).toBeCloseTo(radius, 9);
  expect(tip[1]).toBeCloseTo(radius, 9);
});

test('a paddle that stands across is broad out of the parting plane and thin in it', () => {
  const paddle: AppendageTable = {
    ...arm,
    kind: 'paddle',
    length: 14 * mm,
    width: { root: 2.2 * mm, tip: 1.6 * mm },
    thickness: { root: 6 * mm, middle: 13 * mm, tip: 10 * mm },
  };
  const { box } = massProperties(sweepMesh(sweepOf(paddle), 48, 96));
  expect(box.max[2] - box.min[2]).toBeGreaterThan(12.5 * mm);
  expect(box.max[1] - box.min[1]).toBeCloseTo(2.2 * mm, 6);
  expect(box.max[0]).toBeCloseTo(14 * mm, 9);
});

describe('refuses', () => {
  test('a bend tighter than the part is wide', () => {
    expect(() => sweepOf({ ...arm, curl: 16 })).toThrow('arm: wants a bend wider than the part itself');
  });
  test('a tail that runs into itself', () => {
    const tail = { ...arm, kind: 'curl-tail', length: 80 * mm, width: even(8), curl: 5.3 } as const;
    expect(() => sweepOf(tail)).not.toThrow();
    expect(() => sweepOf({ ...tail, curl: 9, width: even(4) })).toThrow('stays clear of itself');
  });
});
