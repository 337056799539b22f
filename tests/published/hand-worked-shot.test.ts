// A whole shot worked by hand, every step shown, and held against the functions that print the sheet. The steps use
// plain arithmetic on numbers a reader can check; each result is printed to the digits shown and compared to half a
// unit of the last one. Lengths in mm, volumes in mm³, masses in g, temperatures in °C.
import { describe, expect, test } from 'vitest';
import { firstShotRise } from '../../src/core/heat/block-warming.ts';
import { meshSurface, meshVolume } from '../../src/core/mesh/mass-properties.ts';
import { blockMass } from '../../src/core/mold/block.ts';
import { clampForce, plungerPressure } from '../../src/core/mold/clamp.ts';
import { band } from '../../src/core/quantity/band.ts';
import { toSI } from '../../src/core/quantity/units.ts';
import { batchFor, sprueShare } from '../../src/core/shot/batch.ts';
import { channelVolume, runnerVolume, sprueVolume } from '../../src/core/shot/channels.ts';
import { compoundDensity, hotDensity } from '../../src/core/shot/compound-density.ts';
import { gateShutDrop, topOffShare } from '../../src/core/shot/contraction.ts';
import { wholeShots } from '../../src/core/shot/injector-fit.ts';
import { baitMass, shotMass, shotVolume } from '../../src/core/shot/shot-volume.ts';
import { capsule } from '../support/solids.ts';

/** Expects `got` to be the hand-worked number, to half a unit of its last printed digit. */
function agrees(got: number, byHand: string): void {
  const decimals = byHand.split('.')[1]?.length ?? 0;
  expect(Math.abs(got - Number(byHand)), `${got} against ${byHand}`).toBeLessThanOrEqual(
    0.5000001 * 10 ** -decimals,
  );
}

const mm = (value: number): number => value / 1e3;
const kelvin = (celsius: number): number => celsius + 273.15;

// ── The bait: a cylinder Ø 10, 90 long, with a half sphere on either end; 100 long over all.
//    V = π·5²·90 + 4/3·π·5³ = 7068.583 + 523.599 = 7592.182 mm³
//    A = 2π·5·90 + 4π·5²    = 2827.433 + 314.159 = 3141.593 mm²
//    seen from above: 10·90 + π·5² = 900 + 78.540 = 978.540 mm²
const CAVITY = 7592.182;
const PLAN = 978.54;

// ── The mold: two cavities, sprue Ø 10 to Ø 6 over 30, runner Ø 6 and 50 long, gates 4 × 3 and 4 long.
const SPRUE = { mouth: mm(10), end: mm(6), length: mm(30) };
const RUNNER = { diameter: mm(6), length: mm(50) };
const GATE = { width: mm(4), depth: mm(3), length: mm(4) };
const CAVITIES = 2;
const BLOCK = { length: mm(150), width: mm(80), thickness: mm(30) };

// ── The compound: 400 phr of DINP. Poured at 175 °C, no flow below 100 °C, mold at 40 °C while the gate shuts.
const RECIPE = { plasticiser: 'DINP', phr: 400, salt: 0, microballoons: 0 } as const;
const HEAT = { pour: kelvin(175), noFlow: kelvin(100), mold: kelvin(40) };
const EXPANSION = band(7e-4, 5e-4, 8e-4);

const density = compoundDensity(RECIPE);
const drop = gateShutDrop(HEAT, {
  gateWidth: GATE.width,
  gateDepth: GATE.depth,
  bodyDiameter: mm(10),
});
const share = topOffShare(EXPANSION, drop, 75);
const runner = channelVolume({ sprue: SPRUE, runner: RUNNER, gate: GATE, cavities: CAVITIES });
const shot = shotVolume({ cavity: CAVITY * 1e-9, cavities: CAVITIES, runner, topOffShare: share });
const melt = shotMass(shot.total, hotDensity(density));

