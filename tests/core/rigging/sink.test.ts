import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { band } from '../../../src/core/quantity/band.ts';
import {
  axialCylinderDrag,
  broadsideCylinderDrag,
  cylinderDragSuckerBrauer,
  sinkingCylinderDrag,
  sphereDragClift,
  sphereDragSchillerNaumann,
} from '../../../src/core/rigging/drag.ts';
import {
  floatOrSink,
  GRAVITY,
  noseFirstSpeed,
  settlingSpeed,
  sinkSpeed,
  submergedWeight,
  submergedWeightBand,
  terminalSpeed,
} from '../../../src/core/rigging/sink.ts';

const off = (got: number, expected: number): number => Math.abs(got / expected - 1);

// Schiller & Naumann (1933); Clift, Grace & Weber (1978), Table 5.2. Relative tolerance 1e-6.
test.each([
  [0.1, 247.4012061455, 244.2573268575],
  [1, 27.6, 27.156],
  [10, 4.1510659405, 4.2583905763],
  [100, 1.0917310911, 1.0870171642],
  [800, 0.4742580795, 0.4930806503],
])('sphere at Re %f', (reynolds, schillerNaumann, clift) => {
  expect(off(sphereDragSchillerNaumann(reynolds), schillerNaumann)).toBeLessThan(1e-6);
  expect(off(sphereDragClift(reynolds), clift)).toBeLessThan(1e-6);
});

test('the two sphere laws agree within 5 % where both hold, and tend to Stokes', () => {
  for (let re = 0.1; re < 1000; re *= 1.7) {
    expect(off(sphereDragClift(re), sphereDragSchillerNaumann(re))).toBeLessThan(0.05);
  }
  expect(off(sphereDragClift(1e-4), 24 / 1e-4)).toBeLessThan(1e-3);
});

// Clift, Grace & Weber's ranges meet: no jump above 1.5 % at their borders.
test.each([20, 260, 1500, 1.2e4, 4.4e4])('sphere law has no jump at Re %f', (border) => {
  expect(off(sphereDragClift(border * (1 + 1e-9)), sphereDragClift(border))).toBeLessThan(0.015);
});

// Clift, Grace & Weber (1978), Table 5.2, at Reynolds numbers of whole and half decades, w = log₁₀ Re, worked by hand:
// 4.5: −1.9181 + 0.637·4.5 − 0.0636·4.5² = −0.3395 and so on; a border belongs to the range below it.
test.each([
  ['0.01', 0.01, 3 / 16 + 2400],
  ['0.005', 0.005, 3 / 16 + 4800],
  ['20', 20, 1.2 * (1 + 0.1315 * 20 ** (0.82 - 0.05 * Math.log10(20)))],
  ['260', 260, (24 / 260) * (1 + 0.1935 * 260 ** 0.6305)],
  ['10^3', 1e3, 10 ** (1.6435 - 3.3726 + 1.4022)],
  ['10^4', 1e4, 10 ** (-2.4571 + 10.2232 - 14.872 + 6.7136)],
  ['10^4.5', 10 ** 4.5, 10 ** -0.3395],
  ['10^5', 1e5, 10 ** (-4.339 + 7.9045 - 3.865)],
])('sphere at Re %s', (_, reynolds, expected) => {
  expect(off(sphereDragClift(reynolds), expected)).toBeLessThan(1e-9);
});

// Sucker & Brauer (1975), from memory. Relative tolerance 1e-6.
test.each([
  [1, 9.9396000001],
  [10, 2.671816262],
  [100, 1.4489969816],
  [1000, 0.9632636524],
  [10000, 1.0945210039],
])('endless cylinder at Re %f', (reynolds, expected) => {
  expect(off(cylinderDragSuckerBrauer(reynolds), expected)).toBeLessThan(1e-6);
});

