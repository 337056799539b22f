import { describe, expect, test } from 'vitest';
import { addedMass, forcingFrequency, wetFrequency } from '../../../src/core/action/beat.ts';
import { bendingSpeed, cauchyNumber } from '../../../src/core/action/bending.ts';
import {
  evenLoadDeflection,
  plateStiffness,
  tipLoadDeflection,
} from '../../../src/core/action/cantilever.ts';
import { minus, over, plus, polynomialRoots, times, turn } from '../../../src/core/action/complex.ts';
import { flutterSpeed, neutralState } from '../../../src/core/action/flutter.ts';
import {
  actionSpeeds,
  chanceAt,
  MANNERS,
  ONSET_SOURCES,
  onsetOf,
  type Mover,
} from '../../../src/core/action/onset.ts';
import {
  equivalentThickness,
  integral,
  meanStiffness,
  meanWidth,
  running,
  sampled,
  stripLimpness,
  type Strip,
} from '../../../src/core/action/strip.ts';
import { band, type Band } from '../../../src/core/quantity/band.ts';

const WANTS = 'wants a finite number above 0';

describe('complex numbers', () => {
  test('sum, difference, product and quotient of 3 + 4i and 1 − 2i', () => {
    const [a, b] = [
      [3, 4],
      [1, -2],
    ] as const;
    expect(plus(a, b)).toEqual([4, 2]);
    expect(minus(a, b)).toEqual([2, 6]);
    expect(times(a, b)).toEqual([11, -2]);
    expect(over(a, b)).toEqual([-1, 2]);
  });

  test('e^(i(π/3 + i·ln 2)) = (cos 60° + i·sin 60°)/2', () => {
    const [re, im] = turn([Math.PI / 3, Math.LN2]);
    expect(re).toBeCloseTo(0.25, 12);
    expect(im).toBeCloseTo(Math.sqrt(3) / 4, 12);
  });

  test.each([
    { roots: [[7, 0]], coefficients: [1, -7] },
    {
      roots: [
        [1, 2],
        [1, -2],
      ],
      coefficients: [1, -2, 5],
    },
    // Far apart, x³ − (1e6 + 1 + 1e−3)x² + …: the largest and the smallest root as well.
    {
      roots: [
        [1e6, 0],
        [1, 0],
        [1e-3, 0],
      ],
      coefficients: [1, -(1e6 + 1 + 1e-3), 1e6 + 1e3 + 1e-3, -1e3],
    },
    {
      roots: [
        [0, 1],
        [0, -1],
        [1, 0],
        [-1, 0],
      ],
      coefficients: [1, 0, 0, 0, -1],
    },
  ])('roots of $coefficients', ({ roots, coefficients }) => {
    const found = polynomialRoots(coefficients);
    expect(found).toHaveLength(roots.length);
    for (const [re, im] of roots) {
      const nearest = Math.min(...found.map(([a, b]) => Math.hypot(a - re!, b - im!)));
      expect(nearest).toBeLessThan(1e-8 * Math.max(1, Math.hypot(re!, im!)));
    }
  });
});

