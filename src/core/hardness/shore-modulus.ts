import { need, needPositive } from '../quantity/guard.ts';

/** Gent's constants: spring 0.549 N to 8.05 N, flat cone of 0.79 mm, travel 2.5 mm, folded together. */
const GENT = { force: 0.0981e6, zero: 56, slope: 7.62336, area: 0.137505, travel: 254, perPoint: 2.54 };

/**
 * Young's modulus of rubber from Shore A.
 *
 * @param shoreA - type A reading, 0 to 80
 * @returns Young's modulus [Pa], ±25 %
 * @throws {RangeError} outside 0 to 80
 *
 * Valid: linear elastic, incompressible, at least 6 mm thick; readings below 20 are better taken on Shore 00.
 * Cost: constant.
 * Source: A. N. Gent, On the relation between indentation hardness and Young's modulus, Trans. IRI 34 (1958) 46;
 * constants as commonly quoted, from memory.
 */
export function shoreAModulusGent(shoreA: number): number {
  need(shoreA >= 0 && shoreA <= 80, 'shoreAModulusGent', 'Shore A from 0 to 80', shoreA);
  return (
    (GENT.force * (GENT.zero + GENT.slope * shoreA)) / (GENT.area * (GENT.travel - GENT.perPoint * shoreA))
  );
}

/**
 * Shore A from Young's modulus: Gent's relation turned round.
 *
 * @param modulus - Young's modulus [Pa], up to that of Shore A 80
 * @returns type A reading; 0 for anything softer than the scale can tell
 * @throws {RangeError} when the modulus is not positive or lies above Shore A 80
 *
 * Valid: as `shoreAModulusGent`.
 * Cost: constant.
 * Source: A. N. Gent, Trans. IRI 34 (1958) 46, solved for the reading.
 */
export function shoreAFromModulus(modulus: number): number {
  needPositive('shoreAFromModulus', { modulus });
  need(
    modulus <= shoreAModulusGent(80) * (1 + 1e-9),
    'shoreAFromModulus',
    'a modulus up to 9.35 MPa',
    modulus,
  );
  const kappa = (GENT.area * modulus) / GENT.force;
  return Math.max(0, (GENT.travel * kappa - GENT.zero) / (GENT.slope + GENT.perPoint * kappa));
}

/**
 * Young's modulus of rubber from Shore A, by the logarithmic rule.
 *
 * @param shoreA - type A reading, 0 to 80
 * @returns Young's modulus [Pa], ±30 %
 * @throws {RangeError} outside 0 to 80
 *
 * Valid: a comparison to Gent's relation; meant for 20 to 80.
 * Cost: constant.
 * Source: C. Ruess' relation, log₁₀ E = 0.0235 S − 0.6403 (E in MPa), as reprinted in a silicone maker's white paper.
 */
export function shoreAModulusRuess(shoreA: number): number {
  need(shoreA >= 0 && shoreA <= 80, 'shoreAModulusRuess', 'Shore A from 0 to 80', shoreA);
  return 1e6 * 10 ** (0.0235 * shoreA - 0.6403);
}

/** Type OO of ASTM D2240: ball of 1.19 mm radius, spring from 0.203 N, 9.08 mN a point, travel 2.5 mm. */
const TYPE_00 = { radius: 1.19e-3, zero: 0.203, perPoint: 0.00908, travel: 2.5e-3 };

/** Mean ratio of Gent's modulus to the Hertz one at Shore 00 45, 55 and 62, through the comparison chart. */
const HERTZ_CALIBRATION = 1.3673126886125335;

/** Above this the comparison chart and Gent's relation take over by `SHORE_00_FULL`. */
const SHORE_00_HERTZ_LIMIT = 62;
const SHORE_00_FULL = 70;

/**
 * Young's modulus that a type 00 ball would find in an elastic half-space.
 *
 * @param shore00 - type 00 reading, 0 to 70
 * @returns Young's modulus [Pa], before calibration
 * @throws {RangeError} outside 0 to 70
 *
 * Valid: frictionless, incompressible; the ball sinks in by more than its radius at low readings, where Hertz
 * only orders the readings.
 * Cost: constant.
 * Source: Hertz contact of a sphere, E = ¾(1−ν²)F/(√R·d^1.5); type OO spring and ball after ASTM D2240, from memory.
 */
export function shore00ModulusHertz(shore00: number): number {
  need(shore00 >= 0 && shore00 <= 70, 'shore00ModulusHertz', 'Shore 00 from 0 to 70', shore00);
  const force = TYPE_00.zero + TYPE_00.perPoint * shore00;
  const depth = TYPE_00.travel * (1 - shore00 / 100);
  return (0.75 * (1 - 0.5 ** 2) * force) / (Math.sqrt(TYPE_00.radius) * depth ** 1.5);
}