// Matthews, Aeronautical Engineer's Data Book (2002), p. 95.
test.each([
  [1, 0.63],
  [2, 0.68],
  [5, 0.74],
  [10, 0.82],
  [40, 0.98],
])('cylinder of slenderness %i broadside: %f', (slenderness, expected) => {
  expect(broadsideCylinderDrag(slenderness)).toBeCloseTo(expected, 12);
});
test.each([
  [1, 0.91],
  [2, 0.85],
  [4, 0.87],
  [7, 0.99],
])('cylinder of slenderness %i along the flow: %f', (slenderness, expected) => {
  expect(axialCylinderDrag(slenderness)).toBeCloseTo(expected, 12);
});

// Straight in the logarithm of the slenderness: half-way at the geometric mean of two rows.
test.each([
  [1, 2, (0.63 + 0.68) / 2],
  [2, 5, (0.68 + 0.74) / 2],
  [5, 10, (0.74 + 0.82) / 2],
  [10, 40, (0.82 + 0.98) / 2],
])('broadside between slenderness %i and %i: %f', (from, to, expected) => {
  expect(broadsideCylinderDrag(Math.sqrt(from * to))).toBeCloseTo(expected, 12);
});
test.each([
  [1, 2, (0.91 + 0.85) / 2],
  [2, 4, (0.85 + 0.87) / 2],
  [4, 7, (0.87 + 0.99) / 2],
])('along the flow between slenderness %i and %i: %f', (from, to, expected) => {
  expect(axialCylinderDrag(Math.sqrt(from * to))).toBeCloseTo(expected, 12);
});

// 1.2 less the lack of 0.22 at 40, which falls with the slenderness: half of it at 80.
test('broadside at 80: 1.09', () => {
  expect(broadsideCylinderDrag(80)).toBeCloseTo(1.09, 12);
});

test('slow flow scales a finite cylinder as an endless one', () => {
  const slow = cylinderDragSuckerBrauer(10) / cylinderDragSuckerBrauer(1000);
  expect(off(sinkingCylinderDrag(10, 5), 0.74 * slow)).toBeLessThan(1e-12);
});

test('broadside drag tends to that of an endless cylinder, without a jump', () => {
  expect(broadsideCylinderDrag(1e9)).toBeCloseTo(1.2, 6);
  expect(broadsideCylinderDrag(40.0001)).toBeCloseTo(0.98, 5);
  expect(sinkingCylinderDrag(5000, 10)).toBeCloseTo(0.82, 12);
  expect(sinkingCylinderDrag(999.999, 10)).toBeCloseTo(0.82, 5);
  expect(sinkingCylinderDrag(10, 10)).toBeGreaterThan(2);
});

const WATER = { density: 998.2071, viscosity: 0.0010016 };

describe('terminal speed, fresh water at 20 °C (998.2071 kg/m³, 1.0016 mPa·s)', () => {
  const sphere = (diameter: number, density: number) => {
    const volume = (Math.PI / 6) * diameter ** 3;
    return {
      weight: submergedWeight({ volume, density }, WATER.density),
      area: (Math.PI / 4) * diameter ** 2,
      diameter,
      water: WATER.density,
      viscosity: WATER.viscosity,
    };
  };

  // Force balance with the drag laws above, solved independently; relative tolerance 1e-4.
  test('sphere of 10 mm and 1100 kg/m³: 0.17612 m/s', () => {
    expect(off(settlingSpeed(sphere(0.01, 1100), sphereDragClift), 0.176118237603)).toBeLessThan(1e-4);
  });
  test('sphere of 3 mm and 1050 kg/m³: 0.046513 m/s', () => {
    expect(off(settlingSpeed(sphere(0.003, 1050), sphereDragSchillerNaumann), 0.046512581283)).toBeLessThan(
      1e-4,
    );
  });

  const cylinder = (d: number, length: number) => (Math.PI / 4) * d ** 2 * length;

  // Matthews (2002), p. 95, C = 0.82 at 10 and 0.99 at 7; relative tolerance 1e-6.
  test('cylinder 10 × 100 mm, 1050 kg/m³, broadside: 0.098727 m/s', () => {
    const weight = submergedWeight({ volume: cylinder(0.01, 0.1), density: 1050 }, WATER.density);
    expect(off(terminalSpeed(weight, 0.001, WATER.density, 0.82), 0.09872749940529)).toBeLessThan(1e-6);
  });
  test('cylinder 10 × 70 mm, 1050 kg/m³, along the flow: 0.268245 m/s', () => {
    const weight = submergedWeight({ volume: cylinder(0.01, 0.07), density: 1050 }, WATER.density);
    const area = (Math.PI / 4) * 0.01 ** 2;
    expect(off(terminalSpeed(weight, area, WATER.density, 0.99), 0.2682449443162)).toBeLessThan(1e-6);
  });
  test('the same with 2 g of steel: 0.021108 N, 0.227104 m/s', () => {
    const ballast = [{ mass: 0.002, density: 7850 }];
    const weight = submergedWeight({ volume: cylinder(0.01, 0.1), density: 1050, ballast }, WATER.density);
    expect(off(weight, 0.02110842387)).toBeLessThan(1e-6);
    expect(off(terminalSpeed(weight, 0.001, WATER.density, 0.82), 0.22710445184)).toBeLessThan(1e-6);
  });
  test('1 % of density is 13.6 % of speed at 1035 kg/m³', () => {
    const speed = (density: number) =>
      terminalSpeed(submergedWeight({ volume: 1e-5, density }, WATER.density), 1e-3, WATER.density, 0.82);
    const slope = (speed(1035 + 0.01) - speed(1035 - 0.01)) / 0.02;
    expect(off((slope * 10) / speed(1035), 0.1358957842)).toBeLessThan(1e-6);
  });
});

