import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  beforeShotTemperature,
  coolDownTime,
  coolingConstant,
  shotShare,
  steadyCycle,
  warmUpShots,
  type BlockCycle,
} from '../../../src/core/heat/block-warming.ts';
import {
  centreExcess,
  meanExcess,
  slabExcess,
  type SimpleShape,
} from '../../../src/core/heat/conduction-series.ts';
import { contactTemperature } from '../../../src/core/heat/contact.ts';
import { contactCoolingTime, firstTerm } from '../../../src/core/heat/contact-coefficient.ts';
import {
  centreCoolingTime,
  ellipseCoolingTime,
  ellipseEigenvalue,
  meanCoolingTime,
  rectangleCoolingTime,
  sectionCoolingTime,
} from '../../../src/core/heat/cooling-time.ts';
import { bisect } from '../../../src/core/numeric/root.ts';
import { standingMeltTemperature } from '../../../src/core/heat/injector-cooling.ts';
import { neumannRoot, noFlowFraction, skinDepth } from '../../../src/core/heat/solidification.ts';
import { airProperties, blockLoss } from '../../../src/core/heat/surface-loss.ts';
import {
  metalTouchThreshold,
  skinBurnThresholds,
  touchSafeTemperature,
} from '../../../src/core/heat/touch.ts';

const SEED = 20260701;
const COOLING = { diffusivity: 7.5e-8, melt: 448, mold: 313, eject: 333 };
const CONTACT = { ...COOLING, shape: 'slab', halfSize: 0.003, contact: 1000, conductivity: 0.2 } as const;
const SHAPES: SimpleShape[] = ['slab', 'cylinder', 'sphere'];

// Incropera et al., Fundamentals of Heat and Mass Transfer, 6th ed. (2007), table 5.1, printed to 4 decimals, from memory.
const TABLE_5_1 = [
  { biot: 0.1, slab: [0.3111, 1.0161], cylinder: [0.4417, 1.0246], sphere: [0.5423, 1.0298] },
  { biot: 1, slab: [0.8603, 1.1191], cylinder: [1.2558, 1.2071], sphere: [1.5708, 1.2732] },
  { biot: 10, slab: [1.4289, 1.262], cylinder: [2.1795, 1.5677], sphere: [2.8363, 1.9249] },
  { biot: 100, slab: [1.5552, 1.2731], cylinder: [2.3809, 1.6015], sphere: [3.1102, 1.999] },
] as const;

describe('finite contact coefficient', () => {
  test.each(TABLE_5_1)('Bi $biot as printed', (row) => {
    for (const shape of SHAPES) {
      const { root, coefficient } = firstTerm(shape, row.biot);
      expect(Math.abs(root - row[shape === 'slab' ? 'slab' : shape][0])).toBeLessThanOrEqual(5.1e-5);
      expect(Math.abs(coefficient - row[shape][1])).toBeLessThanOrEqual(5.1e-5);
    }
  });

  test('a nearly insulated surface leaves the lumped body: ζ² → Bi·(1, 2, 3)', () => {
    SHAPES.forEach((shape, i) => {
      expect(firstTerm(shape, 1e-5).root ** 2 / (1e-5 * (i + 1))).toBeCloseTo(1, 4);
    });
  });
});

describe('conduction series', () => {
  test('short-time forms and series meet where they change over', () => {
    for (const shape of SHAPES) {
      for (const at of [2e-4, 0.02, 0.06]) {
        for (const excess of [centreExcess, meanExcess]) {
          const step = Math.abs(excess(shape, at * (1 - 1e-9)) - excess(shape, at * (1 + 1e-9)));
          expect(step, `${shape} at ${at}`).toBeLessThan(1e-7);
        }
      }
    }
    for (const place of [0, 0.3, 0.9]) {
      expect(Math.abs(slabExcess(place, 0.06 - 1e-13) - slabExcess(place, 0.06 + 1e-13))).toBeLessThan(1e-12);
    }
  });

  test('at the very start nothing has reached the middle, to the last digit', () => {
    for (const shape of SHAPES) expect(centreExcess(shape, 1.9e-4)).toBe(1);
    expect(slabExcess(0, 1e-4)).toBe(1);
  });

  // S·L/V is 1, 2 and 3; curvature adds nothing yet.
  test('at very short times 2√(Fo/π) is lost, a unit of surface over volume', () => {
    for (const [n, shape] of SHAPES.entries()) {
      const lost = (1 - meanExcess(shape, 1e-12)) / (2 * (n + 1) * Math.sqrt(1e-12 / Math.PI));
      expect(lost).toBeCloseTo(1, 5);
    }
  });

  test('the mean is the integral of the slab profile', () => {
    for (const fourier of [0.01, 0.1, 1]) {
      let sum = 0;
      for (let k = 0; k < 2000; k++) sum += slabExcess((k + 0.5) / 2000, fourier) / 2000;
      expect(Math.abs(sum - meanExcess('slab', fourier))).toBeLessThan(1e-6);
    }
  });

  test(`centre and mean fall with time, centre above mean (seed ${SEED})`, () => {
    const inputs = [fc.constantFrom(...SHAPES), fc.double({ min: 1e-3, max: 3, noNaN: true })] as const;
    fc.assert(
      fc.property(...inputs, (shape, fourier) => {
        expect(centreExcess(shape, fourier * 1.1)).toBeLessThanOrEqual(centreExcess(shape, fourier) + 1e-12);
        expect(meanExcess(shape, fourier * 1.1)).toBeLessThan(meanExcess(shape, fourier));
        expect(centreExcess(shape, fourier)).toBeGreaterThan(meanExcess(shape, fourier));
      }),
      { seed: SEED },
    );
  });

  test('one-term cooling time agrees with the whole series above Fo 0.2 within 1 %', () => {
    for (const shape of SHAPES) {
      const time = centreCoolingTime(shape, 0.006, COOLING);
      const left = centreExcess(shape, (COOLING.diffusivity * time) / 0.003 ** 2);
      expect(Math.abs(left / ((333 - 313) / (448 - 313)) - 1)).toBeLessThan(0.01);
    }
  });
});

