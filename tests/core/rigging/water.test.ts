import { describe, expect, test } from 'vitest';
import { freshWaterDensity, seaWaterDensity, waterViscosity } from '../../../src/core/rigging/water.ts';

const kelvin = (celsius: number): number => celsius + 273.15;

// Kell, J. Chem. Eng. Data 20 (1975) 97, formula; IAPWS-95 as the truth 0.003 kg/m³ away; IAPWS 2008 viscosity
// beside the fit [mPa·s]. Tolerances: 1e-6 relative on the formula, 1e-4 on the fit.
const WATER: readonly (readonly [number, number, number, number, number])[] = [
  [4, 999.9719941256, 999.974869, 1.5470992037, 1.567292],
  [10, 999.6996343723, 999.70247, 1.2995368845, 1.3059],
  [15, 999.0996087908, 999.102621, 1.135968681, 1.137567],
  [20, 998.2041322006, 998.20715, 1.0017487594, 1.001596],
  [25, 997.0448954179, 997.047637, 0.8904389816, 0.890022],
  [30, 995.6472588545, 995.649454, 0.7972324212, 0.797222],
];

describe.each(WATER)('fresh water at %i °C', (celsius, kell, iapws95, fit, iapws2008) => {
  test('density', () => {
    const density = freshWaterDensity(kelvin(celsius));
    expect(Math.abs(density / kell - 1)).toBeLessThan(1e-6);
    expect(Math.abs(density - iapws95)).toBeLessThan(0.0031);
  });
  test('viscosity', () => {
    const viscosity = waterViscosity(kelvin(celsius)) * 1e3;
    expect(Math.abs(viscosity / fit - 1)).toBeLessThan(1e-4);
    expect(Math.abs(viscosity / iapws2008 - 1)).toBeLessThan(celsius < 10 ? 0.013 : 0.005);
  });
});

test('the denominator is not the misprinted one, which is 0.27 kg/m³ low', () => {
  expect(Math.abs(freshWaterDensity(kelvin(20)) - 997.9355484661347)).toBeGreaterThan(0.26);
});

// Check values printed with EOS-80, UNESCO Technical Papers in Marine Science 44 (1983); Millero & Poisson (1981).
test.each([
  [0, 5, 999.96675],
  [35, 5, 1027.67547],
  [35, 15, 1025.97275],
  [35, 25, 1023.34306],
])('sea water of salinity %i at %i °C: %f kg/m³', (salinity, celsius, expected) => {
  expect(Math.abs(seaWaterDensity(kelvin(celsius), salinity) - expected)).toBeLessThanOrEqual(5e-6);
});

test('refuses ice and brine', () => {
  expect(() => freshWaterDensity(260)).toThrow(
    /^freshWaterDensity: wants a temperature of 273\.15 to 423\.15 K, got/u,
  );
  expect(() => seaWaterDensity(290, 60)).toThrow('seaWaterDensity: wants a salinity of 0 to 42, got 60');
});