describe('what is not a part is refused', () => {
  const strip = { length: 1, width: 1, thickness: 1, modulus: 1 };
  test.each(['length', 'width', 'thickness', 'modulus'] as const)('a cantilever without %s', (name) => {
    expect(() => tipLoadDeflection({ ...strip, [name]: 0 }, 1)).toThrow(
      `tipLoadDeflection: ${name}: ${WANTS}`,
    );
    expect(() => evenLoadDeflection({ ...strip, [name]: 0 }, 1)).toThrow(
      `evenLoadDeflection: ${name}: ${WANTS}`,
    );
  });

  test('a plate without modulus or thickness, or out of 0 to 0.5', () => {
    expect(() => plateStiffness(0, 1)).toThrow(`plateStiffness: modulus: ${WANTS}`);
    expect(() => plateStiffness(1, 0)).toThrow(`plateStiffness: thickness: ${WANTS}`);
    expect(() => plateStiffness(1, 1, -0.1)).toThrow(
      'plateStiffness: wants a Poisson ratio of 0 to 0.5, got -0.1',
    );
    expect(plateStiffness(12, 1, 0)).toBe(1);
  });

  const bending = { limpness: 1, modulus: 1, water: 1 };
  test.each(['limpness', 'modulus', 'water'] as const)('a strip in a stream without %s', (name) => {
    expect(() => cauchyNumber({ ...bending, [name]: 0 }, 1)).toThrow(`cauchyNumber: ${name}: ${WANTS}`);
    expect(() => bendingSpeed({ ...bending, [name]: 0 }, 1)).toThrow(`bendingSpeed: ${name}: ${WANTS}`);
  });

  test('speeds below 0, a Cauchy number of 0, a body of no size', () => {
    expect(() => cauchyNumber(bending, -1)).toThrow(
      'cauchyNumber: speed: wants a finite number of 0 or more',
    );
    expect(cauchyNumber(bending, 0)).toBe(0);
    expect(() => bendingSpeed(bending, 0)).toThrow(`bendingSpeed: cauchy: ${WANTS}`);
    expect(() => forcingFrequency(-1, 1)).toThrow(
      'forcingFrequency: speed: wants a finite number of 0 or more',
    );
    expect(() => forcingFrequency(1, 0)).toThrow(`forcingFrequency: size: ${WANTS}`);
    expect(() => chanceAt({ from: band(1), shaken: null }, -1)).toThrow(
      'chanceAt: wants a speed of 0 m/s or more',
    );
  });

  test('added mass without width or water; a swing without modulus or density, or in less than no water', () => {
    expect(addedMass(2, 5)).toBeCloseTo(5 * Math.PI, 12);
    expect(() => addedMass(0, 1)).toThrow(`addedMass: width: ${WANTS}`);
    expect(() => addedMass(1, 0)).toThrow(`addedMass: water: ${WANTS}`);
    const part = {
      strip: { length: 1, stations: [{ s: 0, thickness: 1, width: 1 }] },
      ...{ modulus: 1, density: 1, water: 1 },
    };
    expect(() => wetFrequency({ ...part, density: 0 })).toThrow(`wetFrequency: density: ${WANTS}`);
    expect(() => wetFrequency({ ...part, water: -1 })).toThrow(
      'wetFrequency: water: wants a finite number of 0 or more',
    );
  });

  const trailing = { length: 1, width: 1, thickness: 1, modulus: 1, density: 1, water: 1 };
  test.each(['length', 'width', 'thickness', 'modulus', 'density', 'water'] as const)(
    'a trailing strip without %s',
    (name) => {
      expect(() => flutterSpeed({ ...trailing, [name]: 0 })).toThrow(`flutterSpeed: ${name}: ${WANTS}`);
    },
  );

  test('mass ratios end at 0.05 and 0.98, both within', () => {
    expect(() => neutralState(0.049)).toThrow('neutralState: wants a mass ratio of 0.05 to 0.98, got 0.049');
    expect(neutralState(0.05).speed).toBeLessThan(neutralState(0.1).speed);
    expect(neutralState(0.98).speed).toBeGreaterThan(neutralState(0.95).speed);
  });
});

const even = (length: number, thickness: number, width: number): Strip => ({
  length,
  stations: [{ s: 0, thickness, width }],
});

describe('along a strip', () => {
  test('240 steps, straight between stations, the last one carried on', () => {
    const stations = [
      { s: 0, thickness: 4, width: 1 },
      { s: 6, thickness: 2, width: 3 },
    ];
    const { step, thickness, width } = sampled('sampled', { length: 12, stations });
    expect(step).toBe(12 / 240);
    expect([thickness.length, width.length]).toEqual([241, 241]);
    expect([thickness[0], thickness[60], thickness[120], thickness[240]]).toEqual([4, 3, 2, 2]);
    expect([width[0], width[60], width[120], width[240]]).toEqual([1, 2, 3, 3]);
    expect(sampled('sampled', even(1, 5, 7)).thickness.every((t) => t === 5)).toBe(true);
    expect(() => sampled('here', { length: 0, stations })).toThrow(`here: length: ${WANTS}`);
    expect(() => sampled('here', even(1, 0, 1))).toThrow(`here: thickness: ${WANTS}`);
    expect(() => sampled('here', even(1, 1, 0))).toThrow(`here: width: ${WANTS}`);
  });

  // ∫₀⁴ x³ dx = 64 by Simpson's rule, exact for cubics.
  test('integrals are exact for cubics, running ones for parabolas, up to every place', () => {
    const at = [0, 0.5, 1, 1.5, 2, 2.5, 3, 3.5, 4];
    expect(
      integral(
        at.map((x) => x ** 3),
        0.5,
      ),
    ).toBeCloseTo(64, 12);
    expect(
      integral(
        at.map((x) => x ** 3 - x ** 2),
        0.5,
      ),
    ).toBeCloseTo(64 - 64 / 3, 12);
    const sums = running(
      at.map((x) => 3 * x ** 2 - 2 * x + 1),
      0.5,
    );
    expect(sums).toHaveLength(9);
    sums.forEach((sum, i) => expect(sum).toBeCloseTo(at[i]! ** 3 - at[i]! ** 2 + at[i]!, 12));
  });

  test('an even strip is as limp as 1.5·(L/t)³, stands for itself, and is as stiff as E·t³/12', () => {
    const strip = even(0.06, 0.002, 0.008);
    expect(stripLimpness(strip) / (1.5 * 30 ** 3)).toBeCloseTo(1, 9);
    expect(equivalentThickness(strip)).toBeCloseTo(0.002, 12);
    expect(meanStiffness(strip, 3e5) / ((3e5 * 0.002 ** 3) / 12)).toBeCloseTo(1, 12);
    expect(() => meanStiffness(strip, 0)).toThrow(`meanStiffness: modulus: ${WANTS}`);
  });

  test('widths count by their squares: from 0 to b on a straight taper b/√3', () => {
    const taper = {
      length: 2,
      stations: [
        { s: 0, thickness: 1, width: 3 },
        { s: 2, thickness: 1, width: 1e-9 },
      ],
    };
    expect(meanWidth(taper)).toBeCloseTo(Math.sqrt(3), 8);
  });

  // An even pressure p on an even strip that is n times as wide near the tip only: by the width beyond each place.
  test('a strip whose outer half is twice as wide bends as its two even halves say', () => {
    const width = (x: number) => (x < 0.5 ? 1 : 2);
    const stations = [0, 0.5 - 1e-9, 0.5, 1].map((s) => ({ s, thickness: 0.1, width: width(s) }));
    // ∫(1 − x)·M(x)/(b·t³/12) dx, M by hand: 2·(1 − x)²/2 beyond ½, (½)·(¾ − x)·2 + (½ − x)²/2 before.
    let exact = 0;
    for (let k = 0; k < 4000; k++) {
      const x = (k + 0.5) / 4000;
      const moment = x < 0.5 ? 0.75 - x + (0.5 - x) ** 2 / 2 : (1 - x) ** 2;
      exact += ((1 - x) * moment * 12) / (width(x) * 0.1 ** 3) / 4000;
    }
    expect(stripLimpness({ length: 1, stations }) / exact).toBeCloseTo(1, 2);
  });
});

