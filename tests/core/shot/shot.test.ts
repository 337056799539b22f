import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { band } from '../../../src/core/quantity/band.ts';
import { toSI } from '../../../src/core/quantity/units.ts';
import { batchFor, sprueShare, yieldOf } from '../../../src/core/shot/batch.ts';
import { channelVolume, gateVolume, runnerVolume, sprueVolume } from '../../../src/core/shot/channels.ts';
import { smallestInjector, wholeShots } from '../../../src/core/shot/injector-fit.ts';
import { baitMass, shotMass, shotVolume } from '../../../src/core/shot/shot-volume.ts';

describe('channels against closed forms', () => {
  // π·12·(25 + 15 + 9)/3 for radii 5 and 3: CRC Standard Mathematical Tables, frustum of a cone.
  test('frustum of radii 5 and 3 mm, 12 mm long: 615.752160 mm³', () => {
    const volume = sprueVolume({ mouth: 10e-3, end: 6e-3, length: 12e-3 });
    expect(volume * 1e9).toBeCloseTo(615.75216, 5);
  });

  test('a frustum that does not taper is a cylinder', () => {
    const straight = sprueVolume({ mouth: 6e-3, end: 6e-3, length: 40e-3 });
    expect(straight).toBeCloseTo(runnerVolume({ diameter: 6e-3, length: 40e-3 }), 18);
  });

  test('channels add up, one gate a cavity', () => {
    const sprue = { mouth: 10e-3, end: 6e-3, length: 12e-3 };
    const runner = { diameter: 6e-3, length: 40e-3 };
    const gate = { width: 4e-3, depth: 2e-3, length: 3e-3 };
    const sum = 615.75216 + Math.PI * 9 * 40 + 4 * 24;
    expect(channelVolume({ sprue, runner, gate, cavities: 4 }) * 1e9).toBeCloseTo(sum, 5);
    expect(channelVolume({ sprue, gate, cavities: 1 }) * 1e9).toBeCloseTo(615.75216 + 24, 5);
    expect(gateVolume(gate) * 1e9).toBeCloseTo(24, 9);
  });

  test('refuses a sprue without length', () => {
    expect(() => sprueVolume({ mouth: 1e-2, end: 6e-3, length: 0 })).toThrow(
      'sprueVolume: length: wants a finite number above 0, got 0',
    );
  });
});

describe('shot', () => {
  const space = { cavity: 6e-6, cavities: 4, runner: 5e-6, topOffShare: band(0.03, 0, 0.06) };

  test('total = cavities + their top-off + runner', () => {
    const shot = shotVolume(space);
    expect(shot.topOff.value * 1e6).toBeCloseTo(0.72, 9);
    expect(shot.total.value * 1e6).toBeCloseTo(29.72, 9);
    expect(shot.total.low * 1e6).toBeCloseTo(29, 9);
    expect(shot.total.high * 1e6).toBeCloseTo(30.44, 9);
  });

  test('mass of the melt agrees with baits and channels at the nominals', () => {
    const cured = band(1040, 1019.2, 1060.8);
    const shot = shotVolume(space);
    const melt = shotMass(shot.total, band(936));
    const baits = 4 * baitMass(6e-6, cured, space.topOffShare).value;
    expect(melt.value).toBeCloseTo(baits + 5e-6 * 936, 12);
  });

  test('a bait weighs between a cavity of hot melt and a cavity of cured compound', () => {
    const exact = band(1040);
    const mass = baitMass(6e-6, exact, space.topOffShare);
    expect(mass.low * 1e3).toBeCloseTo(6 * 1.04 * 0.89, 9);
    expect(mass.value * 1e3).toBeCloseTo(6 * 1.04 * 0.9 * 1.03, 9);
    expect(mass.high * 1e3).toBeCloseTo(6 * 1.04, 9);
  });

  test('bigger in every part never takes less', () => {
    const positive = fc.double({ min: 1e-7, max: 1e-4, noNaN: true });
    fc.assert(
      fc.property(positive, positive, fc.integer({ min: 1, max: 48 }), (cavity, runner, cavities) => {
        const small = shotVolume({ ...space, cavity, runner, cavities }).total;
        const large = shotVolume({ ...space, cavity: cavity * 1.1, runner: runner * 1.1, cavities }).total;
        expect(large.low).toBeGreaterThan(small.low);
        expect(small.low).toBeLessThanOrEqual(small.value);
        expect(small.value).toBeLessThanOrEqual(small.high);
      }),
      { seed: 21 },
    );
  });
});

