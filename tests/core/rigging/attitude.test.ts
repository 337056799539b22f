import { describe, expect, test } from 'vitest';
import { centresOf, posture, standing, type Hanging } from '../../../src/core/rigging/attitude.ts';
import { band } from '../../../src/core/quantity/band.ts';
import { axialCylinderDrag, noseFirstDrag } from '../../../src/core/rigging/drag.ts';
import { noseFirstSpeed, terminalSpeed, submergedWeight } from '../../../src/core/rigging/sink.ts';

const WATER = 998.2;
const body = (density: number): Hanging => ({ at: [0.05, 0], mass: density * 1e-5, volume: 1e-5 });
const lead = (x: number): Hanging => ({ at: [x, -0.004], mass: 0.0035, volume: 0.0035 / 11340 });

describe('centres of mass and buoyancy', () => {
  test('an even body has one centre', () => {
    const { mass, buoyancy } = centresOf([body(1040)]);
    expect(mass).toEqual(buoyancy);
  });

  test('two parts: the lever law, by mass and by volume', () => {
    const { mass, buoyancy } = centresOf([body(1000), { at: [0.02, -0.006], mass: 0.01, volume: 2.5e-6 }]);
    expect(mass[0]).toBeCloseTo((0.05 + 0.02) / 2, 12);
    expect(mass[1]).toBeCloseTo(-0.003, 12);
    expect(buoyancy[0]).toBeCloseTo((0.05 * 4 + 0.02) / 5, 12);
  });
});

test.each([
  ['masses', { mass: 0 }],
  ['volumes', { volume: 0 }],
])('parts without %s have no centre', (_, none) => {
  expect(() => centresOf([{ ...body(1000), ...none }])).toThrow(
    'centres: total: wants a finite number above 0, got 0',
  );
});

// Arms as a share of the length, buoyancy behind the mass: from one hundredth on a bait turns.
test.each([
  [0.01, 'nose down'],
  [0.0099, 'level'],
  [0, 'level'],
  [-0.0099, 'level'],
  [-0.01, 'tail down'],
])('an arm of %f of the length: %s', (arm, lies) => {
  for (const length of [1, 0.125]) {
    expect(posture({ mass: [0, 0], buoyancy: [arm * length, 0] }, length)).toBe(lies);
  }
  expect(() => posture({ mass: [0, 0], buoyancy: [arm, 0] }, 0)).toThrow('posture: length: wants');
});

test('weight at the nose tips it nose down, at the tail tail down, in the middle not', () => {
  const at = (x: number) => posture(centresOf([body(1040), lead(x)]), 0.1);
  expect([0, 0.05, 0.1].map(at)).toEqual(['nose down', 'level', 'tail down']);
});

test('on a weighted nose a bait lighter than water stands, a heavier one lies', () => {
  const stands = (density: number) => standing([body(density), lead(0)], 0, WATER);
  expect([WATER - 1, WATER + 1].map(stands)).toEqual(['tail up', 'lies flat']);
  expect(standing([{ at: [9, 0], mass: 1, volume: 0.001 }], 0, 1000)).toBe('lies flat');
  // A hook half-way holds a barely floating tail down.
  expect(standing([body(WATER - 1), lead(0), lead(0.05)], 0, WATER)).toBe('lies flat');
});

test('moments are taken about the nose, wherever it lies', () => {
  // 1 kg heavy 1 m behind the nose against 0.4 kg of lift 2 m behind it; with the nose at 3 m: 1·1 − 0.4·2 > 0, at 3.5 m
  // 1·0.5 − 0.4·1.5 < 0.
  const parts: Hanging[] = [
    { at: [4, 0], mass: 2, volume: 0.001 },
    { at: [5, 0], mass: 0.6, volume: 0.001 },
  ];
  expect([3, 3.5].map((nose) => standing(parts, nose, 1000))).toEqual(['lies flat', 'tail up']);
  expect(() => standing(parts, 3, 0)).toThrow('standing: water: wants a finite number above 0, got 0');
  expect(() => standing([], 3, 1000)).toThrow('standing: wants at least one part, got 0');
});

describe('nose first', () => {
  // Matthews (2002), p. 95: C = 0.99 on the end face at 7 diameters, 1050 kg/m³: 0.268245 m/s at 998.2071 kg/m³.
  test('cylinder 10 × 70 mm, 1050 kg/m³: 0.268245 m/s', () => {
    const section = (Math.PI / 4) * 0.01 ** 2;
    const speed = noseFirstSpeed(
      { volume: section * 0.07, length: 0.07, section, density: band(1050) },
      { density: 998.2071 },
    );
    expect(Math.abs((speed?.value ?? 0) / 0.2682449443162 - 1)).toBeLessThan(1e-6);
    expect((speed?.high ?? 0) / (speed?.value ?? 1)).toBeCloseTo(1 / Math.sqrt(0.3), 6);
  });

  test('the drag of longer bodies grows on without a jump', () => {
    expect(noseFirstDrag(7)).toBe(axialCylinderDrag(7));
    expect(noseFirstDrag(10)).toBeCloseTo(0.99 + 3 * 0.04, 12);
    expect(noseFirstDrag(1)).toBeCloseTo(0.91, 12);
  });

  test('faster than on its flat, and none when it floats', () => {
    const slim = { volume: 8e-6, length: 0.1, section: 1e-4, density: band(1050) };
    const weight = submergedWeight({ volume: 8e-6, density: 1050 }, WATER);
    const flat = terminalSpeed(weight, 0.1 * 0.0113, WATER, 0.82);
    expect(noseFirstSpeed(slim, { density: WATER })!.value).toBeGreaterThan(2 * flat);
    expect(noseFirstSpeed({ ...slim, density: band(980) }, { density: WATER })).toBeNull();
  });
});