describe('cooling time of sections', () => {
  test('ellipse runs from circle to slab', () => {
    expect(
      ellipseCoolingTime(0.006, 0.006, COOLING) / centreCoolingTime('cylinder', 0.006, COOLING),
    ).toBeCloseTo(1, 6);
    expect(ellipseCoolingTime(60, 0.006, COOLING) / centreCoolingTime('slab', 0.006, COOLING)).toBeCloseTo(
      1,
      3,
    );
    expect(ellipseEigenvalue(1e-9)).toBeCloseTo(Math.PI ** 2 / 4, 6);
  });

  // Independent finite-difference computation (numpy, Crank–Nicolson, 40 cells to the small semi-axis): α·t/h² until the
  // middle of an ellipse of height h has 1/θ of its excess left.
  test.each([
    { aspect: 1, theta: 6.75, scaled: 0.10293 },
    { aspect: 1.5, theta: 6.75, scaled: 0.1435 },
    { aspect: 2, theta: 6.75, scaled: 0.16786 },
    { aspect: 3, theta: 6.75, scaled: 0.19264 },
    { aspect: 5, theta: 6.75, scaled: 0.2087 },
    { aspect: 8, theta: 6.75, scaled: 0.21438 },
    { aspect: 2, theta: 4.29, scaled: 0.13572 },
    { aspect: 5, theta: 4.29, scaled: 0.16598 },
  ])(
    'ellipse $aspect:1 cools by $theta from 1 %% short to 3.5 %% long of finite differences',
    ({ aspect, theta, scaled }) => {
      const time = ellipseCoolingTime(aspect, 1, { diffusivity: 1, melt: theta, mold: 0, eject: 1 });
      expect(time / scaled).toBeGreaterThan(0.99);
      expect(time / scaled).toBeLessThan(1.035);
    },
  );

  test.each([1, 1.5, 2, 3, 5, 10])(
    'equivalent ellipse of a rectangle %s:1 is near its product series',
    (aspect) => {
      const left = (fo: number) => centreExcess('slab', fo) * centreExcess('slab', fo / aspect ** 2);
      const fourier = bisect((fo) => left(fo) - (333 - 313) / (448 - 313), 0.01, 3);
      const exact = (fourier * 0.0025 ** 2) / COOLING.diffusivity;
      const ours = sectionCoolingTime(0.005, 0.005 ** 2 * aspect, COOLING);
      expect(Math.abs(ours / exact - 1)).toBeLessThan(0.07);
      expect(rectangleCoolingTime(0.005 * aspect, 0.005, COOLING) / exact).toBeGreaterThan(0.999);
    },
  );

  test(`thicker, hotter, warmer mold never cools sooner (seed ${SEED})`, () => {
    const size = fc.double({ min: 1e-3, max: 0.03, noNaN: true });
    const more = fc.double({ min: 1.01, max: 3, noNaN: true });
    fc.assert(
      fc.property(size, more, more, (inscribed, slender, grow) => {
        const area = (Math.PI / 4) * inscribed ** 2 * slender;
        const base = sectionCoolingTime(inscribed, area, COOLING);
        expect(sectionCoolingTime(inscribed * grow, area * grow ** 2, COOLING)).toBeCloseTo(
          base * grow ** 2,
          6,
        );
        expect(sectionCoolingTime(inscribed, area * grow, COOLING)).toBeGreaterThanOrEqual(base);
        expect(sectionCoolingTime(inscribed, area, { ...COOLING, melt: 458 })).toBeGreaterThan(base);
        expect(sectionCoolingTime(inscribed, area, { ...COOLING, mold: 323 })).toBeGreaterThan(base);
        expect(base).toBeLessThanOrEqual(centreCoolingTime('slab', inscribed, COOLING));
        expect(base).toBeGreaterThanOrEqual(centreCoolingTime('cylinder', inscribed, COOLING));
      }),
      { seed: SEED },
    );
  });

  test('temperatures out of order are refused in words', () => {
    expect(() => centreCoolingTime('slab', 0.006, { ...COOLING, eject: 300 })).toThrow('mold < eject < melt');
    expect(() => sectionCoolingTime(0.01, 1e-6, COOLING)).toThrow('sectionCoolingTime: wants an area');
    expect(() => contactCoolingTime({ ...CONTACT, eject: 300 })).toThrow(
      'contactCoolingTime: mold < eject < melt',
    );
    expect(() => contactCoolingTime({ ...CONTACT, eject: 448 })).toThrow(
      'contactCoolingTime: mold < eject < melt',
    );
  });

  test('sizes, areas, diffusivities and flatness out of range are refused', () => {
    const wants = 'wants a finite number above 0';
    expect(() => contactCoolingTime({ ...CONTACT, diffusivity: 0 })).toThrow(`diffusivity: ${wants}`);
    expect(() => centreCoolingTime('slab', 0, COOLING)).toThrow(`centreCoolingTime: size: ${wants}`);
    expect(() => meanCoolingTime('slab', 0, COOLING)).toThrow(`meanCoolingTime: size: ${wants}`);
    expect(() => rectangleCoolingTime(0, 1, COOLING)).toThrow(`rectangleCoolingTime: width: ${wants}`);
    expect(() => rectangleCoolingTime(1, 0, COOLING)).toThrow(`rectangleCoolingTime: height: ${wants}`);
    expect(() => sectionCoolingTime(0.01, -1, COOLING)).toThrow(`sectionCoolingTime: area: ${wants}`);
    expect(() => ellipseEigenvalue(1.001)).toThrow('ellipseEigenvalue: wants flatness up to 1, got 1.001');
    expect(() => ellipseEigenvalue(0)).toThrow(`ellipseEigenvalue: flatness: ${wants}`);
  });

  test('an area a thousandth below the circle still counts as round, one two thousandths below does not', () => {
    const circle = (Math.PI / 4) * 0.006 ** 2;
    const round = centreCoolingTime('cylinder', 0.006, COOLING);
    expect(sectionCoolingTime(0.006, circle * 0.9995, COOLING) / round).toBeCloseTo(1, 9);
    expect(() => sectionCoolingTime(0.006, circle * 0.998, COOLING)).toThrow(
      'sectionCoolingTime: wants an area',
    );
  });

  // One term of the mean of a slab is 8/π² at the start: above it no time comes out.
  test('a mean that has hardly cooled is refused', () => {
    const cooling = { diffusivity: 1, mold: 0, eject: 1 };
    expect(() => meanCoolingTime('slab', 1, { ...cooling, melt: 1.2 })).toThrow(
      `meanCoolingTime: wants (melt − mold)/(eject − mold) above ${1 / (8 / Math.PI ** 2)}, got 1.2`,
    );
    expect(meanCoolingTime('slab', 1, { ...cooling, melt: 1.25 })).toBeGreaterThan(0);
  });
});

