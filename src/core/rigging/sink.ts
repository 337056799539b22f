import { band, quadrature, type Band } from '../quantity/band.ts';
import { needNonNegative, needPositive } from '../quantity/guard.ts';
import { noseFirstDrag, sinkingCylinderDrag } from './drag.ts';

/** Standard gravity [m/s²], exact by convention. */
export const GRAVITY = 9.80665;

/** Something heavy on the bait: hook, weight. Mass [kg], density [kg/m³]. */
export interface Ballast {
  readonly mass: number;
  readonly density: number;
}

/** What sinks: its volume [m³], its density [kg/m³] and what hangs on it. */
export interface Sinker {
  readonly volume: number;
  readonly density: number;
  readonly ballast?: readonly Ballast[];
}

/**
 * Weight of a bait and its hook under water.
 *
 * @param sinker - volume [m³], density [kg/m³], ballast [kg, kg/m³]
 * @param water - density of the water [kg/m³]
 * @returns force [N]: above 0 it sinks, below 0 it floats
 * @throws {RangeError} when a volume or density is not positive
 *
 * Valid: no trapped air.
 * Cost: linear in the number of ballast parts.
 * Source: Archimedes; standard gravity.
 */
export function submergedWeight(sinker: Sinker, water: number): number {
  needPositive('submergedWeight', { volume: sinker.volume, density: sinker.density, water });
  const body = (sinker.density - water) * sinker.volume;
  const ballast = (sinker.ballast ?? []).reduce((sum, part) => {
    needNonNegative('submergedWeight', { mass: part.mass });
    needPositive('submergedWeight', { ballastDensity: part.density });
    return sum + part.mass * (1 - water / part.density);
  }, 0);
  return GRAVITY * (body + ballast);
}

/**
 * Steady speed at which drag carries the weight, for a known drag coefficient.
 *
 * @param weight - under water [N], 0 or more
 * @param area - that the drag coefficient refers to [m²]
 * @param water - density of the water [kg/m³]
 * @param drag - drag coefficient [1]
 * @returns speed [m/s]
 * @throws {RangeError} when the weight is negative or another input is not positive
 *
 * Cost: constant.
 * Source: force balance, v = √(2W/(ρ·C·A)).
 */
export function terminalSpeed(weight: number, area: number, water: number, drag: number): number {
  needNonNegative('terminalSpeed', { weight });
  needPositive('terminalSpeed', { area, water, drag });
  return Math.sqrt((2 * weight) / (water * drag * area));
}

/** What a falling body and the water around it are like. */
export interface Fall {
  /** Under water [N], above 0. */
  readonly weight: number;
  /** That the drag coefficient refers to [m²]. */
  readonly area: number;
  /** That the Reynolds number refers to [m]. */
  readonly diameter: number;
  /** Density [kg/m³]. */
  readonly water: number;
  /** Dynamic viscosity [Pa·s]. */
  readonly viscosity: number;
}

/**
 * Steady speed at which drag carries the weight, for a drag coefficient that depends on the speed.
 *
 * @param fall - weight, area, diameter and water, SI
 * @param drag - drag coefficient [1] from the Reynolds number [1]
 * @returns speed [m/s]
 * @throws {RangeError} when an input is not positive or the speed does not settle
 *
 * Valid: drag force grows with speed.
 * Cost: at most 200 calls of `drag`.
 * Source: force balance, v = √(2W/(ρ·C(Re)·A)), solved by damped repetition.
 */
export function settlingSpeed(fall: Fall, drag: (reynolds: number) => number): number {
  const { weight, area, diameter, water, viscosity } = fall;
  needPositive('settlingSpeed', { weight, area, diameter, water, viscosity });
  let speed = terminalSpeed(weight, area, water, 1);
  for (let step = 0; step < 200; step++) {
    const reynolds = (water * speed * diameter) / viscosity;
    const next = Math.sqrt(speed * terminalSpeed(weight, area, water, drag(reynolds)));
    if (Math.abs(next - speed) < 1e-12 * speed) return next;
    speed = next;
  }
  throw new RangeError(`settlingSpeed: wants a drag law that settles, got ${speed} m/s after 200 steps`);
}

/** A bait as it sinks on its flat. */
export interface SinkingBait {
  readonly volume: number;
  readonly length: number;
  /** Seen from below, lying flat [m²]. */
  readonly area: number;
  /** Largest cross-section [m²]. */
  readonly section: number;
  readonly density: Band;
  readonly ballast?: readonly Ballast[];
}

/** The water it sinks in: density [kg/m³], viscosity [Pa·s]. */
export interface Water {
  readonly density: number;
  readonly viscosity: number;
}