const WATER = 998.2;
const mover = (kind: Mover['kind'], thickness = 1.3e-3): Mover => ({
  ...{ kind, density: 1020, water: WATER, body: 0.011 },
  strip: { length: 0.06, stations: [{ s: 0, thickness, width: 0.008 }] },
});
const EXACT = { modulus: band(2.5e5), thickness: band(1) };

describe('how parts are set moving', () => {
  test('curls, paddles and claws stand across the stream, all else trails', () => {
    const across = Object.entries(MANNERS).filter(([, manner]) => manner.across);
    expect(across.map(([kind]) => kind).sort()).toEqual(['claw', 'curl-tail', 'paddle']);
    expect(MANNERS['curl-tail'].flutterShare).toEqual(band(0.5, 0.25, 1));
    expect([MANNERS.paddle.flutterShare, MANNERS.claw.flutterShare]).toEqual([null, null]);
    for (const kind of ['ribbon-tail', 'fin', 'arm', 'leg', 'rib'] as const) {
      expect(MANNERS[kind]).toEqual({ across: false, flutterShare: band(1, 0.7, 1.5) });
    }
    expect(ONSET_SOURCES.map(({ kind }) => kind)).toEqual(['published', 'published', 'estimate']);
    expect(ONSET_SOURCES.map(({ note }) => note)).toEqual(['from memory', undefined, undefined]);
  });

  test('speeds of an even strip: folding, flutter, in step with its own or the body’s eddies', () => {
    for (const [kind, size] of [
      ['paddle', 0.008],
      ['fin', 0.011],
    ] as const) {
      const own = mover(kind);
      const { strip } = own;
      const speeds = actionSpeeds(own, 2.5e5);
      const frequency = wetFrequency({ strip, modulus: 2.5e5, density: 1020, water: WATER });
      expect(speeds.frequency).toBe(frequency);
      expect(speeds.inStep / ((frequency * size) / 0.2)).toBeCloseTo(1, 9);
      const limpness = 1.5 * (0.06 / 1.3e-3) ** 3;
      expect(speeds.folding / bendingSpeed({ limpness, modulus: 2.5e5, water: WATER })).toBeCloseTo(1, 9);
      const flat = {
        length: 0.06,
        width: 0.008,
        thickness: 1.3e-3,
        modulus: 2.5e5,
        density: 1020,
        water: WATER,
      };
      expect(speeds.flutter / flutterSpeed(flat)).toBeCloseTo(1, 6);
    }
  });

  // Added mass over the whole: (π/4)ρb²/((π/4)ρb² + ρₛbt) = 0.98 at b = 49·(4/π)·(ρₛ/ρ)·t.
  test('a strip far wider than thick is taken at a mass ratio of 0.98', () => {
    const wide = (width: number): Mover => ({
      ...mover('fin'),
      strip: { length: 0.2, stations: [{ s: 0, thickness: 1e-3, width }] },
    });
    const width = ((49 * 4) / Math.PI) * (1020 / WATER) * 1e-3;
    const [at, beyond] = [width * 0.9999, width * 1.5].map((b) => actionSpeeds(wide(b), 2.5e5).flutter);
    expect(beyond! / at!).toBeCloseTo(1, 3);
  });

  /** `share` of a speed with the bands of modulus and thickness: changes in ln add in squares; stiffness ∝ E·t³. */
  const spreadOf = (share: Band, speed: number, spread: { modulus: Band; thickness: Band }) => {
    const end = (at: 'low' | 'high') =>
      Math.hypot(
        0.5 * Math.log(spread.modulus[at] / spread.modulus.value),
        1.5 * Math.log(spread.thickness[at]),
        Math.log(share[at] / share.value),
      );
    const value = share.value * speed;
    return { value, low: value * Math.exp(-end('low')), high: value * Math.exp(end('high')) };
  };
  const near = (got: Band, exact: Band) => {
    for (const at of ['value', 'low', 'high'] as const) expect(got[at] / exact[at], at).toBeCloseTo(1, 9);
    expect(Object.keys(got).sort()).toEqual(['high', 'low', 'value']);
  };
  const SPREAD = { modulus: band(2.5e5, 1.5e5, 4.3e5), thickness: band(1, 0.96, 1.03) };
  const PUSHED = band(0.5, 0.25, 1);
  // Speed goes with the root of the Cauchy number: 1, 8 and 10 over 8.
  const FOLDED = band(1, Math.sqrt(1 / 8), Math.sqrt(10 / 8));

  test('a paddle moves once it folds and is pushed at half its frequency, whichever is the faster', () => {
    const kinds = [];
    for (const thickness of [0.6e-3, 3e-3]) {
      const { from, speeds, shaken } = onsetOf(mover('paddle', thickness), SPREAD, 0);
      const folds = speeds.folding > speeds.inStep / 2;
      kinds.push(folds);
      near(from, folds ? spreadOf(FOLDED, speeds.folding, SPREAD) : spreadOf(PUSHED, speeds.inStep, SPREAD));
      expect(shaken).toBeNull();
      expect(speeds).toEqual(actionSpeeds(mover('paddle', thickness), 2.5e5));
    }
  });

  test('a curl has to reach half of the flutter speed as well', () => {
    const { from, speeds } = onsetOf(mover('curl-tail'), SPREAD, 0);
    const least = Math.max(speeds.folding, speeds.inStep / 2, speeds.flutter / 2);
    expect(from.value / least).toBeCloseTo(1, 9);
    expect(speeds.flutter / 2).toBe(least);
    near(from, spreadOf(band(0.5, 0.25, 1), speeds.flutter, SPREAD));
  });

  test('a fin moves when it flutters or is shaken, whichever comes first; shaken from half to twice in step', () => {
    for (const thickness of [0.5e-3, 3e-3]) {
      const { from, speeds, shaken } = onsetOf(mover('fin', thickness), SPREAD, 0);
      const [pushed, flutter] = [
        spreadOf(PUSHED, speeds.inStep, SPREAD),
        spreadOf(band(1, 0.7, 1.5), speeds.flutter, SPREAD),
      ];
      near(from, pushed.value < flutter.value ? pushed : flutter);
      near(shaken!.from, pushed);
      near(shaken!.to, spreadOf(band(2, 1, 4), speeds.inStep, SPREAD));
    }
  });

  test('eddies that pass it by before it is fished at all do not count', () => {
    const own = mover('fin', 0.5e-3);
    const { speeds } = onsetOf(own, EXACT, 0);
    expect(onsetOf(own, EXACT, 2 * speeds.inStep * 0.999).shaken).not.toBeNull();
    const still = onsetOf(own, EXACT, 2 * speeds.inStep * 1.001);
    expect(still.shaken).toBeNull();
    near(still.from, spreadOf(band(1, 0.7, 1.5), speeds.flutter, EXACT));
  });

  test('likely from the top of the band, marginal again once eddies have passed', () => {
    const shaken = { from: band(0.1), to: band(0.8, 0.4, 1.6) };
    const onset = { from: band(0.3, 0.2, 0.5), shaken };
    const told = [0, 0.19, 0.2, 0.49, 0.5, 0.8, 0.81].map((speed) => chanceAt(onset, speed));
    expect(told).toEqual(['unlikely', 'unlikely', 'marginal', 'marginal', 'likely', 'likely', 'marginal']);
  });
});
