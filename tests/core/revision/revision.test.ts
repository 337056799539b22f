import { describe, expect, test } from 'vitest';
import type { Vec2 } from '../../../src/core/mesh/mesh.ts';
import { band } from '../../../src/core/quantity/band.ts';
import { caliperDisagrees, withCalipers } from '../../../src/core/revision/caliper.ts';
import { featureDifferences, featureSize } from '../../../src/core/revision/difference.ts';
import { movedRuns } from '../../../src/core/revision/moved.ts';
import type { FeatureMeasure } from '../../../src/core/section/geometry.ts';

const part = (name: string, root: number, tip: number, at = 0): FeatureMeasure => ({
  name,
  kind: 'fin',
  length: 0.02,
  stations: Array.from({ length: 9 }, (_, i) => ({
    s: (0.02 * i) / 8,
    thickness: root + ((tip - root) * i) / 8,
    width: 0.004,
    at: [at + (0.02 * i) / 8, 0, 0] as const,
  })),
  rootThickness: root,
  tipThickness: tip,
  thinnest: { thickness: Math.min(root, tip), at: [at + 0.02, 0, 0] },
});

describe('difference of two revisions', () => {
  test('matches parts by name and gives both sizes and the move of the root', () => {
    const { both, added, removed } = featureDifferences(
      [part('tail', 0.0016, 0.0012), part('fin', 0.001, 0.001)],
      [part('tail', 0.0014, 0.001, 0.003), part('leg', 0.002, 0.002)],
    );
    expect(both.map(({ name }) => name)).toEqual(['tail']);
    expect(both[0]?.sizes.root).toEqual({ from: 0.0016, to: 0.0014 });
    expect(both[0]?.sizes.thinnest).toEqual({ from: 0.0012, to: 0.001 });
    expect(both[0]?.moved).toEqual([0.003, 0, 0]);
    expect(added.map(({ name }) => name)).toEqual(['leg']);
    expect(removed.map(({ name }) => name)).toEqual(['fin']);
  });

  test('a revision does not differ from itself', () => {
    const { both } = featureDifferences([part('tail', 0.002, 0.001)], [part('tail', 0.002, 0.001)]);
    for (const { from, to } of Object.values(both[0]!.sizes)) expect(to).toBe(from);
  });
});

const square = (size: number, x = 0): Vec2[] => [
  [x, 0],
  [x + size, 0],
  [x + size, size],
  [x, size],
];
const bulge: Vec2[] = [
  [0, 0],
  [0.01, 0],
  [0.012, 0.005],
  [0.01, 0.01],
  [0, 0.01],
];

describe('what moved on an outline', () => {
  test('nothing on the same outline, however it is cut into points', () => {
    const finer = square(0.01).flatMap((a, i, ring): Vec2[] => {
      const b = ring[(i + 1) % 4]!;
      return [a, [(a[0] + b[0]) / 2, (a[1] + b[1]) / 2]];
    });
    expect(movedRuns([finer], [square(0.01)], 1e-5)).toEqual([]);
  });

  test('one side that bulges', () => {
    const runs = movedRuns([bulge], [square(0.01)], 1e-4);
    expect(runs.length).toBe(1);
    for (const [x] of runs[0]!) expect(x).toBeGreaterThan(0.01);
    expect(Math.max(...runs[0]!.map(([x]) => x))).toBeCloseTo(0.012, 9);
  });

  test('a ring that has moved all round ends at its start', () => {
    const [run] = movedRuns([square(0.01, 1)], [square(0.01)], 1e-4);
    expect(run?.[0]).toEqual(run?.at(-1));
    expect(() => movedRuns([], [], 0)).toThrow('movedRuns: tolerance: wants a finite number above 0, got 0');
  });
});

describe('calipers', () => {
  const tail = part('tail', 0.0016, 0.0012);
  const cutting = band(0, -3e-5, 3e-5);

  test('within both bands they agree, beyond they do not', () => {
    const at = (value: number) => caliperDisagrees(tail, { at: 'tip', value, tolerance: 5e-5 }, cutting);
    expect(at(0.0012)).toBe(false);
    expect(at(0.001279)).toBe(false);
    expect(at(0.001281)).toBe(true);
    expect(at(0.001119)).toBe(true);
  });

  test('they replace the sizes of the solid, in proportion between root and tip', () => {
    const worn = withCalipers(tail, [
      { at: 'tip', value: 0.0009, tolerance: 0 },
      { at: 'root', value: 0.0016, tolerance: 0 },
    ]);
    expect(worn.tipThickness).toBeCloseTo(0.0009, 12);
    expect(worn.rootThickness).toBeCloseTo(0.0016, 12);
    expect(worn.stations[4]?.thickness).toBeCloseTo(0.0014 * 0.875, 12);
    expect(worn.thinnest.thickness).toBeCloseTo(0.0009, 12);
    const longer = withCalipers(tail, [
      { at: 'length', value: 0.022, tolerance: 0 },
      { at: 'width', value: 0.005, tolerance: 0 },
    ]);
    expect(longer.stations.at(-1)?.s).toBeCloseTo(0.022, 12);
    expect(featureSize(longer, 'width')).toBeCloseTo(0.005, 12);
    expect(longer.rootThickness).toBe(tail.rootThickness);
    expect(withCalipers(tail, [])).toBe(tail);
  });
});