/** Type A against type 00, softest first: a comparison, not a conversion. */
const CHART: readonly (readonly [shoreA: number, shore00: number])[] = [
  [5, 45],
  [10, 55],
  [15, 62],
  [20, 70],
  [25, 76],
  [30, 80],
  [35, 83],
  [40, 86],
  [45, 88],
  [50, 90],
  [55, 91],
  [60, 93],
  [65, 94],
  [70, 95],
  [75, 97],
  [80, 98],
];

function interpolated(rows: readonly (readonly [number, number])[], x: number, where: string): number {
  const first = rows[0]![0];
  const last = rows.at(-1)![0];
  need(x >= first && x <= last, where, `a reading from ${first} to ${last}`, x);
  const after = Math.max(
    1,
    rows.findIndex(([key]) => key >= x),
  );
  const [x0, y0] = rows[after - 1]!;
  const [x1, y1] = rows[after]!;
  return y0 + ((y1 - y0) * (x - x0)) / (x1 - x0);
}

/**
 * Shore 00 reading to expect where a Shore A reading is known.
 *
 * @param shoreA - type A reading, 5 to 80
 * @returns type 00 reading
 * @throws {RangeError} outside 5 to 80
 *
 * Valid: a rough comparison only; the two types press differently.
 * Cost: constant.
 * Source: hardness comparison chart as printed by many rubber makers, second hand.
 */
export function shore00FromShoreA(shoreA: number): number {
  return interpolated(CHART, shoreA, 'shore00FromShoreA');
}

/**
 * Shore A reading to expect where a Shore 00 reading is known.
 *
 * @param shore00 - type 00 reading, 45 to 98
 * @returns type A reading
 * @throws {RangeError} outside 45 to 98
 *
 * Valid: a rough comparison only; the two types press differently.
 * Cost: constant.
 * Source: hardness comparison chart as printed by many rubber makers, second hand.
 */
export function shoreAFromShore00(shore00: number): number {
  return interpolated(
    CHART.map(([a, double]) => [double, a] as const),
    shore00,
    'shoreAFromShore00',
  );
}

/** The stretch between the ball model and the chart: straight in the logarithm. */
const JOIN = {
  from: SHORE_00_HERTZ_LIMIT,
  to: SHORE_00_FULL,
  low: Math.log(HERTZ_CALIBRATION * shore00ModulusHertz(SHORE_00_HERTZ_LIMIT)),
  high: Math.log(shoreAModulusGent(shoreAFromShore00(SHORE_00_FULL))),
};

/**
 * Young's modulus from Shore 00.
 *
 * @param shore00 - type 00 reading, 0 to 98
 * @returns Young's modulus [Pa]: within ×/÷ 1.5 below 62, ±25 % on top of the chart's error above 70
 * @throws {RangeError} outside 0 to 98
 *
 * Valid: typical, measure your own; below 62 a Hertz ball raised by 1.367 so that it meets Gent's relation
 * through the comparison chart at 45 to 62.
 * Cost: constant.
 * Source: own derivation from Hertz contact and ASTM D2240 type OO; Gent (1958) above.
 */
export function shore00Modulus(shore00: number): number {
  need(shore00 >= 0 && shore00 <= 98, 'shore00Modulus', 'Shore 00 from 0 to 98', shore00);
  if (shore00 <= JOIN.from) return HERTZ_CALIBRATION * shore00ModulusHertz(shore00);
  if (shore00 >= JOIN.to) return shoreAModulusGent(shoreAFromShore00(shore00));
  return Math.exp(JOIN.low + ((JOIN.high - JOIN.low) * (shore00 - JOIN.from)) / (JOIN.to - JOIN.from));
}

/**
 * Shore 00 from Young's modulus: `shore00Modulus` turned round.
 *
 * @param modulus - Young's modulus [Pa], up to that of Shore 00 98
 * @returns type 00 reading; 0 for anything softer than the scale can tell
 * @throws {RangeError} when the modulus is not positive or is too stiff for the scale
 *
 * Valid: as `shore00Modulus`.
 * Cost: 60 halvings.
 * Source: own derivation from Hertz contact and ASTM D2240 type OO; Gent (1958) above.
 */
export function shore00FromModulus(modulus: number): number {
  needPositive('shore00FromModulus', { modulus });
  need(modulus <= shore00Modulus(98) * (1 + 1e-9), 'shore00FromModulus', 'a modulus up to 9.35 MPa', modulus);
  if (modulus <= shore00Modulus(0)) return 0;
  let low = 0;
  let high = 98;
  for (let step = 0; step < 60; step++) {
    const middle = (low + high) / 2;
    if (shore00Modulus(middle) < modulus) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}

/**
 * Young's modulus from the speed of shear waves.
 *
 * @param density - [kg/m³]
 * @param speed - of shear waves [m/s]
 * @returns Young's modulus [Pa], dynamic
 * @throws {RangeError} when either is not positive
 *
 * Valid: incompressible, little damping.
 * Cost: constant.
 * Source: E = 3G = 3ρc², elastic waves in an incompressible solid.
 */
export function shearWaveModulus(density: number, speed: number): number {
  needPositive('shearWaveModulus', { density, speed });
  return 3 * density * speed ** 2;
}
