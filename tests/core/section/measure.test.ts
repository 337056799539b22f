import { describe, expect, test } from 'vitest';
import { areaCurve, measureBait } from '../../../src/core/section/measure.ts';
import { boxTree } from '../../../src/core/section/box-tree.ts';
import { frameAcross, obliqueSection } from '../../../src/core/section/oblique.ts';
import { partAt } from '../../../src/core/section/part.ts';
import { sectionArea } from '../../../src/core/section/moments.ts';
import { outlineArea } from '../../../src/core/section/silhouette.ts';
import { box, ellipsoid, frustum, mapped, torus, wedge } from '../../support/solids.ts';

const relative = (a: number, b: number) => Math.abs(a / b - 1);

describe('a worm of elliptic outline', () => {
  const [a, b, c] = [0.06, 0.005, 0.004];
  const worm = mapped(ellipsoid([a, b, c], 160, 160), ([x, y, z]) => [x + a, y, z]);
  test('agrees with the closed forms', async () => {
    const geometry = await measureBait(worm, [], ['2 duplicate points welded']);
    expect(relative(geometry.volume, (4 / 3) * Math.PI * a * b * c)).toBeLessThan(1e-3);
    expect(relative(geometry.projectedArea, Math.PI * a * b)).toBeLessThan(1e-3);
    expect(relative(geometry.thickest.thickness, 2 * c)).toBeLessThan(1e-3);
    expect(geometry.thickest.at[0]).toBeCloseTo(a, 3);
    expect(geometry.box.max[0]).toBeCloseTo(2 * a, 12);
    expect(geometry.centroid[0]).toBeCloseTo(a, 9);
    expect(geometry.repairs).toEqual(['2 duplicate points welded']);
    expect(geometry.features).toEqual([]);
  });
  test('its area curve is π·b·c·(1 − (x/a − 1)²) and its mean times the length is the volume', async () => {
    const { areaCurve, volume } = await measureBait(worm, []);
    expect(areaCurve.length).toBeGreaterThanOrEqual(100);
    for (const { x, area } of areaCurve) {
      const ideal = Math.PI * b * c * (1 - (x / a - 1) ** 2);
      expect(Math.abs(area - ideal)).toBeLessThan(2e-3 * Math.PI * b * c);
    }
    const mean = areaCurve.reduce((sum, { area }) => sum + area, 0) / areaCurve.length;
    expect(relative(mean * 2 * a, volume)).toBeLessThan(1e-4);
  });
});

test('everything that is measured on a block of 12 × 5 × 4 mm', async () => {
  const block = box([0.012, 0.005, 0.004], [0.001, -0.002, -0.001]);
  const geometry = await measureBait(block, []);
  const close = (value: number, digits = 12) => expect.closeTo(value, digits) as unknown;
  const { plan, across, areaCurve: curve, ...rest } = geometry;
  expect(rest).toEqual({
    mesh: block,
    box: { min: [0.001, -0.002, -0.001], max: [close(0.013), close(0.003), close(0.003)] },
    volume: close(2.4e-7),
    surface: close(2 * (60 + 48 + 20) * 1e-6),
    centroid: [close(0.007), close(0.0005), close(0.001)],
    projectedArea: close(6e-5),
    thickest: { thickness: close(0.004, 8), at: expect.anything() as unknown },
    features: [],
    repairs: [],
  });
  expect(outlineArea(plan)).toBeCloseTo(6e-5, 12);
  expect(outlineArea(across)).toBeCloseTo(4.8e-5, 12);
  expect(Math.max(...across[0]!.map(([, z]) => z))).toBeCloseTo(0.003, 9);
  // Middles of 128 slices.
  expect(curve).toEqual(
    Array.from({ length: 128 }, (_, i) => ({
      x: close(0.001 + (0.012 * (i + 0.5)) / 128),
      area: close(2e-5),
    })),
  );
});

test('an area curve of four slices of a wedge: areas at their middles', () => {
  // 8 long, 2 wide, 4 high at its back.
  const mesh = mapped(wedge(8, 2, 4), ([x, y, z]) => [x + 3, y, z]);
  const curve = areaCurve(mesh, { min: [3, 0, -2], max: [11, 2, 2] }, 4);
  expect(curve.map(({ x }) => x)).toEqual([4, 6, 8, 10]);
  curve.forEach(({ area }, i) => expect(area).toBeCloseTo(2 * 4 * ((2 * i + 1) / 8), 12));
});