test('a drag law that does not settle is given up after 200 steps', () => {
  let calls = 0;
  const restless = () => (calls++ % 2 === 0 ? 4 : 1);
  const fall = { weight: 0.01, area: 1e-3, diameter: 0.01, water: 998, viscosity: 1e-3 };
  expect(() => settlingSpeed(fall, restless)).toThrow(
    /^settlingSpeed: wants a drag law that settles, got \d\.\d+ m\/s after 200 steps$/u,
  );
  expect(calls).toBe(200);
});

describe('the band of a speed, in a law of v ~ √(weight/drag)', () => {
  // Law of propagation in logarithms: ln v moves by half of ln weight and half of ln drag, squares added.
  const half = (weight: number, drag: number) => Math.hypot(Math.log(weight) / 2, Math.log(drag) / 2);
  const water = { density: 1000, viscosity: 1e-3 };
  // Weights under water go as 100 : 50 : 160.
  const density = band(1100, 1050, 1160);

  test('on its flat, drag −15 % to +20 %', () => {
    const bait = { volume: 1.2e-5, length: 0.127, area: 1.5e-3, density };
    const { value, low, high } = sinkSpeed(bait, water)!;
    expect(off(low, value * Math.exp(-half(2, 1.2)))).toBeLessThan(1e-9);
    expect(off(high, value * Math.exp(half(1.6, 1 / 0.85)))).toBeLessThan(1e-9);
  });

  test('nose first, drag 0.3 to 1.2 times', () => {
    const bait = { volume: 1.2e-5, length: 0.127, section: 1.5e-4, density };
    const { value, low, high } = noseFirstSpeed(bait, water)!;
    expect(off(low, value * Math.exp(-half(2, 1.2)))).toBeLessThan(1e-9);
    expect(off(high, value * Math.exp(half(1.6, 1 / 0.3)))).toBeLessThan(1e-9);
  });

  test('a density that reaches down to that of water: from 0; at that of water: no speed', () => {
    const bait = { volume: 1.2e-5, length: 0.127, section: 1.5e-4 };
    const at = (...density: [number, number, number]) =>
      noseFirstSpeed({ ...bait, density: band(...density) }, water);
    expect(at(1100, 1000, 1160)!.low).toBe(0);
    expect(at(1100, 1000.5, 1160)!.low).toBeGreaterThan(0);
    expect(off(at(1100, 900, 1160)!.high, at(1100, 1050, 1160)!.high)).toBeLessThan(1e-9);
    expect(at(1000, 990, 1010)).toBeNull();
  });

  test('a bait shorter than it is thick counts as long as it is thick', () => {
    // A disc 10 mm thick, 80 mm across: 0.91 on its face, 0.63 broadside.
    const section = (Math.PI / 4) * 0.08 ** 2;
    const disc = { volume: section * 0.01, length: 0.01, section, density: band(1100) };
    const weight = submergedWeight({ volume: disc.volume, density: 1100 }, 1000);
    expect(off(noseFirstSpeed(disc, water)!.value, terminalSpeed(weight, section, 1000, 0.91))).toBeLessThan(
      1e-12,
    );
    const wide = { volume: disc.volume, length: 0.04, area: 0.04 * 0.08, density: band(1100) };
    expect(off(sinkSpeed(wide, water)!.value, terminalSpeed(weight, wide.area, 1000, 0.63))).toBeLessThan(
      1e-9,
    );
  });
});

