import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { isClosedSurface } from '../../../src/core/mesh/edges.ts';
import { massProperties, meshSurface, meshVolume } from '../../../src/core/mesh/mass-properties.ts';
import { bodyOf, type BodyStation, type BodyTable } from '../../../src/core/solid/body.ts';
import { loft, outlinePoint } from '../../../src/core/solid/loft.ts';

const station = (at: number, width: number, height: number, roundness = 2): BodyStation => ({
  at,
  width,
  above: height / 2,
  below: height / 2,
  roundness,
});

/** Constant section over a length, ends rounded off over the given lengths. */
const bar = (length: number, width: number, height: number, rounding: number, roundness = 2): BodyTable => ({
  stations: [0, length / 2, length].map((at) => station(at, width, height, roundness)),
  noseRounding: rounding,
  tailRounding: rounding,
});

const sines = (count: number): BodyTable => ({
  stations: Array.from({ length: count + 1 }, (_, i) => {
    const size = i === 0 || i === count ? 0 : 10 * Math.sin((Math.PI * i) / count);
    return station((100 * i) / count, size, size);
  }),
  noseRounding: 0,
  tailRounding: 0,
});

// Standard solid geometry (Zwillinger, CRC Standard Mathematical Tables); the ellipsoid's surface by incomplete
// elliptic integrals (DLMF 19.33); superellipse areas by the beta function (DLMF 5.12). Surfaces of the taper and of the
// superellipse bars, which have no closed form: ∫|rₜ × rₓ| and the arc length of the rim by quadrature to 25 digits (mpmath).
const SOLIDS: { name: string; table: BodyTable; volume: number; surface: number }[] = [
  { name: 'capsule', table: bar(26, 6, 6, 3), volume: 678.5840131753953, surface: 490.0884539600077 },
  { name: 'sphere', table: bar(10, 10, 10, 5), volume: 523.5987755982989, surface: 314.1592653589793 },
  { name: 'ellipsoid', table: bar(8, 6, 4, 4), volume: 100.53096491487338, surface: 111.54576989401032 },
  {
    name: 'frustum',
    table: { stations: [station(0, 10, 10), station(12, 6, 6)], noseRounding: 0, tailRounding: 0 },
    volume: 615.7521601035994,
    surface: 305.7529932594584 + Math.PI * (25 + 9),
  },
  {
    name: 'elliptic taper',
    table: { stations: [station(0, 12, 10), station(80, 4, 2)], noseRounding: 0, tailRounding: 0 },
    volume: 3351.032163829113,
    surface: 1771.7072300452885 + Math.PI * (6 * 5 + 2 * 1),
  },
  {
    name: 'superellipse bar, exponent 2.5',
    table: bar(7, 12, 8, 0, 2.5),
    volume: 7 * 81.14244870089722,
    surface: 7 * 32.982966664322966 + 2 * 81.14244870089722,
  },
  {
    name: 'superellipse bar, exponent 4',
    table: bar(7, 12, 8, 0, 4),
    volume: 7 * 88.99558451046589,
    surface: 7 * 35.24222992447886 + 2 * 88.99558451046589,
  },
];

describe.each(SOLIDS)('$name', ({ table, volume, surface }) => {
  const at = (fineness: number) => loft(bodyOf(table), { around: 32 * fineness, along: 16 * fineness });

  test('comes to the closed form at second order', () => {
    const [coarse, fine] = [1, 2].map((fineness) => Math.abs(meshVolume(at(fineness)) - volume));
    expect(Math.log2(coarse! / fine!)).toBeGreaterThan(1.9);
    expect(Math.abs(meshVolume(at(8)) / volume - 1)).toBeLessThan(3e-4);
  });

  test('so does its surface', () => {
    const [coarse, fine] = [1, 2].map((fineness) => Math.abs(meshSurface(at(fineness)) - surface));
    expect(Math.log2(coarse! / fine!)).toBeGreaterThan(1.8);
    expect(Math.abs(meshSurface(at(8)) / surface - 1)).toBeLessThan(3e-4);
  });

  test('is closed', () => {
    expect(isClosedSurface(at(1))).toBe(true);
  });
});

test('a sine spindle from a table comes to its closed form at second order of the stations', () => {
  // Solid of revolution r = R sin(πx/L), R 5, L 100: V = πR²L/2.
  const volume = 3926.9908169872415;
  const error = (count: number) => {
    const mesh = loft(bodyOf(sines(count)), { around: 256, along: 320 });
    return Math.abs(meshVolume(mesh) / volume - 1);
  };
  expect(Math.log2(error(8) / error(16))).toBeGreaterThan(1.9);
  expect(error(64)).toBeLessThan(2e-4);
});

