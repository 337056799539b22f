import { positive } from '../../quantity/guard.ts';
import { noFlowFraction } from '../../heat/solidification.ts';
import { backPressure } from '../../vent/tiers.ts';
import { arrheniusViscosity } from '../viscosity.ts';
import type { Cavity } from './cavity.ts';
import { feedResistance, gateFlow, type GridFeed } from './feed.ts';
import { emptyNetwork, solvePressures, type Network } from './network.ts';
import { fillFront } from './advance.ts';
import { emptyState, updateMobility, type FillState, type GridMelt } from './state.ts';
import { carryHeat, frontInflow, heatFront, joinCells, noteInflow } from './step.ts';

/** How finely a run is stepped. */
export interface FillSettings {
  /** How far past full a cell may go within a step [1]. */
  readonly overfill: number;
  /** Longest step as a share of the time so far [1]. */
  readonly stride: number;
}

/** Fineness at which stepping costs less accuracy than the grid does [1]. Source: own study of steps against grid. */
export const FILL_SETTINGS: FillSettings = { overfill: 0.5, stride: 0.05 };

/**
 * Steps of up to twice the length, for runs whose grid is a bait's: they move stiffest melts by 0.005 in ln on the mean, 0.02 at
 * most, where twice the pitch moves them by 0.1, and take three fifths of the time [1]. Source: own study of 29 parts.
 */
export const LONG_STEPS: FillSettings = { overfill: 1, stride: 0.05 };

/** Pressure at a place at the end of each step. */
export interface PressureTrace {
  /** [s]. */
  readonly time: number[];
  /** Gauge [Pa]. */
  readonly pressure: number[];
}

/** What came of a filling run: of the whole cavity but for `state`, which is of its cells. */
export interface CavityFill {
  readonly state: FillState;
  /** True when no cell is left short. */
  readonly filled: boolean;
  /** Until it was full or stopped [s]. */
  readonly time: number;
  /** Melt in the cavity [m³]. */
  readonly volume: number;
  /** Melt that went through the gate [m³]. */
  readonly injected: number;
  /** Pressure at the injector. */
  readonly injector: PressureTrace;
  /** Flow through the gate at the same times [m³/s]. */
  readonly flow: readonly number[];
  /** Mean pressure at the watched cells that are full, one trace a list. */
  readonly watched: readonly PressureTrace[];
  /** Time steps taken [1]. */
  readonly steps: number;
}

/** A run under way. */
interface Run {
  readonly state: FillState;
  readonly feed: GridFeed;
  readonly settings: FillSettings;
  readonly watch: readonly (readonly number[])[];
  readonly net: Network;
  readonly inflow: Float64Array;
  /** Cavities as large as its cells that the whole one is: 2 where they are half of it [1]. */
  readonly times: number;
  /** Time in which the thin cells close [s]. */
  readonly thinTime: number;
  time: number;
  span: number;
  injected: number;
  /** Melt that found no empty neighbour yet [m³]. */
  stray: number;
  steps: number;
  readonly injector: PressureTrace;
  readonly flow: number[];
  readonly watched: PressureTrace[];
}

const trace = (): PressureTrace => ({ time: [], pressure: [] });

function start(
  cavity: Cavity,
  melt: GridMelt,
  feed: GridFeed,
  watch: readonly (readonly number[])[],
  settings: FillSettings,
): Run {
  const theta = noFlowFraction(melt.noFlow, melt.wall, melt.temperature);
  const state = emptyState(cavity, melt, theta);
  const thin = cavity.gap.slice().sort()[Math.floor(cavity.count / 20)]!;
  return {
    ...{ state, feed, watch, settings, time: 0, span: 0, injected: 0, stray: 0, steps: 0 },
    times: cavity.halved ? 2 : 1,
    net: emptyNetwork(cavity),
    inflow: new Float64Array(cavity.count),
    thinTime: (state.slot.shut * thin ** 2) / (4 * melt.diffusivity),
    injector: trace(),
    flow: [],
    watched: watch.map(trace),
  };
}

/** Length of a step: until the first front cell is over-full by its allowance, or the walls have closed noticeably. */
function spanFor(run: Run): number {
  const { state, inflow, settings } = run;
  const { front, share, cavity } = state;
  const { volume } = cavity;
  let total = 0;
  for (const cell of front) total += volume[cell]!;
  const usual = total / front.length;
  let span = settings.stride * (run.time + 0.05 * run.thinTime);
  for (let n = 0; n < front.length; n++) {
    const cell = front[n]!;
    const own = volume[cell]!;
    const room = (1 - share[cell]!) * own + settings.overfill * Math.max(usual, own);
    if (inflow[n]! * span > room) span = room / inflow[n]!;
  }
  return span;
}