test('exactly as heavy as water at one end of the band: it may float or sink', () => {
  expect(floatOrSink({ value: 1, low: 0, high: 2 })).toBe('may float or sink');
  expect(floatOrSink({ value: -1, low: -2, high: 0 })).toBe('may float or sink');
});

test('the band of a weight follows that of the density: 9.80665 N for each 100 kg/m³ of 10 litres', () => {
  const weight = submergedWeightBand({ volume: 0.01, density: band(1100, 900, 1300) }, 1000);
  expect(weight.value).toBeCloseTo(GRAVITY, 12);
  expect(weight.low).toBeCloseTo(-GRAVITY, 12);
  expect(weight.high).toBeCloseTo(3 * GRAVITY, 12);
  expect(submergedWeight({ volume: 0.01, density: 1100 }, 1000)).toBeCloseTo(GRAVITY, 12);
});

describe('a bait', () => {
  const bait = { volume: 1.2e-5, length: 0.127, area: 1.5e-3 };

  test('sinks, floats or may do either, as sure as its density', () => {
    const verdict = (density: ReturnType<typeof band>, hook = 0) =>
      floatOrSink(
        submergedWeightBand({ ...bait, density, ballast: [{ mass: hook, density: 7850 }] }, WATER.density),
      );
    expect(verdict(band(1035, 1014, 1056))).toBe('sinks');
    expect(verdict(band(1000, 980, 1020))).toBe('may float or sink');
    expect(verdict(band(955, 920, 990))).toBe('floats');
    expect(verdict(band(1000, 980, 1020), 0.001)).toBe('sinks');
  });

  test('a salted one sinks at a speed whose band comes from density and drag', () => {
    const speed = sinkSpeed({ ...bait, density: band(1123, 1101, 1146) }, WATER);
    expect(speed).not.toBeNull();
    if (speed === null) return;
    const weight = (1123 - WATER.density) * bait.volume * GRAVITY;
    const cylinder =
      0.82 + ((0.98 - 0.82) * Math.log(bait.length / (bait.area / bait.length) / 10)) / Math.log(4);
    expect(off(speed.value, terminalSpeed(weight, bait.area, WATER.density, cylinder))).toBeLessThan(1e-9);
    expect(speed.low).toBeLessThan(speed.value / Math.sqrt(1.2));
    expect(speed.high).toBeGreaterThan(speed.value / Math.sqrt(0.85));
  });

  test('has no sink speed when it floats, and reaches down to 0 when it may hang', () => {
    expect(sinkSpeed({ ...bait, density: band(950, 930, 970) }, WATER)).toBeNull();
    expect(sinkSpeed({ ...bait, density: band(1010, 990, 1030) }, WATER)?.low).toBe(0);
  });

  test('heavier never sinks slower', () => {
    fc.assert(
      fc.property(fc.double({ min: 1000, max: 1300, noNaN: true }), (density) => {
        const slow = sinkSpeed({ ...bait, density: band(density) }, WATER)?.value ?? NaN;
        const fast = sinkSpeed({ ...bait, density: band(density + 5) }, WATER)?.value ?? NaN;
        expect(fast).toBeGreaterThan(slow);
      }),
      { seed: 41 },
    );
  });
});