// On the diagonals of the unit square a superellipse of exponent n lies at 2^(−1/n) in both directions.
test.each([1, 2, 2.5, 4])(
  'an outline of exponent %d: its corners and its diagonals, above and below',
  (roundness) => {
    const section = { halfWidth: 6, above: 3, below: 2, roundness };
    const share = 2 ** (-1 / roundness);
    const by = [[6, 0], [6 * share, 3 * share], [0, 3], [-6 * share, 3 * share], [-6, 0], [-6 * share, -2 * share], [0, -2], [6 * share, -2 * share]] as const; // prettier-ignore
    by.forEach(([y, z], i) => {
      const point = outlinePoint(section, (i * Math.PI) / 4);
      expect(point[0]).toBeCloseTo(y, 12);
      expect(point[1]).toBeCloseTo(z, 12);
    });
  },
);

/** Points of a ring, or of all rings of a mesh with as many points each. */
const points = ({ positions }: { positions: Float64Array }) =>
  Array.from({ length: positions.length / 3 }, (_, i) => [...positions.slice(3 * i, 3 * i + 3)]);

test('rings of a flat-ended bar: their points, axes exactly on the axes, and the middles of both ends', () => {
  const stations = [0, 10].map((at) => ({ at, width: 8, above: 3, below: 1, roundness: 2 }));
  const mesh = loft(bodyOf({ stations, noseRounding: 0, tailRounding: 0 }), { around: 8, along: 4 });
  const [first, last] = [points(mesh).slice(0, 8), points(mesh).slice(-2)];
  const half = Math.SQRT1_2;
  const near = (value: number): number => expect.closeTo(value, 12) as number;
  expect(first).toEqual([
    [0, near(4), 0],
    [0, near(4 * half), near(3 * half)],
    [0, 0, near(3)],
    [0, near(-4 * half), near(3 * half)],
    [0, near(-4), 0],
    [0, near(-4 * half), near(-half)],
    [0, 0, near(-1)],
    [0, near(4 * half), near(-half)],
  ]);
  expect(last).toEqual([
    [0, 0, 1],
    [10, 0, 1],
  ]);
});

/** Places of the rings along the bait, each once. */
const ringsAt = (table: BodyTable, around: number, along: number) =>
  [...new Set(points(loft(bodyOf(table), { around, along })).map(([x]) => x!))].sort((a, b) => a - b);
const near = (values: number[]): number[] => values.map((value) => expect.closeTo(value, 12) as number);

test('rings stand evenly between breaks, each stretch with its share of the steps and at least two', () => {
  const stations = [0, 10, 40].map((at) => station(at, 5, 5));
  const flat = { stations, noseRounding: 0, tailRounding: 0 };
  expect(ringsAt(flat, 8, 4)).toEqual([0, 5, 10, 20, 30, 40]);
  expect(ringsAt(flat, 8, 10)).toEqual(near([0, 10 / 3, 20 / 3, 10, 13.75, 17.5, 21.25, 25, 28.75, 32.5, 36.25, 40])); // prettier-ignore
});

test('in a rounded end they are crowded as equal angles of a circle are, a quarter of the points round', () => {
  const stations = [0, 60].map((at) => station(at, 20, 20));
  const by = [0, 22.5, 45, 67.5, 90].map((degrees) => 10 * (1 - Math.cos((degrees * Math.PI) / 180)));
  const nose = ringsAt({ stations, noseRounding: 10, tailRounding: 0 }, 16, 5);
  expect(nose).toEqual(near([...by, 20, 30, 40, 50, 60]));
  const tail = ringsAt({ stations, noseRounding: 0, tailRounding: 10 }, 16, 5);
  expect(tail).toEqual(near([0, 10, 20, 30, 40, ...by.map((x) => 60 - x).reverse()]));
});

test('heights above and below may differ: each half is its own half ellipse', () => {
  const stations = [0, 5, 10].map((at) => ({ at, width: 8, above: 3, below: 1, roundness: 2 }));
  const mesh = loft(bodyOf({ stations, noseRounding: 0, tailRounding: 0 }), { around: 512, along: 8 });
  expect(meshVolume(mesh) / ((Math.PI / 2) * 4 * (3 + 1) * 10)).toBeCloseTo(1, 4);
  const { box } = massProperties(mesh);
  expect(box.min).toEqual([0, -4, -1]);
  expect(box.max).toEqual([10, 4, 3]);
});

test('a flat side is a flat side', () => {
  const stations = [0, 5, 10].map((at) => ({ at, width: 8, above: 3, below: 0, roundness: 2 }));
  const mesh = loft(bodyOf({ stations, noseRounding: 1, tailRounding: 1 }), { around: 64, along: 16 });
  expect(isClosedSurface(mesh)).toBe(true);
  expect(massProperties(mesh).box.min[2]).toBe(0);
});

