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
  const stage = new Uint8Array(count);
  cavity.gate.forEach((cell) => (stage[cell] = 1));
  return {
    cavity,
    melt,
    slot: closing(melt.closing === 'own age' ? 'slot' : 'fresh core', kept),
    round: closing('round', kept),
    share: new Float64Array(count),
    stage,
    touched: new Float64Array(count),
    wetted: new Float64Array(count).fill(Infinity),
    filledAt: new Float64Array(count).fill(NaN),
    temperature: new Float64Array(count).fill(melt.temperature),
    openShare: new Float64Array(count).fill(1),
    mobility: new Float64Array(count),
    cameFrom: new Float64Array(4 * count),
    front: [...cavity.gate],
  };
}

/** Open share from a closing table at a share of its shutting time. */
function lookUp(squares: Float64Array, spent: number): number {
  const place = Math.sqrt(spent) * (squares.length - 1);
  const i = Math.floor(place);
  if (i >= squares.length - 1) return 0;
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
  const { cavity, melt, slot, round, openShare, mobility, temperature } = state;
  const steady = arrheniusViscosity(melt.viscosity, melt.temperature);
  const activated = melt.viscosity.activation / GAS_CONSTANT;
  for (let cell = 0; cell < cavity.count; cell++) {
    if (state.stage[cell] === 0) continue;
    const roundness = cavity.roundness[cell]!;
    const clock = (1 - roundness) * slot.shut + roundness * round.shut;
    const spent = (4 * melt.diffusivity * ageOf(state, cell, now)) / (cavity.gap[cell]! ** 2 * clock);
    let open = lookUp(slot.squares, spent);
    let power = open * open * open;
    if (roundness > 0.02) {
      open += (lookUp(round.squares, spent) - open) * roundness;
      power = open * open * open * (1 + (open - 1) * roundness);
    }
    openShare[cell] = open;
    const stiff = melt.cools ? Math.exp(activated * (1 / temperature[cell]! - 1 / melt.temperature)) : 1;
    mobility[cell] = open < SHUT ? 0 : (cavity.open[cell]! * power) / (steady * stiff);
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
export function coolingRate(state: FillState, cell: number): number {
  const { cavity, melt } = state;
  const roundness = cavity.roundness[cell]!;
  const width = cavity.gap[cell]! * Math.max(state.openShare[cell]!, 0.05);
  return ((NUSSELT_SLOT + (NUSSELT_ROUND - NUSSELT_SLOT) * roundness) * melt.diffusivity) / width ** 2;
}