const CYCLE: BlockCycle = {
  shotMass: 0.02,
  shotHeat: 2000,
  blockMass: 1.215,
  blockHeat: 896,
  melt: 448.15,
  start: 298.15,
  ambient: 295.15,
  loss: 10,
  surface: 0.0405,
  pace: 180,
};

describe('block shot by shot', () => {
  test('closed form equals stepping shot by shot', () => {
    let block = CYCLE.start;
    const kept = Math.exp(-CYCLE.pace / coolingConstant(CYCLE));
    for (let shot = 0; shot < 12; shot++) {
      expect(beforeShotTemperature(CYCLE, shot)).toBeCloseTo(block, 9);
      block += shotShare(CYCLE) * (CYCLE.melt - block);
      block = CYCLE.ambient + (block - CYCLE.ambient) * kept;
    }
  });

  test('warm-up shots reach the target, one fewer does not', () => {
    const target = 320;
    const shots = warmUpShots(CYCLE, target);
    expect(beforeShotTemperature(CYCLE, shots)).toBeGreaterThanOrEqual(target);
    expect(beforeShotTemperature(CYCLE, shots - 1)).toBeLessThan(target);
    expect(warmUpShots(CYCLE, 290)).toBe(0);
    expect(warmUpShots(CYCLE, steadyCycle(CYCLE).before + 1)).toBe(Infinity);
  });

  test(`a slower pace, more loss, colder melt never runs hotter; heat in equals heat out (seed ${SEED})`, () => {
    const grow = fc.double({ min: 1.01, max: 4, noNaN: true });
    fc.assert(
      fc.property(grow, fc.integer({ min: 1, max: 30 }), (more, shots) => {
        const base = beforeShotTemperature(CYCLE, shots);
        expect(beforeShotTemperature({ ...CYCLE, pace: CYCLE.pace * more }, shots)).toBeLessThan(base);
        expect(beforeShotTemperature({ ...CYCLE, loss: CYCLE.loss * more }, shots)).toBeLessThan(base);
        expect(beforeShotTemperature({ ...CYCLE, melt: CYCLE.melt * more }, shots)).toBeGreaterThan(base);
        const { before, after } = steadyCycle({ ...CYCLE, pace: CYCLE.pace * more });
        const given = CYCLE.shotMass * CYCLE.shotHeat * (CYCLE.melt - after);
        const taken = CYCLE.blockMass * CYCLE.blockHeat * (after - before);
        expect(given / taken).toBeCloseTo(1, 9);
      }),
      { seed: SEED },
    );
  });

  test('a block left alone takes longer to a cooler target, none when it is there', () => {
    expect(coolDownTime(340, 321, 295, 2688)).toBeGreaterThan(coolDownTime(340, 328, 295, 2688));
    expect(coolDownTime(310, 321, 295, 2688)).toBe(0);
    expect(() => coolDownTime(340, 290, 295, 2688)).toThrow('to − ambient');
  });
});

