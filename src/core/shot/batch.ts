import { band, type Band } from '../quantity/band.ts';
import { need, needNonNegative, needPositive } from '../quantity/guard.ts';

/** What clings to the cup and the injector, as a share of what is shot: common practice. */
export const CLINGING_SHARE = 0.1;

/** One mold's shot, by mass. */
export interface ShotShare {
  readonly cavities: number;
  /** Melt of one shot [kg]. */
  readonly shotMass: Band;
  /** One bait [kg]. */
  readonly baitMass: Band;
}

/** What a run of baits takes. */
export interface Batch {
  readonly baits: number;
  /** Mold cycles. */
  readonly shots: number;
  /** Compound to heat, with what clings to cup and injector [kg]. */
  readonly compound: Band;
  /** The same as liquid at 20 °C [m³]. */
  readonly liquid: Band;
  /** Sprues and runners of the run, which can be melted again [kg]. */
  readonly remelt: Band;
}

function needShare(where: string, share: ShotShare): void {
  needPositive(where, { shotMass: share.shotMass.low, baitMass: share.baitMass.low });
  need(
    Number.isInteger(share.cavities) && share.cavities >= 1,
    where,
    'a whole number of cavities from 1',
    share.cavities,
  );
}

/**
 * Share of a shot that ends in sprue, runners and gates.
 *
 * @param runner - volume of the channels [m³]
 * @param total - volume of the whole shot [m³]
 * @returns share [1]
 * @throws {RangeError} when the runner exceeds the total or is negative
 *
 * Cost: constant.
 * Source: definition.
 */
export function sprueShare(runner: number, total: Band): Band {
  needNonNegative('sprueShare', { runner });
  need(runner < total.low, 'sprueShare', 'a runner smaller than the shot', runner);
  return band(runner / total.value, runner / total.high, runner / total.low);
}

/**
 * Cycles and compound for a number of baits.
 *
 * @param baits - how many are wanted, from 1
 * @param share - cavities, shot mass and bait mass of the mold [kg]
 * @param curedDensity - of the compound at 20 °C [kg/m³]; the liquid has nearly the same
 * @param clinging - share of the shot mass that stays on cup and injector [1]
 * @returns cycles, compound by mass and as liquid at 20 °C, mass of sprues that can be melted again
 * @throws {RangeError} when the count is not a whole number from 1
 *
 * Valid: no spoiled shots, no sprues melted in.
 * Cost: constant.
 * Source: mass balance; 10 % on cup and injector is common practice.
 */
export function batchFor(
  baits: number,
  share: ShotShare,
  curedDensity: Band,
  clinging: number = CLINGING_SHARE,
): Batch {
  needShare('batchFor', share);
  need(Number.isInteger(baits) && baits >= 1, 'batchFor', 'a whole number of baits from 1', baits);
  needNonNegative('batchFor', { clinging });
  const shots = Math.ceil(baits / share.cavities);
  const mass = (shot: number) => shots * shot * (1 + clinging);
  const left = (shot: number, bait: number) => Math.max(0, shots * (shot - share.cavities * bait));
  const { shotMass, baitMass } = share;
  const compound = band(mass(shotMass.value), mass(shotMass.low), mass(shotMass.high));
  const remelt = left(shotMass.value, baitMass.value);
  return {
    baits,
    shots,
    compound,
    liquid: band(
      compound.value / curedDensity.value,
      compound.low / curedDensity.value,
      compound.high / curedDensity.value,
    ),
    remelt: band(
      remelt,
      Math.min(remelt, left(shotMass.low, baitMass.low)),
      Math.max(remelt, left(shotMass.high, baitMass.low)),
    ),
  };
}

/** How many baits come out of a bottle. */
export interface Yield {
  /** Whole shots at the adverse end of the band. */
  readonly shots: number;
  /** Baits from new compound alone: whole shots, adverse, nominal and favourable end. */
  readonly baits: Band;
  /** Baits when every sprue is melted in again and only clinging compound is lost. */
  readonly withRemelt: number;
}

/**
 * Baits that a measure of liquid compound gives.
 *
 * @param liquid - volume at 20 °C: a pint, a quart, a gallon [m³]
 * @param share - cavities, shot mass and bait mass of the mold [kg]
 * @param curedDensity - of the compound at 20 °C [kg/m³]
 * @param clinging - share of the shot mass that stays on cup and injector [1]
 * @returns whole shots and baits, with and without remelting
 * @throws {RangeError} when the volume is not positive
 *
 * Valid: no spoiled shots.
 * Cost: constant.
 * Source: mass balance; 10 % on cup and injector is common practice.
 */
export function yieldOf(
  liquid: number,
  share: ShotShare,
  curedDensity: Band,
  clinging: number = CLINGING_SHARE,
): Yield {
  needShare('yieldOf', share);
  needPositive('yieldOf', { liquid });
  needNonNegative('yieldOf', { clinging });
  const mass = (liquid * curedDensity.value) / (1 + clinging);
  const shots = (shot: number) => Math.floor(mass / shot + 1e-9);
  const { low, value, high } = share.shotMass;
  return {
    shots: shots(high),
    baits: band(shots(value) * share.cavities, shots(high) * share.cavities, shots(low) * share.cavities),
    withRemelt: Math.floor(mass / share.baitMass.value + 1e-9),
  };
}
