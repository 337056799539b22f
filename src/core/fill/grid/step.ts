import type { Network } from './network.ts';
import { coolingRate, type FillState } from './state.ts';

/** Conductance of half a cell and a stretch of its neighbour, in cells, in series. */
const joined = (own: number, other: number, stretch: number) =>
  own > 0 && other > 0 ? (own * other) / (0.5 * other + stretch * own) : 0;

/**
 * Joins the cells of an instant: full ones with each other, and with the front cells beside them.
 *
 * @param state - mobilities up to date [m³/(Pa·s)]
 * @param net - of this run alone, since links of cells that are not full yet stay 0; those of full ones, ends and active
 *   cells are replaced
 * @param ahead - how far into a front cell the front stands in the middle of a step, in cells [1]
 *
 * Cost: linear in the full cells.
 * Source: flow analysis network: Tadmor, Broyer & Gutfinger, Polym. Eng. Sci. 14 (1974) 660, from memory.
 */
export function joinCells(state: FillState, net: Network, ahead: number): void {
  const { cavity, stage, mobility } = state;
  const { neighbours } = cavity;
  const { link, gate, front, active } = net;
  for (let cell = 0; cell < cavity.count; cell++) {
    // Two front cells do not feed each other, an empty one takes nothing: every link has a full cell at an end.
    if (stage[cell] !== 2) continue;
    const own = mobility[cell]!;
    active[cell] = own > 0 ? 1 : 0;
    let toFront = 0;
    for (let side = 4 * cell; side < 4 * cell + 4; side++) {
      const other = neighbours[side]!;
      if (other < 0) continue;
      // The side of the other cell that looks this way: west for east, south for north.
      const back = 4 * other + ((side & 3) ^ 1);
      if (stage[other] === 1) {
        const c = joined(own, mobility[other]!, ahead);
        link[side] = c;
        link[back] = c;
        toFront += c;
      } else if (stage[other] === 2 && (side & 1) === 0) {
        const c = joined(own, mobility[other]!, 0.5);
        link[side] = c;
        link[back] = c;
      }
    }
    front[cell] = toFront;
  }
  for (const cell of cavity.gate) gate[cell] = 2 * mobility[cell]!;
}

/** Flows under unit pressure between gate and front [m³/(Pa·s)]. */
export interface UnitFlow {
  readonly gate: number;
  readonly front: number;
}

/**
 * Flow into every front cell under unit pressure, and what the gate gives.
 *
 * @param state - front and stages
 * @param net - solved
 * @param inflow - filled in, one entry a front cell [m³/(Pa·s)]
 * @returns flow through the gate and into the front [m³/(Pa·s)], worked out apart
 *
 * Cost: linear in the front.
 * Source: as `joinCells`.
 */
export function frontInflow(state: FillState, net: Network, inflow: Float64Array): UnitFlow {
  const { cavity, stage, front: cells } = state;
  const { neighbours } = cavity;
  const { link, pressure } = net;
  let front = 0;
  for (let n = 0; n < cells.length; n++) {
    const cell = cells[n]!;
    let sum = net.gate[cell]!;
    for (let side = 4 * cell; side < 4 * cell + 4; side++) {
      const c = link[side]!;
      if (c > 0) sum += c * pressure[neighbours[side]!]!;
    }
    inflow[n] = sum;
    front += sum;
  }
  let gate = 0;
  for (const cell of cavity.gate) {
    const behind = stage[cell] === 2 ? pressure[cell]! : 0;
    gate += net.gate[cell]! * (1 - behind);
  }
  return { gate, front };
}

/**
 * Carries heat through the full cells over a step: upwind, implicit, cells from the gate outwards.
 *
 * @param state - temperatures are changed [K]
 * @param net - solved
 * @param scale - pressure drop from gate to front [Pa]
 * @param span - length of the step [s]
 *
 * Valid: mean temperature of the open core, which loses heat to a skin at the no-flow temperature.
 * Cost: linear in the cells.
 * Source: heat balance of a cell (own derivation); loss as `coolingRate`.
 */
export function carryHeat(state: FillState, net: Network, scale: number, span: number): void {
  const { cavity, melt, temperature, openShare } = state;
  const { count, neighbours, volume } = cavity;
  const { active, gate, link, pressure } = net;
  const skin = Math.max(melt.noFlow, melt.wall);
  for (let cell = 0; cell < count; cell++) {
    if (active[cell] === 0) continue;
    const held = volume[cell]! * openShare[cell]!;
    const own = pressure[cell]!;
    let flow = gate[cell]! * (1 - own);
    let heat = flow * melt.temperature;
    for (let side = 4 * cell; side < 4 * cell + 4; side++) {
      const c = link[side]!;
      if (c === 0) continue;
      const other = neighbours[side]!;
      if (active[other] === 0 || pressure[other]! <= own) continue;
      const entering = c * (pressure[other]! - own);
      flow += entering;
      heat += entering * temperature[other]!;
    }
    const loss = held * coolingRate(state, cell);
    temperature[cell] =
      ((held / span) * temperature[cell]! + heat * scale + loss * skin) / (held / span + flow * scale + loss);
  }
}

/**
 * Mixes the melt that comes into the front cells over a step, then lets it cool.
 *
 * @param state - temperatures of front cells are changed [K]
 * @param net - solved
 * @param scale - pressure drop from gate to front [Pa]
 * @param span - length of the step [s]
 *
 * Cost: linear in the front.
 * Source: heat balance of a cell (own derivation); loss as `coolingRate`.
 */
export function heatFront(state: FillState, net: Network, scale: number, span: number): void {
  const { cavity, melt, temperature, share } = state;
  const skin = Math.max(melt.noFlow, melt.wall);
  for (const cell of state.front) {
    let flow = net.gate[cell]! * scale;
    let heat = flow * melt.temperature;
    for (let side = 4 * cell; side < 4 * cell + 4; side++) {
      if (net.link[side] === 0) continue;
      const other = cavity.neighbours[side]!;
      const entering = net.link[side]! * net.pressure[other]! * scale;
      flow += entering;
      heat += entering * temperature[other]!;
    }
    const held = share[cell]! * cavity.volume[cell]!;
    const total = held + flow * span;
    if (!(total > 0)) continue;
    const mixed = (held * temperature[cell]! + heat * span) / total;
    temperature[cell] = skin + (mixed - skin) / (1 + span * coolingRate(state, cell));
  }
}

/**
 * Adds to what came into each front cell from each side.
 *
 * @param state - `cameFrom` is changed [m³]
 * @param net - solved
 * @param volume - volume for a unit of conductance and relative pressure [Pa·s]
 *
 * Cost: linear in the front.
 * Source: definition.
 */
export function noteInflow(state: FillState, net: Network, volume: number): void {
  const { cavity, cameFrom } = state;
  for (const cell of state.front) {
    for (let side = 4 * cell; side < 4 * cell + 4; side++) {
      if (net.link[side] === 0) continue;
      cameFrom[side] = cameFrom[side]! + net.link[side]! * net.pressure[cavity.neighbours[side]!]! * volume;
    }
  }
}