test('features come in the order asked, by line or by box', async () => {
  const bar = frustum(0.004, 0.002, 0.04, 48);
  const { features } = await measureBait(bar, [
    { name: 'back', kind: 'arm', box: { min: [0.02, -0.01, -0.01], max: [0.05, 0.01, 0.01] }, root: 'front' },
    {
      name: 'whole',
      kind: 'arm',
      middleLine: [
        [0.0001, 0, 0],
        [0.04, 0, 0],
      ],
    },
    {
      name: 'front',
      kind: 'arm',
      box: { min: [-0.01, -0.01, -0.01], max: [0.02, 0.01, 0.01] },
      root: 'back',
    },
  ]);
  expect(features.map(({ name }) => name)).toEqual(['back', 'whole', 'front']);
  const flats = 2 * Math.cos(Math.PI / 48);
  expect(relative(features[0]!.rootThickness, 0.003 * flats)).toBeLessThan(2e-3);
  expect(relative(features[1]!.rootThickness, 0.004 * flats)).toBeLessThan(2e-3);
  expect(relative(features[2]!.rootThickness, 0.003 * flats)).toBeLessThan(2e-3);
  expect(features[2]!.tipThickness).toBeGreaterThan(features[2]!.rootThickness);
  expect(relative(features[0]!.length, 0.02)).toBeLessThan(1e-3);
});

test('mirror images measure alike', async () => {
  const tapered = (side: 1 | -1) =>
    mapped(frustum(0.003, 0.0015, 0.03, 48), ([x, y, z]) => [0.01 - side * y, side * (x + 0.001), z]);
  const boxOf = (side: 1 | -1) =>
    ({ min: [-0.01, side > 0 ? 0.005 : -0.04, -0.01], max: [0.03, side > 0 ? 0.04 : -0.005, 0.01] }) as const;
  const [left, right] = await Promise.all(
    ([1, -1] as const).map(async (side) => {
      const request = {
        name: 'leg',
        kind: 'leg',
        box: boxOf(side),
        root: side > 0 ? 'left' : 'right',
      } as const;
      return (await measureBait(tapered(side), [request])).features[0]!;
    }),
  );
  expect(relative(left!.length, 0.026)).toBeLessThan(1e-3);
  expect(relative(left!.length, right!.length)).toBeLessThan(1e-3);
  expect(relative(left!.thinnest.thickness, right!.thinnest.thickness)).toBeLessThan(1e-3);
});

test('a request without a line, a box or a point is refused', async () => {
  await expect(measureBait(box([0.01, 0.01, 0.01]), [{ name: 'tail', kind: 'fin' }])).rejects.toThrow(
    'tail: wants a middle line, a box or a point, got none',
  );
});

describe('oblique sections', () => {
  test('of a cube across its diagonal is a regular hexagon of edge 1/√2', () => {
    const tree = boxTree(box([1, 1, 1]));
    const section = obliqueSection(tree, frameAcross([0.5, 0.5, 0.5], [1, 1, 1]));
    expect(relative(sectionArea(section), (3 * Math.sqrt(3)) / 4)).toBeLessThan(1e-12);
    const part = partAt(section, [0, 0])!;
    expect(relative(part.thickness, Math.sqrt(3) / Math.SQRT2)).toBeLessThan(1e-4);
  });
  test('take the part that holds the point, not the larger one elsewhere', () => {
    const tree = boxTree(torus(0.02, 0.005, 90, 48));
    const section = obliqueSection(tree, frameAcross([0.02, 0, 0], [0, 1, 0]));
    const part = partAt(section, [0, 0])!;
    expect(relative(part.area, sectionArea(section) / 2)).toBeLessThan(1e-9);
    expect(relative(part.thickness, 0.01 * Math.cos(Math.PI / 48))).toBeLessThan(1e-4);
  });
  test('give nothing far from every part', () => {
    const tree = boxTree(box([0.01, 0.01, 0.01]));
    expect(partAt(obliqueSection(tree, frameAcross([0.05, 0, 0.005], [0, 0, 1])), [0, 0])).toBeNull();
  });
  test('a ring in plan keeps its hole', () => {
    const tree = boxTree(torus(0.02, 0.005, 360, 48));
    const part = partAt(obliqueSection(tree, frameAcross([0.02, 0, 0], [0, 0, 1])), [0, 0])!;
    expect(relative(part.thickness, 0.01)).toBeLessThan(1e-3);
    expect(relative(part.area, Math.PI * (0.025 ** 2 - 0.015 ** 2))).toBeLessThan(1e-3);
  });
});
