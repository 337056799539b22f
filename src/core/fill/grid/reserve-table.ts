import { positive } from '../../quantity/guard.ts';
import { interpolate } from '../../numeric/root.ts';
import { arrheniusViscosity, GAS_CONSTANT, type MeltViscosity } from '../viscosity.ts';

/** Everything that decides whether a part of a cavity fills, but its shape. */
export interface ShotConditions {
  /** At the injector [Pa]. */
  readonly pressure: number;
  readonly viscosity: MeltViscosity;
  /** α [m²/s]. */
  readonly diffusivity: number;
  /** Below which the melt does not flow [K]. */
  readonly noFlow: number;
  /** Melt at the gate [K]. */
  readonly melt: number;
  /** Wetted wall: contact temperature of melt and mold [K]. */
  readonly wall: number;
  /** What the hand delivers to one cavity [m³/s]. */
  readonly flow: number;
  /** Added to every gap [m]. */
  readonly gap: number;
  /** How walls close: −1 as old as the gate, 0 still melt, 1 a core that stays hot [1]. */
  readonly closing: number;
}

/** Freeze-off constant of a slot over the dimensionless no-flow temperature. */
export interface FreezeScale {
  /** Rising [1]. */
  readonly thetas: readonly number[];
  /** ln K² there [1]. */
  readonly squares: readonly number[];
}

/** How readily one part fills; changes are in ln of the stiffest melt. */
export interface PartDrive {
  readonly name: string;
  /** ln(μ*α/P) − ln K², of SI numbers, at the table's `thetas`. */
  readonly drive: readonly number[];
  /** Lost a unit of stiffening [1]. */
  readonly cooling: number;
  /** Change at half and at twice the table's flow over α [1]. */
  readonly flow: readonly [number, number];
  /** Change at the table's two gaps [1]. */
  readonly gap: readonly [number, number];
  /** Gained when the core stays hot [1]. */
  readonly core: number;
  /** Gained when the air leaves without resistance [1]. */
  readonly air: number;
  /** Gained when fed like the cavity that is easiest to reach [1]. */
  readonly easier: number;
}

/** Reserves of a cavity's parts over the conditions of a shot; made by `tabulatedReserve`, plain data. */
export interface ReserveTable {
  /** Rising, three or more [1]. */
  readonly thetas: readonly number[];
  readonly scale: FreezeScale;
  /** Stiffening that the drives are for [1]. */
  readonly stiffening: number;
  /** Flow over diffusivity that they are for [m]. */
  readonly flow: number;
  /** A cut too shallow and one too deep [m]. */
  readonly gaps: readonly [number, number];
  /** Change when every place is as old as the gate [1], below 0. */
  readonly gateAge: number;
  readonly parts: readonly PartDrive[];
}

const [LEAST_THETA, MOST_THETA] = [0.02, 0.97];

/**
 * Dimensionless no-flow temperature within the table's reach.
 *
 * @param shot - temperatures [K]
 * @returns 0.02 to 0.97 [1]
 *
 * Cost: constant.
 * Source: definition; see `noFlowFraction`.
 */
export function shotTheta(shot: Pick<ShotConditions, 'noFlow' | 'wall' | 'melt'>): number {
  const theta = (shot.noFlow - shot.wall) / Math.max(1, shot.melt - shot.wall);
  return Math.min(MOST_THETA, Math.max(LEAST_THETA, theta));
}

/**
 * By how much the melt stiffens between gate and skin, in ln of its viscosity.
 *
 * @param shot - temperatures [K], activation energy [J/mol]
 * @returns E/R·(1/T_skin − 1/T_melt) [1], 0 or more; the skin is at the no-flow temperature, or the wall's if warmer
 *
 * Cost: constant.
 * Source: Arrhenius law; Osswald & Hernández-Ortiz, Polymer Processing (2006), from memory.
 */
export function stiffening(shot: Pick<ShotConditions, 'noFlow' | 'wall' | 'melt' | 'viscosity'>): number {
  const skin = Math.max(shot.noFlow, shot.wall);
  return Math.max(0, (shot.viscosity.activation / GAS_CONSTANT) * (1 / skin - 1 / shot.melt));
}

/**
 * ln K² of the freeze-off constant.
 *
 * @param scale - tabulated constant [1]
 * @param theta - dimensionless no-flow temperature [1]
 * @returns ln K² [1]
 *
 * Cost: a look-up.
 * Source: as `freezeConstant`.
 */
export function freezeSquare(scale: FreezeScale, theta: number): number {
  return interpolate(scale.thetas, scale.squares, theta);
}

function closingChange({ gateAge }: ReserveTable, { core }: PartDrive, closing: number): number {
  return closing < 0 ? -closing * gateAge : closing * core;
}

/**
 * Fill reserve of one part: how many times all its lengths could be stretched and still fill.
 *
 * @param table - from `tabulatedReserve`
 * @param part - one of its parts
 * @param shot - conditions [SI]
 * @returns √(μ*·/μ) [1]
 * @throws {RangeError} when pressure, viscosity, diffusivity or flow is not positive
 *
 * Valid: within 6 % of the solver over the bands that a sheet uses, tested; the table's ends stand beyond them.
 * Cost: five look-ups.
 * Source: own derivation: flow without inertia between walls that close by conduction knows only μα/P, θ, the stiffening
 * and flow/α; each is varied alone.
 */
export function fillReserve(table: ReserveTable, part: PartDrive, shot: ShotConditions): number {
  const theta = shotTheta(shot);
  const gate = arrheniusViscosity(shot.viscosity, shot.melt);
  const push =
    positive('fillReserve: pressure', shot.pressure) /
    (positive('fillReserve: diffusivity', shot.diffusivity) * gate);
  const pace = Math.log(positive('fillReserve: flow', shot.flow) / shot.diffusivity / table.flow);
  const half = Math.LN2;
  const drive =
    interpolate(table.thetas, part.drive, theta) +
    freezeSquare(table.scale, theta) -
    part.cooling * (stiffening(shot) - table.stiffening) +
    interpolate([-half, 0, half], [part.flow[0], 0, part.flow[1]], pace) +
    interpolate([table.gaps[0], 0, table.gaps[1]], [part.gap[0], 0, part.gap[1]], shot.gap) +
    closingChange(table, part, shot.closing);
  return Math.sqrt(Math.exp(drive) * push);
}