describe('geometry', () => {
  test('the meshed bait has the volume and surface of the closed form, and closes in on them', () => {
    const error = (bands: number) =>
      1 - (meshVolume(capsule(mm(5), mm(90), bands, 2 * bands)) * 1e9) / CAVITY;
    expect(error(64)).toBeLessThan(0.002);
    expect(error(32) / error(64)).toBeGreaterThan(3.9);
    expect(error(32) / error(64)).toBeLessThan(4.1);
    expect(meshSurface(capsule(mm(5), mm(90), 128, 256)) * 1e6).toBeCloseTo(3141.593, 0);
  });
});

describe('compound', () => {
  // w = 100/500 = 0.2 resin. 1/ρ = 0.2/1400 + 0.8/972 = 0.000142857 + 0.000823045 = 0.000965902 m³/kg.
  test('cured 1035.3 kg/m³, ± 2 %', () => {
    agrees(density.value, '1035.3');
    agrees(density.low, '1014.6');
    agrees(density.high, '1056.0');
  });
  // 0.90 · 1035.301 = 931.771
  test('hot 931.77 kg/m³', () => agrees(hotDensity(density).value, '931.77'));
});

describe('channels', () => {
  // π·30·(10² + 10·6 + 6²)/12 = π·30·196/12 = π·490
  test('sprue 1539.38 mm³', () => agrees(sprueVolume(SPRUE) * 1e9, '1539.38'));
  // π·6²·50/4 = π·450
  test('runner 1413.72 mm³', () => agrees(runnerVolume(RUNNER) * 1e9, '1413.72'));
  // 1539.38 + 1413.72 + 2·(4·3·4) = 1539.38 + 1413.72 + 96
  test('together 3049.10 mm³', () => agrees(runner * 1e9, '3049.10'));
});

describe('top-off', () => {
  // Gate: (100 − 40)/(175 − 40) = 0.444444. αt = ln(16/π²/0.444444)/(π²(1/4² + 1/3²))
  //       = ln(3.647563)/(9.869604·0.173611) = 1.294059/1.713473 = 0.755226 mm².
  // Body: Fo = 0.755226/5² = 0.030209. Mean excess of a cylinder there, Σ 4/λ²·e^(−λ²Fo) over the roots of J₀
  //       (2.404826, 5.520078, 8.653728, 11.791534, 14.930918, 18.071064 …): 0.580791 + 0.052288 + 0.005561
  //       + 0.000431 + 0.000021 + 0.000001 = 0.639093.
  // Fall: (175 − 40)·(1 − 0.639093) = 48.72 K, less than the 75 K down to no flow.
  test('the mean of the bait has fallen by 48.72 K when the gate shuts', () => agrees(drop, '48.72'));
  // 7·10⁻⁴·48.7225 = 0.034106; at most 8·10⁻⁴·75 = 0.06; at least 0.
  test('3.4106 % of the cavity, 0 to 6 %', () => {
    agrees(share.value * 100, '3.4106');
    agrees(share.low, '0');
    agrees(share.high * 100, '6.0000');
  });
});

