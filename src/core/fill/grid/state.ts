import { closing, type Closing } from '../open-fraction.ts';
import { arrheniusViscosity, GAS_CONSTANT, type MeltViscosity } from '../viscosity.ts';
import type { Cavity } from './cavity.ts';

/** Melt and mold of one filling run. */
export interface GridMelt {
  /** As it leaves the gate [K]. */
  readonly temperature: number;
  /** Of the wetted wall: contact temperature of melt and mold [K]. */
  readonly wall: number;
  /** Below which it does not flow [K]. */
  readonly noFlow: number;
  /** α [m²/s]. */
  readonly diffusivity: number;
  readonly viscosity: MeltViscosity;
  /** Nominal: still melt; high end: a core that stays hot. */
  readonly closing: 'own age' | 'fresh core';
  /** False keeps the melt at gate temperature, as the closed forms do. */
  readonly cools: boolean;
}

/** What a run knows of every cell while it fills; arrays have one entry a cell. */
export interface FillState {
  readonly cavity: Cavity;
  readonly melt: GridMelt;
  /** How a slot and a round channel close. */
  readonly slot: Closing;
  readonly round: Closing;
  /** Filled share [1]; may pass 1 within a step. */
  readonly share: Float64Array;
  /** 0 empty, 1 being filled, 2 full. */
  readonly stage: Uint8Array;
  /** When melt first came in, and when it was half full [s]. */
  readonly touched: Float64Array;
  readonly wetted: Float64Array;
  readonly filledAt: Float64Array;
  /** Of the open core [K]. */
  readonly temperature: Float64Array;
  /** Open share of the gap [1]. */
  readonly openShare: Float64Array;
  /** Conductance per unit width now [m³/(Pa·s)]. */
  readonly mobility: Float64Array;
  /** Shares of the shutting time spent a second [1/s]. */
  readonly pace: Float64Array;
  /** Rate at which the core of a cell that is wide open tends to the temperature of its skin: Nu·α/gap² [1/s]. */
  readonly cooling: Float64Array;
  /** Inflow while it filled, from east, west, north, south [m³]; four entries a cell. */
  readonly cameFrom: Float64Array;
  /** Cells being filled. */
  front: number[];
}

const LEAST_THETA = 0.005;
const MOST_THETA = 0.985;
/** Open shares below this count as shut: their conductance is below a millionth. */
const SHUT = 0.01;
const [NUSSELT_SLOT, NUSSELT_ROUND] = [7.5407, 4 * 3.6568];

/**
 * State before the first drop, the gate's cells ready to be filled.
 *
 * @param cavity - from `cutCavity`
 * @param melt - temperatures [K] and properties
 * @param theta - dimensionless no-flow temperature [1]; taken as 0.005 at least and 0.985 at most
 * @returns the state at time 0 [s]
 *
 * Cost: linear in the cells, and two tables of `closing`.
 * Source: definition.
 */
export function emptyState(cavity: Cavity, melt: GridMelt, theta: number): FillState {
  const kept = Math.max(LEAST_THETA, Math.min(MOST_THETA, theta));
  const { count } = cavity;
  const [slot, round] = [
    closing(melt.closing === 'own age' ? 'slot' : 'fresh core', kept),
    closing('round', kept),
  ];
  const { gap, roundness } = cavity;
  const stage = new Uint8Array(count);
  cavity.gate.forEach((cell) => (stage[cell] = 1));
  return {
    cavity,
    melt,
    slot,
    round,
    share: new Float64Array(count),
    stage,
    touched: new Float64Array(count),
    wetted: new Float64Array(count).fill(Infinity),
    filledAt: new Float64Array(count).fill(NaN),
    temperature: new Float64Array(count).fill(melt.temperature),
    openShare: new Float64Array(count).fill(1),
    mobility: new Float64Array(count),
    pace: gap.map(
      (wide, cell) =>
        (4 * melt.diffusivity) / (wide ** 2 * (slot.shut + (round.shut - slot.shut) * roundness[cell]!)),
    ),
    cooling: gap.map(
      (wide, cell) =>
        ((NUSSELT_SLOT + (NUSSELT_ROUND - NUSSELT_SLOT) * roundness[cell]!) * melt.diffusivity) / wide ** 2,
    ),
    cameFrom: new Float64Array(4 * count),
    front: [...cavity.gate],
  };
}

/** Open share from a closing table at the root of a share of its shutting time. */
function lookUp(squares: Float64Array, root: number): number {
  const place = root * (squares.length - 1);
  if (!(place < squares.length - 1)) return 0;
  const i = Math.floor(place);
  const low = squares[i]!;
  return Math.sqrt(low + (squares[i + 1]! - low) * (place - i));
}

/** Age of a cell's melt: since it was half full, and half of the time since the first drop before that [s]. */
function ageOf(state: FillState, cell: number, now: number): number {
  const wetted = state.wetted[cell]!;
  return Math.max(0, wetted < Infinity ? now - wetted : (now - state.touched[cell]!) / 2);
}

/**
 * Brings open shares and mobilities of all wet cells to a time.
 *
 * @param state - changed: `openShare` [1], `mobility` [m³/(Pa·s)]
 * @param now - [s]
 *
 * Valid: as `closing`; between slot and round channel by roundness (estimate).
 * Cost: one look-up a wet cell.
 * Source: Hele-Shaw conductance of what is still open; viscosity by Arrhenius, Osswald & Hernández-Ortiz (2006), from memory.
 */
export function updateMobility(state: FillState, now: number): void {
  const { cavity, melt, stage, slot, round, pace, openShare, mobility, temperature } = state;
  const { count, roundness, open: whole } = cavity;
  const fluidity = 1 / arrheniusViscosity(melt.viscosity, melt.temperature);
  const activated = melt.viscosity.activation / GAS_CONSTANT;
  for (let cell = 0; cell < count; cell++) {
    if (stage[cell] === 0) continue;
    const part = roundness[cell]!;
    const root = Math.sqrt(pace[cell]! * ageOf(state, cell, now));
    let open = lookUp(slot.squares, root);
    let power = open * open * open;
    if (part > 0.02) {
      open += (lookUp(round.squares, root) - open) * part;
      power = open * open * open * (1 + (open - 1) * part);
    }
    openShare[cell] = open;
    if (open < SHUT) {
      mobility[cell] = 0;
      continue;
    }
    const thinner = melt.cools ? Math.exp(activated * (1 / melt.temperature - 1 / temperature[cell]!)) : 1;
    mobility[cell] = whole[cell]! * power * fluidity * thinner;
  }
}

/**
 * Rate at which the open core of a cell tends to the temperature of its skin.
 *
 * @param state - open shares up to date
 * @param cell - of the cavity
 * @returns Nu·α/(open gap)² [1/s]
 *
 * Valid: developed flow; Nusselt numbers of slot (7.54) and tube (3.66), between them by roundness (estimate).
 * Cost: constant.
 * Source: Shah & London, Laminar Flow Forced Convection in Ducts (1978), from memory.
 */
export function coolingRate({ cooling, openShare }: FillState, cell: number): number {
  const open = openShare[cell]!;
  return open > 0.05 ? cooling[cell]! / (open * open) : 400 * cooling[cell]!;
}