describe('injector', () => {
  const fluidOunces = (n: number) => toSI(n, '[foz_us]');

  test('holds a shot with 10 % to spare, and not one with less', () => {
    const capacity = fluidOunces(4);
    expect(wholeShots(band(capacity / 1.1), capacity)).toBe(1);
    expect(wholeShots(band(capacity / 1.09), capacity)).toBe(0);
    expect(wholeShots(band(capacity / 3.4), capacity)).toBe(3);
  });

  test('the high end of the band decides', () => {
    const capacity = fluidOunces(4);
    expect(wholeShots(band(capacity / 1.2, capacity / 1.3, capacity / 1.05), capacity)).toBe(0);
  });

  test('the smallest that holds it is named, or none', () => {
    const listed = [8, 2, 4, 6].map((n) => ({ name: `${n} fl oz`, capacity: fluidOunces(n) }));
    expect(smallestInjector(band(fluidOunces(3)), listed)?.name).toBe('4 fl oz');
    expect(smallestInjector(band(fluidOunces(7.5)), listed)).toBeNull();
  });
});

describe('batch', () => {
  const share = { cavities: 4, shotMass: band(0.03, 0.029, 0.031), baitMass: band(0.006, 0.0058, 0.0063) };
  const cured = band(1040, 1020, 1060);

  test('100 baits of a four-cavity mold: 25 cycles, 825 g with what clings', () => {
    const batch = batchFor(100, share, cured);
    expect(batch.shots).toBe(25);
    expect(batch.compound.value).toBeCloseTo(25 * 0.03 * 1.1, 12);
    expect(batch.liquid.value).toBeCloseTo(0.825 / 1040, 12);
    expect(batch.remelt.value).toBeCloseTo(25 * (0.03 - 4 * 0.006), 12);
  });

  test('a started cycle is a cycle', () => {
    expect(batchFor(101, share, cured).shots).toBe(26);
    expect(batchFor(1, share, cured).shots).toBe(1);
  });

  test('a quart gives whole shots only, and as many baits again from its sprues as they weigh', () => {
    const quart = toSI(1, '[qt_us]');
    const got = yieldOf(quart, share, cured);
    const mass = (0.946352946e-3 * 1040) / 1.1;
    expect(got.baits.value).toBe(Math.floor(mass / 0.03) * 4);
    expect(got.shots).toBe(Math.floor(mass / 0.031));
    expect(got.withRemelt).toBe(Math.floor(mass / 0.006));
  });

  test('pint, quart and gallon stand 1 : 2 : 8 to within a shot', () => {
    const baits = (['[pt_us]', '[qt_us]', '[gal_us]'] as const).map(
      (code) => yieldOf(toSI(1, code), share, cured).baits.value,
    );
    const [pint = 0, quart = 0, gallon = 0] = baits;
    expect(Math.abs(quart - 2 * pint)).toBeLessThanOrEqual(2 * share.cavities);
    expect(Math.abs(gallon - 8 * pint)).toBeLessThanOrEqual(8 * share.cavities);
  });

  test('what a bottle yields, a batch of that many needs no more than the bottle', () => {
    fc.assert(
      fc.property(fc.double({ min: 2e-4, max: 4e-3, noNaN: true }), (liquid) => {
        const { baits } = yieldOf(liquid, share, cured);
        if (baits.value === 0) return;
        expect(batchFor(baits.value, share, cured).liquid.value).toBeLessThanOrEqual(liquid * (1 + 1e-9));
      }),
      { seed: 22 },
    );
  });

  test('sprue share', () => {
    const part = sprueShare(5e-6, band(30e-6, 29e-6, 31e-6));
    expect(part.value).toBeCloseTo(1 / 6, 12);
    expect(part.low).toBeCloseTo(5 / 31, 12);
    expect(part.high).toBeCloseTo(5 / 29, 12);
  });
});

// 1 US fl oz of a 1035 kg/m³ compound is 30.60860 g, 1.079687 oz avoirdupois (NIST SP 811, App. B factors).
test('a fluid ounce of compound is not an ounce of it', () => {
  const kilograms = toSI(1, '[foz_us]') * 1035;
  expect(kilograms * 1e3).toBeCloseTo(30.608603097187498, 9);
  expect(kilograms / toSI(1, '[oz_av]')).toBeCloseTo(1.079686700980001, 9);
});