describe('shot', () => {
  // 2·7592.182·0.034106 = 517.87
  test('top-off of the mold 517.87 mm³', () => agrees(shot.topOff.value * 1e9, '517.87'));
  // 2·7592.182 + 517.87 + 3049.10 = 18751.3; low 2·7592.182 + 3049.10 = 18233.5; high 2·7592.182·1.06 + 3049.10 = 19144.5
  test('total 18 751 mm³, 18 233 to 19 145', () => {
    agrees(shot.total.value * 1e9, '18751.3');
    agrees(shot.total.low * 1e9, '18233.5');
    agrees(shot.total.high * 1e9, '19144.5');
  });
  // 18.75134 cm³·0.931771 g/cm³
  test('melt of one shot 17.472 g', () => agrees(melt.value * 1e3, '17.472'));
  // 7.592182·1.034106 = 7.851119 cm³ hot; ·0.931771 g/cm³ = 7.3154 g.
  // Low: ln 0.98 = −0.020203; 0.89/(0.9·1.034106) = 0.956275, ln −0.044710; √(0.020203² + 0.044710²) = 0.049062.
  //      7.31545·e^−0.049062 = 6.9652.
  // High: ln 1.02 = 0.019803; 1/(0.9·1.034106) = 1.074466, ln 0.071824; √(0.019803² + 0.071824²) = 0.074504.
  //      7.31545·e^0.074504 = 7.8813.
  test('one bait 7.315 g, 6.965 to 7.881', () => {
    const bait = baitMass(CAVITY * 1e-9, density, share);
    agrees(bait.value * 1e3, '7.315');
    agrees(bait.low * 1e3, '6.965');
    agrees(bait.high * 1e3, '7.881');
  });
  // 3049.10/18751.3
  test('16.26 % of it is sprue', () => agrees(sprueShare(runner, shot.total).value * 100, '16.26'));
});

describe('injector and batch', () => {
  // 2 fl oz = 59.147 mL; 59.147/1.1/19.1445 = 2.81. Half a fluid ounce: 14.787/1.1/19.1445 = 0.70.
  test('2 fl oz holds two shots with 10 % to spare; half a fluid ounce none', () => {
    expect(wholeShots(shot.total, toSI(2, '[foz_us]'))).toBe(2);
    expect(wholeShots(shot.total, toSI(0.5, '[foz_us]'))).toBe(0);
  });
  // 100 baits: 50 shots. 50·17.47195·1.1 = 960.96 g; 960.96/1.035301 = 928.19 mL.
  test('100 baits take 961.0 g, 928.2 mL', () => {
    const bait = baitMass(CAVITY * 1e-9, density, share);
    const batch = batchFor(100, { cavities: CAVITIES, shotMass: melt, baitMass: bait }, density);
    expect(batch.shots).toBe(50);
    agrees(batch.compound.value * 1e3, '961.0');
    agrees(batch.liquid.value * 1e6, '928.2');
  });
});

describe('mold', () => {
  // 110 N on a 1 in piston: π·25.4²/4 = 506.707 mm²; 110/506.707 = 0.217088 MPa.
  // Plan: 2·978.540 + runner 6·50 + gates 2·4·4 + sprue (10 + 6)/2·30 = 1957.080 + 300 + 32 + 240 = 2529.080 mm².
  // 0.217088·2529.080 = 549.03 N; with the factor 823.55 N.
  test('clamping force 823.5 N', () => {
    const pressure = plungerPressure(110, toSI(1, '[in_i]'));
    agrees(pressure / 1e6, '0.217088');
    const plan = 2 * PLAN + 6 * 50 + 2 * 4 * 4 + ((10 + 6) / 2) * 30;
    agrees(clampForce(pressure, plan * 1e-6, 1), '549.03');
    agrees(clampForce(pressure, plan * 1e-6, 1.5), '823.55');
  });
  // 150·80·30 = 360 000; less 2·7592.182 + 3049.10 = 18 233.5; 341 766.5 mm³·2.7·10⁻³ g/mm³ = 922.77 g.
  const block = blockMass(BLOCK, 2 * CAVITY * 1e-9 + runner, 2700);
  test('block 922.77 g', () => agrees(block * 1e3, '922.77'));
  // mc = 0.01747195·2000 = 34.9439 J/K; MC = 0.9227697·896 = 826.8016 J/K; r = 34.9439/861.7455 = 0.0405501.
  // r·(175 − 22) = 6.204 K.
  test('the first shot warms it by 6.204 K', () => {
    const rise = firstShotRise({
      shotMass: melt.value,
      shotHeat: 2000,
      blockMass: block,
      blockHeat: 896,
      melt: kelvin(175),
      start: kelvin(22),
    });
    agrees(rise, '6.204');
  });
});
