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

  test('every size, the widest station, and the move of the root along each axis', () => {
    const fin = (scale: number, at: readonly [number, number, number]): FeatureMeasure => ({
      name: 'fin',
      kind: 'fin',
      length: 8 * scale,
      stations: [1, 3, 2].map((width, i) => ({
        s: 4 * i * scale,
        thickness: 1,
        width: width * scale,
        at: [at[0] + i, at[1], at[2]],
      })),
      rootThickness: 5 * scale,
      tipThickness: 4 * scale,
      thinnest: { thickness: 2 * scale, at },
    });
    const { both } = featureDifferences([fin(1, [1, 2, 3])], [fin(2, [7, 5, 1])]);
    expect(both).toEqual([
      {
        name: 'fin',
        kind: 'fin',
        sizes: {
          root: { from: 5, to: 10 },
          tip: { from: 4, to: 8 },
          thinnest: { from: 2, to: 4 },
          length: { from: 8, to: 16 },
          width: { from: 3, to: 6 },
        },
        moved: [6, 3, -2],
      },
    ]);
    const bare = { ...fin(1, [1, 2, 3]), stations: [] };
    expect(featureDifferences([bare], [bare]).both[0]?.moved).toEqual([0, 0, 0]);
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

  // A square of 0.8 mm is walked in halves of its sides, 0.4 mm. Points in tenths of a millimetre.
  const tenths = (...points: Vec2[]) => points.map(([x, y]): Vec2 => [x / 1e4, y / 1e4]);
  const walked = tenths([0, 0], [8, 0], [8, 8], [0, 8]);
  const upright = (from: number, to: number) => tenths([from, 0], [to, 0], [to, 8], [from, 8]);

  test('one side, from corner to corner; at the tolerance itself nothing has moved', () => {
    const side = tenths([8, 0], [8, 4], [8, 8]);
    expect(movedRuns([walked], [upright(0, 4)], 0.000399)).toEqual([side]);
    expect(movedRuns([walked], [upright(0, 4)], 0.0004)).toEqual([]);
  });

  test('two sides, each a run of its own, also over the start of the ring', () => {
    expect(movedRuns([walked], [upright(2, 6)], 1e-4)).toEqual([
      tenths([8, 0], [8, 4], [8, 8]),
      tenths([0, 8], [0, 4], [0, 0]),
    ]);
  });

  test('a point alone is no run; a ring without points has none; a doubled point changes nothing', () => {
    const cut = tenths([0, 0], [4, 0], [8, 4], [8, 8], [0, 8]);
    expect(movedRuns([walked], [cut], 1e-4)).toEqual([]);
    expect(movedRuns([[]], [walked], 1e-4)).toEqual([]);
    const doubled = [walked[0]!, ...upright(0, 4)];
    expect(movedRuns([walked], [doubled], 1e-4).length).toBe(1);
  });

  test('two points that moved are a run', () => {
    // The lower right quarter is cut off: (8, 0) and (8, 4) lie away, (4, 0) and (8, 8) on the other outline.
    const cut = tenths([0, 0], [4, 0], [4, 6], [8, 8], [0, 8]);
    expect(movedRuns([walked], [cut], 1e-4)).toEqual([tenths([8, 0], [8, 4])]);
  });

  test('of several rings the nearest counts, and each is walked', () => {
    const rings = [walked, walked.map(([x, y]): Vec2 => [x + 0.01, y])];
    expect(movedRuns(rings, rings.toReversed(), 1e-5)).toEqual([]);
    expect(movedRuns(rings, [walked], 1e-5).length).toBe(1);
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

  // 0.5 thick, cut 0.25 less to 0.125 more, measured to 0.0625: the bands touch at 0.1875 and 0.6875.
  test.each([
    [0.1875, false],
    [0.18749, true],
    [0.6875, false],
    [0.68751, true],
  ])('bands that touch agree: %f', (value, disagrees) => {
    const thin = { ...tail, tipThickness: 0.5 };
    const caliper = { at: 'tip' as const, value, tolerance: 0.0625 };
    expect(caliperDisagrees(thin, caliper, band(0, -0.25, 0.125))).toBe(disagrees);
  });

  test('a size of nothing is refused', () => {
    const none = { at: 'tip' as const, value: 0, tolerance: 0 };
    expect(() => caliperDisagrees(tail, none, cutting)).toThrow(
      'caliperDisagrees: value: wants a finite number',
    );
    expect(() => withCalipers(tail, [none])).toThrow(
      'withCalipers: value: wants a finite number above 0, got 0',
    );
  });

  const wedge: FeatureMeasure = {
    ...tail,
    length: 4,
    stations: [
      { s: 0, thickness: 2, width: 1, at: [0, 0, 0] },
      { s: 2, thickness: 1.5, width: 2, at: [2, 0, 0] },
      { s: 4, thickness: 1, width: 1, at: [4, 0, 0] },
    ],
    rootThickness: 2,
    tipThickness: 0.5,
    thinnest: { thickness: 0.5, at: [9, 9, 9] },
  };

  test('all four sizes at once, worked by hand', () => {
    const sizes = { root: 4, tip: 0.25, length: 8, width: 1 } as const;
    const calipers = (['root', 'tip', 'length', 'width'] as const).map((at) => ({
      at,
      value: sizes[at],
      tolerance: 0,
    }));
    // Factors 2 at the root, 0.5 at the tip, 1.25 half-way.
    expect(withCalipers(wedge, calipers)).toEqual({
      ...wedge,
      length: 8,
      stations: [
        { s: 0, thickness: 4, width: 0.5, at: [0, 0, 0] },
        { s: 4, thickness: 1.875, width: 1, at: [2, 0, 0] },
        { s: 8, thickness: 0.5, width: 0.5, at: [4, 0, 0] },
      ],
      rootThickness: 4,
      tipThickness: 0.25,
      thinnest: { thickness: 0.25, at: [4, 0, 0] },
    });
  });

  test.each([
    ['root', 4, 2],
    ['tip', 1, 2],
  ] as const)('one thickness alone, at the %s, moves both ends alike', (at, value, factor) => {
    const { stations, rootThickness, tipThickness } = withCalipers(wedge, [{ at, value, tolerance: 0 }]);
    expect(stations.map(({ thickness }) => thickness)).toEqual([2, 1.5, 1].map((one) => one * factor));
    expect([rootThickness, tipThickness]).toEqual([2 * factor, 0.5 * factor]);
  });

  test('of places as thin the first counts; without stations the place stays', () => {
    const length = [{ at: 'length' as const, value: 8, tolerance: 0 }];
    const even = {
      ...wedge,
      tipThickness: 1,
      stations: wedge.stations.map((one) => ({ ...one, thickness: 1 })),
    };
    expect(withCalipers(even, length).thinnest).toEqual({ thickness: 1, at: [0, 0, 0] });
    expect(withCalipers({ ...wedge, stations: [] }, length).thinnest.at).toEqual([9, 9, 9]);
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
