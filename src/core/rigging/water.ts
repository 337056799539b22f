import { need } from '../quantity/guard.ts';

const ZERO_CELSIUS = 273.15;

const polynomial = (coefficients: readonly number[], x: number): number =>
  coefficients.reduceRight((sum, coefficient) => sum * x + coefficient, 0);

const KELL_NUMERATOR = [999.83952, 16.945176, -7.9870401e-3, -46.170461e-6, 105.56302e-9, -280.54253e-12];
// A widely read reprint swaps two digits here (16.897850e-3) and is 0.27 kg/m³ low at 20 °C.
const KELL_DENOMINATOR = 16.87985e-3;

/**
 * Density of air-free fresh water at one atmosphere.
 *
 * @param temperature - [K], 273.15 to 423.15
 * @returns density [kg/m³], within 0.003 of IAPWS-95 up to 30 °C
 * @throws {RangeError} outside 0 to 150 °C
 *
 * Valid: 0 to 150 °C.
 * Cost: constant.
 * Source: G. S. Kell, J. Chem. Eng. Data 20 (1975) 97; as reprinted by Jones & Harris, J. Res. NIST 97 (1992) 335,
 * with the denominator's coefficient corrected.
 */
export function freshWaterDensity(temperature: number): number {
  const t = temperature - ZERO_CELSIUS;
  need(t >= -1e-9 && t <= 150, 'freshWaterDensity', 'a temperature of 273.15 to 423.15 K', temperature);
  return polynomial(KELL_NUMERATOR, t) / (1 + KELL_DENOMINATOR * t);
}

const PURE = [999.842594, 6.793952e-2, -9.09529e-3, 1.001685e-4, -1.120083e-6, 6.536332e-9];
const SALT_LINEAR = [0.824493, -4.0899e-3, 7.6438e-5, -8.2467e-7, 5.3875e-9];
const SALT_THREE_HALVES = [-5.72466e-3, 1.0227e-4, -1.6546e-6];
const SALT_SQUARE = 4.8314e-4;

/**
 * Density of sea water at one atmosphere.
 *
 * @param temperature - [K], 273.15 to 313.15
 * @param salinity - practical salinity [1], 0 to 42; the open sea has about 35
 * @returns density [kg/m³]
 * @throws {RangeError} outside the ranges
 *
 * Valid: 0 to 40 °C, salinity 0 to 42.
 * Cost: constant.
 * Source: Millero & Poisson, Deep-Sea Res. 28A (1981) 625; UNESCO Technical Papers in Marine Science 44 (1983),
 * EOS-80, from memory; agrees with its printed check values.
 */
export function seaWaterDensity(temperature: number, salinity = 35): number {
  const t = temperature - ZERO_CELSIUS;
  need(t >= -1e-9 && t <= 40, 'seaWaterDensity', 'a temperature of 273.15 to 313.15 K', temperature);
  need(salinity >= 0 && salinity <= 42, 'seaWaterDensity', 'a salinity of 0 to 42', salinity);
  return (
    polynomial(PURE, t) +
    polynomial(SALT_LINEAR, t) * salinity +
    polynomial(SALT_THREE_HALVES, t) * salinity ** 1.5 +
    SALT_SQUARE * salinity ** 2
  );
}

/**
 * Dynamic viscosity of fresh water.
 *
 * @param temperature - [K], 273.15 to 373.15
 * @returns viscosity [Pa·s], within 0.5 % from 10 to 30 °C, 1.3 % low at 4 °C
 * @throws {RangeError} outside 0 to 100 °C
 *
 * Valid: 0 to 100 °C; sea water is some 7 % more viscous.
 * Cost: constant.
 * Source: engineering fit μ = 2.414·10⁻⁵·10^(247.8/(T − 140)), compared with IAPWS 2008 (Huber et al. 2009).
 */
export function waterViscosity(temperature: number): number {
  need(
    temperature >= ZERO_CELSIUS - 1e-9 && temperature <= 373.15,
    'waterViscosity',
    'a temperature of 273.15 to 373.15 K',
    temperature,
  );
  return 2.414e-5 * 10 ** (247.8 / (temperature - 140));
}