test('a ring adds the volume of its profile', () => {
  // π∫((r+δ)² − r²)dx with δ flat on the crown and half a cosine on both flanks: means ½ and ⅜.
  const [radius, length, proud, root, crown] = [5, 40, 1, 4, 1.5];
  const flanks = root - crown;
  const gain =
    Math.PI * (2 * radius * proud * (crown + flanks / 2) + proud ** 2 * (crown + (3 / 8) * flanks));
  const around = 64;
  const resolution = { around, along: 800 };
  // Sections are regular polygons inscribed in circles.
  const polygon = Math.sin((2 * Math.PI) / around) / ((2 * Math.PI) / around);
  const plain = bar(length, 2 * radius, 2 * radius, 0);
  const rings = [10, 20].map((at) => ({ at, proud, root, crown }));
  const ringed = meshVolume(loft(bodyOf({ ...plain, rings }), resolution));
  expect((ringed - meshVolume(loft(bodyOf(plain), resolution))) / (2 * gain * polygon)).toBeCloseTo(1, 4);
});

test('volume grows with the cube of the size and does not depend on the unit', () => {
  const table = bar(26, 6, 5, 3);
  const grown = (by: number): BodyTable => ({
    stations: table.stations.map((s) => ({
      ...s,
      at: s.at * by,
      width: s.width * by,
      above: s.above * by,
      below: s.below * by,
    })),
    noseRounding: 3 * by,
    tailRounding: 3 * by,
  });
  const own = meshVolume(loft(bodyOf(table), { around: 32, along: 16 }));
  for (const by of [1e-6, 1e-3, 2, 1e6]) {
    expect(meshVolume(loft(bodyOf(grown(by)), { around: 32, along: 16 })) / (own * by ** 3)).toBeCloseTo(
      1,
      10,
    );
  }
});

test('any table in order gives one closed body with positive volume inside its own box (seed 7)', () => {
  const size = fc.double({ min: 0.5, max: 20, noNaN: true });
  const tables = fc.array(
    fc.record({
      gap: size,
      width: size,
      above: size,
      below: size,
      roundness: fc.double({ min: 1.2, max: 10, noNaN: true }),
    }),
    { minLength: 3, maxLength: 8 },
  );
  fc.assert(
    fc.property(tables, (rows) => {
      let at = 0;
      const stations = rows.map(({ gap, ...sizes }, i) => ({ ...sizes, at: (at += i === 0 ? 0 : gap + 20) }));
      const mesh = loft(bodyOf({ stations }), { around: 16, along: 12 });
      const { box, volume } = massProperties(mesh);
      expect(isClosedSurface(mesh)).toBe(true);
      expect(volume).toBeGreaterThan(0);
      expect(box.min[0]).toBe(0);
      expect(box.max[0]).toBeCloseTo(at, 9);
      expect(box.max[1]).toBeLessThanOrEqual(Math.max(...stations.map(({ width }) => width)) / 2 + 1e-12);
    }),
    { seed: 7, numRuns: 60 },
  );
});

describe('refuses', () => {
  const stations = bar(20, 5, 5, 1).stations;
  test.each<[string, BodyTable, string]>([
    [
      'stations out of order',
      { stations: [stations[0]!, stations[2]!, stations[1]!] },
      'got 10000 mm after 20000 mm in station 3',
    ],
    ['a first station off the nose', { stations: stations.slice(1) }, 'wants the first at 0 mm, the nose'],
    [
      'a section without height',
      { stations: [stations[0]!, station(10, 5, 0), stations[2]!] },
      'in station 2',
    ],
    [
      'numbers that are none',
      { stations: [stations[0]!, station(10, NaN, 5), stations[2]!] },
      'wants finite numbers',
    ],
    ['roundings longer than the body', { stations, noseRounding: 12, tailRounding: 12 }, 'within the body'],
    [
      'ribs without draft',
      { stations, rings: [{ at: 10, proud: 1, root: 1, crown: 1 }] },
      'narrower than the root',
    ],
    [
      'ribs off the body',
      { stations, rings: [{ at: 19.9, proud: 1, root: 2, crown: 1 }] },
      'all of them on the body',
    ],
  ])('%s', (_, table, message) => {
    expect(() => bodyOf(table)).toThrow(message);
  });

  test.each([
    [6, 20],
    [4, 20],
    [10, 20],
    [8.5, 20],
    [NaN, 20],
    [8, 3.9],
    [8, NaN],
  ])('%d points round and %d steps along', (around, along) => {
    expect(() => loft(bodyOf({ stations }), { around, along })).toThrow(
      `loft: wants around a multiple of 4 from 8 up and along from 4 up, got ${around}, ${along}`,
    );
  });
});
