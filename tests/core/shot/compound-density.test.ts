import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  compoundDensity,
  fillerMassFraction,
  hotDensity,
  mixtureDensity,
  resinMassFraction,
  resinVolumeFraction,
} from '../../../src/core/shot/compound-density.ts';
import { MICROBALLOONS, PLASTICISERS, SALT, type Plasticiser } from '../../../src/core/shot/constituents.ts';

// Additive volumes of PVC 1400 (Titow, PVC Technology, 4th ed., App. 1) with DINP 972, DEHT 984, DOA 925 and
// ATBC 1046 kg/m³, worked out by hand to full precision. Relative tolerance 1e-6.
const BY_RULE: readonly (readonly [number, Record<Exclude<Plasticiser, 'DEHP'>, number>, number])[] = [
  [50, { DINP: 1220.8133971, DEHT: 1227.0783848, DOA: 1195.3846154, ATBC: 1258.0756014 }, 0.58133971],
  [100, { DINP: 1147.3861721, DEHT: 1155.704698, DOA: 1113.9784946, ATBC: 1197.3834832 }, 0.40978078],
  [150, { DINP: 1107.421875, DEHT: 1116.7315175, DOA: 1070.2479339, ATBC: 1163.6999364 }, 0.31640625],
  [200, { DINP: 1082.290562, DEHT: 1092.1775899, DOA: 1042.953013, ATBC: 1142.2776911 }, 0.25768823],
  [300, { DINP: 1052.4361949, DEHT: 1062.962963, DOA: 1010.7317073, ATBC: 1116.584064 }, 0.18793503],
  [400, { DINP: 1035.3012781, DEHT: 1046.1725395, DOA: 992.3371648, ATBC: 1101.7153175 }, 0.14790018],
  [500, { DINP: 1024.1846463, DEHT: 1035.2705411, DOA: 980.4416404, ATBC: 1092.0208799 }, 0.12192674],
];

describe.each(BY_RULE)('%i phr', (phr, densities, resinVolume) => {
  test.each(Object.entries(densities))('of %s', (name, expected) => {
    const plasticiser = name as Plasticiser;
    const density = compoundDensity({ plasticiser, phr, salt: 0, microballoons: 0 });
    expect(Math.abs(density.value / expected - 1)).toBeLessThan(1e-6);
    expect(density.low / density.value).toBeCloseTo(0.98, 12);
    expect(density.high / density.value).toBeCloseTo(1.02, 12);
  });

  test('volume fraction of resin with DINP', () => {
    expect(resinVolumeFraction(phr, PLASTICISERS.DINP.density.value)).toBeCloseTo(resinVolume, 7);
    expect(resinMassFraction(phr)).toBeCloseTo(100 / (100 + phr), 15);
  });
});

// Spirou et al., Phys. Med. Biol. 50 (2005) N141: a soft PVC gel measured at 1.00 ± 0.04 g/cm³.
test('a soft compound agrees with the measured gel within its error', () => {
  const soft = compoundDensity({ plasticiser: 'DINP', phr: 450, salt: 0, microballoons: 0 });
  expect(soft.low).toBeLessThan(1040);
  expect(soft.high).toBeGreaterThan(960);
});

describe('fillers', () => {
  const base = 1035.3012781497262;
  // The rule of mixtures solved for the filler, relative tolerance 1e-6.
  test.each([
    ['salt to 1100', SALT.density.value, 1100, 0.11271929899747969],
    ['salt to 1200', SALT.density.value, 1200, 0.26302937080267963],
    ['microspheres to 950', MICROBALLOONS.density.value, 950, 0.02149902590927918],
  ])('%s kg/m³', (_, filler, target, expected) => {
    const fraction = fillerMassFraction(base, filler, target);
    expect(Math.abs(fraction / expected - 1)).toBeLessThan(1e-6);
    const back = mixtureDensity([
      { fraction, density: filler },
      { fraction: 1 - fraction, density: base },
    ]);
    expect(back).toBeCloseTo(target, 8);
  });

  test('microspheres to 950 kg/m³ are 10.2 % of the volume', () => {
    const fraction = fillerMassFraction(base, 200, 950);
    expect((fraction * 950) / 200).toBeCloseTo(0.1021203730690761, 8);
  });

  test('a recipe with the fraction solved for has the target density', () => {
    const salt = fillerMassFraction(base, SALT.density.value, 1100);
    const density = compoundDensity({ plasticiser: 'DINP', phr: 400, salt, microballoons: 0 });
    expect(density.value).toBeCloseTo(1100, 6);
  });

  test('microspheres widen the band upwards: grades reach three times the nominal density', () => {
    const { value, low, high } = compoundDensity({
      plasticiser: 'DINP',
      phr: 400,
      salt: 0,
      microballoons: 0.02,
    });
    expect(high / value - 1).toBeGreaterThan(0.05);
    expect(1 - low / value).toBeLessThan(0.05);
  });

  test('refuses a target that no amount of filler reaches', () => {
    expect(() => fillerMassFraction(1035, 2165, 1000)).toThrow(
      'fillerMassFraction: wants a target between 1035 and 2165 kg/m³, got 1000',
    );
  });
});

describe('laws', () => {
  const recipe = fc.record({
    plasticiser: fc.constantFrom<Plasticiser>('DINP', 'DEHT', 'DOA', 'ATBC', 'DEHP'),
    phr: fc.double({ min: 50, max: 600, noNaN: true }),
    salt: fc.double({ min: 0, max: 0.5, noNaN: true }),
    microballoons: fc.double({ min: 0, max: 0.2, noNaN: true }),
  });

  test('the band is ordered, and lies between the lightest and the heaviest constituent', () => {
    fc.assert(
      fc.property(recipe, (r) => {
        const { low, value, high } = compoundDensity(r);
        expect(low).toBeLessThan(value);
        expect(value).toBeLessThan(high);
        expect(value).toBeGreaterThan(200);
        expect(value).toBeLessThan(2165);
      }),
      { seed: 11 },
    );
  });

  test('salt makes every recipe heavier', () => {
    fc.assert(
      fc.property(recipe, (r) => {
        const more = compoundDensity({ ...r, salt: r.salt + 0.05 });
        expect(more.value).toBeGreaterThan(compoundDensity(r).value);
      }),
      { seed: 12 },
    );
  });
});

test('hot density is 0.90 of cold, with both bands in it', () => {
  const hot = hotDensity({ value: 1000, low: 980, high: 1020 });
  expect(hot.value).toBeCloseTo(900, 9);
  // In logarithms: √(ln²0.98 + ln²(0.89/0.90)) = 0.02307 down, √(ln²1.02 + ln²(0.93/0.90)) = 0.03831 up.
  expect(hot.low).toBeCloseTo(900 * Math.exp(-0.02307), 1);
  expect(hot.high).toBeCloseTo(900 * Math.exp(0.03831), 1);
});

test('refuses fractions that do not add up', () => {
  expect(() => mixtureDensity([{ fraction: 0.9, density: 1000 }])).toThrow(
    'mixtureDensity: wants fractions that add up to 1, got 0.9',
  );
  expect(() => compoundDensity({ plasticiser: 'DINP', phr: 300, salt: 0.9, microballoons: 0.2 })).toThrow(
    /^compoundDensity: wants salt and microballoons .*, got 0\.9 and 0\.2$/u,
  );
});
