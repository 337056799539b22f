import { quadrature, type Band, type Spread } from '../../quantity/band.ts';
import { contactTemperature } from '../../heat/contact.ts';
import { GAS_CONSTANT } from '../viscosity.ts';
import {
  fillReserve,
  freezeSquare,
  shotTheta,
  type FreezeScale,
  type PartDrive,
  type ReserveTable,
  type ShotConditions,
} from './reserve-table.ts';

/** Temperature at which the viscosity of a compound is stated [K]. */
export const VISCOSITY_AT = 175 + 273.15;

/** What decides a fill reserve, each with its band [SI]. */
export type ReserveInputs = Readonly<
  Record<
    | 'pressure'
    | 'viscosity'
    | 'activation'
    | 'diffusivity'
    | 'noFlow'
    | 'melt'
    | 'mold'
    | 'gap'
    | 'closing'
    | 'push',
    Band
  >
>;

/** One value of each input. */
export type ReserveValues = Record<keyof ReserveInputs, number>;

/** A short shot into a slot of even gap, gated at its end, as it was measured. */
export interface ShortShot {
  /** [m]. */
  readonly gap: number;
  /** How far it ran [m]. */
  readonly reach: number;
  /** Under the plunger [Pa]. */
  readonly pressure: number;
  /** Melt as it entered [K]. */
  readonly melt: number;
  /** Mold [K]. */
  readonly mold: number;
}

/** What is the same for every value of the inputs. */
export interface ReserveSetting {
  /** Melt that one cavity takes [m³]; over the time of the push it is the flow. */
  readonly volume: number;
  /** √(kρc) of melt and mold [W·√s/(m²·K)]. */
  readonly effusivity: { readonly melt: number; readonly mold: number };
  /** With any, the input `viscosity` is a factor on what they tell. */
  readonly shortShots: readonly ShortShot[];
}

/**
 * Wall temperature under melt.
 *
 * @param setting - effusivities of both [W·√s/(m²·K)]
 * @param melt - [K]
 * @param mold - [K]
 * @returns contact temperature [K]
 *
 * Cost: constant.
 * Source: as `contactTemperature`.
 */
export function wallUnder(
  { effusivity }: Pick<ReserveSetting, 'effusivity'>,
  melt: number,
  mold: number,
): number {
  return contactTemperature(
    { temperature: melt, effusivity: effusivity.melt },
    { temperature: mold, effusivity: effusivity.mold },
  );
}

/**
 * Viscosity that short shots tell, at the temperature at which viscosities are stated.
 *
 * @param setting - short shots, one or more, and effusivities
 * @param scale - freeze-off constant over θ
 * @param compound - diffusivity [m²/s], no-flow temperature [K], activation energy [J/mol]
 * @returns geometric mean over the shots [Pa·s]
 *
 * Valid: wide slots of even gap, pushed steadily until the melt stood; as `freezeConstant`.
 * Cost: a look-up a shot.
 * Source: inverse of `freezeReach`; Arrhenius law.
 */
export function shortShotReading(
  setting: Pick<ReserveSetting, 'effusivity' | 'shortShots'>,
  scale: FreezeScale,
  compound: Pick<ReserveValues, 'diffusivity' | 'noFlow' | 'activation'>,
): number {
  const logs = setting.shortShots.map(({ gap, reach, pressure, melt, mold }) => {
    const theta = shotTheta({ noFlow: compound.noFlow, melt, wall: wallUnder(setting, melt, mold) });
    const there = (gap ** 4 * pressure) / (reach ** 2 * compound.diffusivity);
    const shift = (compound.activation / GAS_CONSTANT) * (1 / melt - 1 / VISCOSITY_AT);
    return freezeSquare(scale, theta) + Math.log(there) - shift;
  });
  return Math.exp(logs.reduce((sum, log) => sum + log, 0) / logs.length);
}

/**
 * Conditions of a shot from one value of each input.
 *
 * @param values - inputs [SI]
 * @param setting - volume [m³], effusivities, short shots
 * @param scale - freeze-off constant over θ, for the short shots
 * @returns conditions for `fillReserve` [SI]
 *
 * Cost: constant.
 * Source: definition.
 */
export function shotConditions(
  values: ReserveValues,
  setting: ReserveSetting,
  scale: FreezeScale,
): ShotConditions {
  const { pressure, activation, diffusivity, noFlow, melt, gap, closing } = values;
  const known = setting.shortShots.length > 0 ? shortShotReading(setting, scale, values) : 1;
  return {
    ...{ pressure, diffusivity, noFlow, melt, gap, closing },
    viscosity: { reference: values.viscosity * known, at: VISCOSITY_AT, activation },
    wall: wallUnder(setting, melt, values.mold),
    flow: setting.volume / values.push,
  };
}

/**
 * Fill reserve of a part with its band.
 *
 * @param table - from `tabulatedReserve`
 * @param part - one of its parts
 * @param inputs - bands [SI]
 * @param setting - what is the same for all
 * @returns reserve [1] and each input's share of the squared width [1]
 *
 * Valid: as `fillReserve`, `quadrature`.
 * Cost: 21 calls of `fillReserve`.
 * Source: as `quadrature`, in logarithms.
 */
export function reserveSpread(
  table: ReserveTable,
  part: PartDrive,
  inputs: ReserveInputs,
  setting: ReserveSetting,
): Spread {
  return quadrature(
    (values) => fillReserve(table, part, shotConditions(values, setting, table.scale)),
    inputs,
  );
}