/** What it does once it is let go. */
export type FloatOrSink = 'floats' | 'sinks' | 'may float or sink';

/**
 * Weight of a bait under water over the band of its density.
 *
 * @param bait - volume [m³], density band [kg/m³], ballast
 * @param water - density [kg/m³]
 * @returns force band [N]
 * @throws {RangeError} when a volume or density is not positive
 *
 * Cost: constant.
 * Source: Archimedes; standard gravity.
 */
export function submergedWeightBand(
  bait: Pick<SinkingBait, 'volume' | 'density' | 'ballast'>,
  water: number,
): Band {
  const at = (density: number) =>
    submergedWeight({ volume: bait.volume, density, ballast: bait.ballast ?? [] }, water);
  return band(at(bait.density.value), at(bait.density.low), at(bait.density.high));
}

/**
 * Whether a bait floats or sinks, only as sure as its density is.
 *
 * @param weight - band of the weight under water [N]
 * @returns `sinks` or `floats` when the whole band agrees, else `may float or sink`
 *
 * Cost: constant.
 * Source: definition.
 */
export function floatOrSink(weight: Band): FloatOrSink {
  if (weight.low > 0) return 'sinks';
  if (weight.high < 0) return 'floats';
  return 'may float or sink';
}

/** Spread of the drag coefficient of a bait on its flat against that of a cylinder. */
const FLAT_FACTOR: Band = band(1, 0.85, 1.2);
/** The same nose first: a rounded nose drags far less than a flat end. */
const NOSE_FACTOR: Band = band(1, 0.3, 1.2);

type SpeedAt = (values: { newtons: number; factor: number }) => number;

/** Band of a speed from the bands of weight and drag; low is 0 where the weight may vanish. */
function speedBand(weight: Band, factor: Band, speedAt: SpeedAt): Band | null {
  if (!(weight.value > 0)) return null;
  const sure = band(weight.value, Math.max(weight.low, 1e-6 * weight.value), weight.high);
  const { value, low, high } = quadrature(speedAt, { newtons: sure, factor });
  return band(value, weight.low > 0 ? low : 0, high);
}

/**
 * Speed at which a bait sinks on its flat.
 *
 * @param bait - volume [m³], length [m], area seen from below [m²], density band [kg/m³], ballast
 * @param water - density [kg/m³] and viscosity [Pa·s]
 * @returns speed band [m/s]; low is 0 where the density band reaches down to the water's; null when the nominal
 * does not sink
 * @throws {RangeError} when a size is not positive
 *
 * Valid: taken as a cylinder of the bait's length and mean width; a tail that flutters slows it.
 * Cost: about a hundred evaluations of the drag law.
 * Source: force balance; finite cylinder from Matthews (2002), p. 95, Sucker & Brauer (1975), −15 % to +20 %.
 */
export function sinkSpeed(bait: Omit<SinkingBait, 'section'>, water: Water): Band | null {
  const { length, area } = bait;
  needPositive('sinkSpeed', { length, area });
  const diameter = area / length;
  const slenderness = Math.max(1, length / diameter);
  return speedBand(submergedWeightBand(bait, water.density), FLAT_FACTOR, ({ newtons, factor }) =>
    settlingSpeed(
      { weight: newtons, area, diameter, water: water.density, viscosity: water.viscosity },
      (reynolds) => factor * sinkingCylinderDrag(reynolds, slenderness),
    ),
  );
}

/**
 * Speed at which a bait sinks nose first.
 *
 * @param bait - volume [m³], length [m], largest cross-section [m²], density band [kg/m³], ballast
 * @param water - density [kg/m³]
 * @returns speed band [m/s]; low is 0 where the density band reaches down to the water's; null when the nominal
 * does not sink
 * @throws {RangeError} when a size is not positive
 *
 * Valid: taken as a flat-ended cylinder of that section; the high end is that of a rounded nose, an estimate.
 * Cost: five force balances.
 * Source: force balance; Matthews (2002), p. 95, +20 %; down to three tenths for a rounded nose, an estimate.
 */
export function noseFirstSpeed(bait: Omit<SinkingBait, 'area'>, water: Pick<Water, 'density'>): Band | null {
  const { length, section } = bait;
  needPositive('noseFirstSpeed', { length, section });
  const drag = noseFirstDrag(Math.max(1, length / Math.sqrt((4 * section) / Math.PI)));
  return speedBand(submergedWeightBand(bait, water.density), NOSE_FACTOR, ({ newtons, factor }) =>
    terminalSpeed(newtons, section, water.density, factor * drag),
  );
}
