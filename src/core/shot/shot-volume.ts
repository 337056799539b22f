import { band, quadrature, type Band } from '../quantity/band.ts';
import { need, needNonNegative, needPositive } from '../quantity/guard.ts';
import { HOT_RATIO } from './compound-density.ts';

/** The melt of one shot, measured hot [m³]. */
export interface ShotVolume {
  /** One cavity as cut, filled once. */
  readonly cavity: number;
  /** Drawn into all cavities together while they cool under pressure. */
  readonly topOff: Band;
  /** Sprue, runners and gates of the whole mold. */
  readonly runner: number;
  /** Everything that has to be in the injector: all cavities, their top-off, and the runner. */
  readonly total: Band;
}

/** What a shot has to fill. */
export interface ShotSpace {
  /** Volume of one cavity as cut [m³]. */
  readonly cavity: number;
  /** Number of cavities. */
  readonly cavities: number;
  /** Sprue, runners and gates of the whole mold [m³]. */
  readonly runner: number;
  /** Top-off as a share of the cavity [1]. */
  readonly topOffShare: Band;
}

const scaled = (b: Band, factor: number, plus = 0): Band =>
  band(b.value * factor + plus, b.low * factor + plus, b.high * factor + plus);

/**
 * Hot melt that one shot takes: every cavity filled once, plus what contraction draws in, plus the channels.
 *
 * @param space - cavity and channel volumes [m³], count, top-off share [1]
 * @returns volumes at pouring heat [m³]
 * @throws {RangeError} when the cavity is not positive, the runner is negative or the count is not whole
 *
 * Valid: rigid walls; the channels' own contraction shows as a sunken sprue end and is not fed.
 * Cost: constant.
 * Source: sum of the parts; top-off from the mass balance of a cavity of fixed volume, own derivation.
 */
export function shotVolume(space: ShotSpace): ShotVolume {
  const { cavity, cavities, runner, topOffShare } = space;
  needPositive('shotVolume', { cavity });
  needNonNegative('shotVolume', { runner });
  need(
    Number.isInteger(cavities) && cavities >= 1,
    'shotVolume',
    'a whole number of cavities from 1',
    cavities,
  );
  const topOff = scaled(topOffShare, cavity * cavities);
  return {
    cavity,
    topOff,
    runner,
    total: scaled(topOff, 1, cavities * cavity + runner),
  };
}

const product = (a: Band, b: Band): Band => {
  const { value, low, high } = quadrature((x) => x.a * x.b, { a, b });
  return { value, low, high };
};

/**
 * Mass of the melt that one shot takes.
 *
 * @param volume - hot volume [m³]
 * @param hotDensity - density of the melt [kg/m³]
 * @returns mass band [kg]
 * @throws {RangeError} when either is not positive
 *
 * Cost: constant.
 * Source: definition of density.
 */
export function shotMass(volume: Band, hotDensity: Band): Band {
  return product(volume, hotDensity);
}

/**
 * Mass of one cured bait.
 *
 * The cavity is filled with melt, which is lighter than the cured compound. How much more gets in before the
 * gate shuts decides the mass: nothing (low), the computed top-off (nominal), or all that the contraction down
 * to 20 °C asks for (high: cured density times cavity volume).
 *
 * @param cavity - volume of the cavity as cut [m³]
 * @param curedDensity - at 20 °C [kg/m³]
 * @param topOffShare - top-off as a share of the cavity [1]
 * @returns mass band [kg]
 * @throws {RangeError} when the volume is not positive
 *
 * Valid: no flash, no large bubbles.
 * Cost: constant.
 * Source: mass balance; hot to cold density ratio 0.89 / 0.90 / 0.93 from expansion of flexible PVC over 155 K.
 */
export function baitMass(cavity: number, curedDensity: Band, topOffShare: Band): Band {
  needPositive('baitMass', { cavity });
  const packed = Math.min(1, HOT_RATIO.value * (1 + topOffShare.value));
  return product(scaled(curedDensity, cavity), band(packed, HOT_RATIO.low, 1));
}