describe('loss, touch, contact', () => {
  // Incropera et al. (2007), table A.4, air at 300 and 350 K, from memory: ν 15.89 and 20.92e-6, α 22.5 and 29.9e-6 m²/s,
  // k 26.3 and 30.0e-3 W/(m·K).
  test.each([
    { at: 300, nu: 15.89e-6, alpha: 22.5e-6, k: 26.3e-3 },
    { at: 350, nu: 20.92e-6, alpha: 29.9e-6, k: 30.0e-3 },
  ])('air at $at K within 3 %', ({ at, nu, alpha, k }) => {
    const air = airProperties(at);
    expect(Math.abs(air.kinematic / nu - 1)).toBeLessThan(0.03);
    expect(Math.abs(air.diffusivity / alpha - 1)).toBeLessThan(0.03);
    expect(Math.abs(air.conductivity / k - 1)).toBeLessThan(0.03);
  });

  test('an anodised block sheds heat faster than a bare one', () => {
    const still = { height: 0.1, surface: 333, ambient: 295 };
    expect(blockLoss({ ...still, emissivity: 0.8 }).total).toBeGreaterThan(
      1.5 * blockLoss({ ...still, emissivity: 0.09 }).total,
    );
  });

  test('the touch limit is the lower of the two standards and falls with time', () => {
    let last = Infinity;
    for (const time of [1, 2, 5, 10, 30, 60, 300, 600]) {
      const safe = touchSafeTemperature(time);
      expect(safe).toBeLessThanOrEqual(metalTouchThreshold(time));
      expect(safe).toBeLessThanOrEqual(skinBurnThresholds(time).reversible);
      expect(safe).toBeLessThan(last);
      last = safe;
    }
  });

  test('contact temperature lies between the two and is symmetric', () => {
    const [hot, cold] = [
      { effusivity: 529, temperature: 448 },
      { effusivity: 20100, temperature: 298 },
    ];
    expect(contactTemperature(hot, cold)).toBeCloseTo(contactTemperature(cold, hot), 10);
    expect(contactTemperature(hot, cold)).toBeGreaterThan(298);
    expect(noFlowFraction(373, 302, 448)).toBeCloseTo((373 - 302) / (448 - 302), 12);
    expect(() => noFlowFraction(373, 460, 448)).toThrow('noFlowFraction: wants melt above contact');
    expect(() => noFlowFraction(373, 448, 448)).toThrow(
      'noFlowFraction: wants melt above contact 448, got 448',
    );
  });

  test('what has no size, no heat or no end is refused', () => {
    const wants = 'wants a finite number above 0';
    const melt = { melt: 448, wall: 300 };
    expect(() => standingMeltTemperature(0, 1e-7, 1, melt)).toThrow(
      `standingMeltTemperature: radius: ${wants}`,
    );
    expect(() => standingMeltTemperature(1, 0, 1, melt)).toThrow(
      `standingMeltTemperature: diffusivity: ${wants}`,
    );
    expect(() => neumannRoot(0, 0, 1)).toThrow(`neumannRoot: solid: ${wants}`);
    expect(() => neumannRoot(1, 0, 0)).toThrow(`neumannRoot: diffusivityRatio: ${wants}`);
    expect(() => skinDepth(1, 1e-7, 1)).toThrow('skinDepth: theta: wants a number from 0 to');
  });
});