function note(run: Run, flow: number, atGate: number, atFront: number, upstream: number): void {
  const { net, watch } = run;
  run.injector.time.push(run.time);
  run.injector.pressure.push(atGate + flow * upstream);
  run.flow.push(flow);
  watch.forEach((cells, n) => {
    const wet = cells.filter((cell) => net.active[cell] === 1);
    if (wet.length === 0) return;
    const mean = wet.reduce((sum, cell) => sum + net.pressure[cell]!, 0) / wet.length;
    run.watched[n]!.time.push(run.time);
    run.watched[n]!.pressure.push(atFront + mean * (atGate - atFront));
  });
}

/** One step; false when nothing flows any more. */
function advance(run: Run): boolean {
  const { state, net, inflow, feed, settings, times } = run;
  const { melt } = state;
  const middle = run.time + run.span / 2;
  updateMobility(state, middle);
  // Alone in its row a front cell goes from its overfill to one cell further: the mean of both.
  joinCells(state, net, 0.5 + settings.overfill);
  solvePressures(net);
  const unit = frontInflow(state, net, inflow);
  if (!(unit.front > 0)) return false;
  const upstream = feedResistance(
    feed,
    state,
    melt.diffusivity * middle,
    arrheniusViscosity(melt.viscosity, melt.temperature),
  );
  const flow = gateFlow(feed, upstream + 1 / (times * unit.gate));
  if (!(flow > 0)) return false;
  const scale = flow / (times * unit.gate);
  for (let n = 0; n < state.front.length; n++) inflow[n] = inflow[n]! * scale;
  run.span = spanFor(run);
  const atFront = backPressure(feed.airResistance ?? 0, flow);
  note(run, flow, atFront + scale, atFront, upstream);
  if (melt.cools) {
    heatFront(state, net, scale, run.span);
    carryHeat(state, net, scale, run.span);
  }
  noteInflow(state, net, scale * run.span);
  run.stray = fillFront(state, inflow, run.time, run.span, run.stray);
  run.injected += flow * run.span;
  run.time += run.span;
  run.steps++;
  return state.front.length > 0;
}

/** Melt that went in after the last cell was full is taken back, with its time. */
function result(run: Run): CavityFill {
  const { state, watched, injector, flow, steps, times } = run;
  const filled = state.stage.every((stage) => stage === 2);
  const stray = times * run.stray;
  const spare = filled ? stray : 0;
  const late = spare > 0 ? spare / flow.at(-1)! : 0;
  const { volume } = state.cavity;
  const held = state.share.reduce((sum, share, cell) => sum + share * volume[cell]!, 0);
  return {
    ...{ state, filled, watched, injector, flow, steps },
    time: run.time - late,
    volume: times * held + stray - spare,
    injected: run.injected - spare,
  };
}

/**
 * Fills a cavity: the front moves from the gate, every wetted column closes as it cools, the hand gives its flow until
 * its pressure is reached.
 *
 * @param cavity - from `cutCavity`
 * @param melt - temperatures [K], diffusivity [m²/s], viscosity [Pa·s]
 * @param feed - pressure [Pa], flow limit [m³/s], channels [1/m³], air [Pa·s/m³]
 * @param watch - cells whose mean pressure is traced, one list a trace
 * @param settings - fineness [1]
 * @returns filling times [s], volumes [m³], pressures [Pa] and flows [m³/s]
 * @throws {RangeError} when a property is not positive or the melt is not hotter than the wall
 *
 * Valid: creeping flow of one viscosity across the gap; nothing after the end of filling. A melt within 1.5 % of its
 * no-flow temperature does not move. First order in the cell size.
 * Cost: some hundred steps, each linear in the cells; see tests/bench/fill.bench.ts.
 * Source: Hele-Shaw flow, Hieber & Shen, J. Non-Newtonian Fluid Mech. 7 (1980) 1; flow analysis network, Tadmor, Broyer &
 * Gutfinger, Polym. Eng. Sci. 14 (1974) 660; from memory; closing walls: Carslaw & Jaeger (1959), 3.3.
 */
export function fillCavity(
  cavity: Cavity,
  melt: GridMelt,
  feed: GridFeed,
  watch: readonly (readonly number[])[] = [],
  settings: FillSettings = FILL_SETTINGS,
): CavityFill {
  positive('fillCavity: pressure', feed.pressure);
  positive('fillCavity: flowLimit', Math.min(feed.flowLimit, Number.MAX_VALUE));
  positive('fillCavity: diffusivity', melt.diffusivity);
  const run = start(cavity, melt, feed, watch, settings);
  const moves = noFlowFraction(melt.noFlow, melt.wall, melt.temperature) < 0.985;
  let going = moves;
  while (going) going = advance(run);
  return result(run);
}
