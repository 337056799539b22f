import type { FillState } from './state.ts';

const ALMOST = 1 - 1e-12;

/** Adds to a front cell's share; notes when it was half full and full, and lists it once full. */
function pour(
  state: FillState,
  cell: number,
  added: number,
  now: number,
  span: number,
  full: number[],
): void {
  const { share, wetted, filledAt } = state;
  const before = share[cell]!;
  const after = before + added;
  share[cell] = after;
  if (before < 0.5 && after >= 0.5) wetted[cell] = now + ((0.5 - before) / added) * span;
  if (before < ALMOST && after >= ALMOST) {
    filledAt[cell] = now + ((1 - before) / added) * span;
    full.push(cell);
  }
}

/** Makes a cell full: its empty neighbours join the front and take what it has too much; returns what none takes [m³]. */
function passOn(state: FillState, cell: number, now: number, full: number[]): number {
  const { cavity, stage, share, touched, temperature, cameFrom } = state;
  const excess = (share[cell]! - 1) * cavity.volume[cell]!;
  share[cell] = 1;
  stage[cell] = 2;
  const takers: number[] = [];
  for (let side = 4 * cell; side < 4 * cell + 4; side++) {
    const other = cavity.neighbours[side]!;
    if (other < 0 || stage[other] === 2) continue;
    if (stage[other] === 0) {
      stage[other] = 1;
      touched[other] = now;
      temperature[other] = temperature[cell]!;
      state.front.push(other);
    }
    if (share[other]! < ALMOST) takers.push(side);
  }
  if (!(excess > 0)) return 0;
  const room = takers.reduce((sum, side) => sum + cavity.open[cavity.neighbours[side]!]!, 0);
  for (const side of takers) {
    const other = cavity.neighbours[side]!;
    const given = (excess * cavity.open[other]!) / room;
    const back = 4 * other + ((side % 4) ^ 1);
    cameFrom[back] = cameFrom[back]! + given;
    pour(state, other, given / cavity.volume[other]!, now, 0, full);
  }
  return takers.length === 0 ? excess : 0;
}

/**
 * Fills the front cells over a step; what is too much for a cell goes on to its empty neighbours.
 *
 * @param state - changed
 * @param inflow - of each front cell [m³/s]
 * @param now - start of the step [s]
 * @param span - its length [s]
 * @param stray - melt that found no empty neighbour before; the whole front shares it [m³]
 * @returns melt that found no empty neighbour now [m³]
 *
 * Valid: volume is kept exactly.
 * Cost: linear in the front.
 * Source: flow analysis network, Tadmor, Broyer & Gutfinger, Polym. Eng. Sci. 14 (1974) 660, from memory.
 */
export function fillFront(
  state: FillState,
  inflow: Float64Array,
  now: number,
  span: number,
  stray: number,
): number {
  const { front, cavity } = state;
  const full: number[] = [];
  let flow = 0;
  for (let n = 0; n < front.length; n++) flow += inflow[n]!;
  const volumes = span + stray / flow;
  for (let n = 0; n < front.length; n++) {
    const cell = front[n]!;
    pour(state, cell, (inflow[n]! * volumes) / cavity.volume[cell]!, now, span, full);
  }
  let left = 0;
  for (let n = 0; n < full.length; n++) left += passOn(state, full[n]!, now + span, full);
  if (full.length > 0) state.front = state.front.filter((cell) => state.stage[cell] === 1);
  return left;
}
