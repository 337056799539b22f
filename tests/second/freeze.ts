// How far melt runs into a slot before its walls have closed, by small steps along the slot. Each slice closes from the
// moment it is wetted; the front goes as fast as the pressure drives it through what is still open.
import { root } from './formulas.ts';

/** Excess temperature of a slab over its walls, share of the first excess; y from the middle, in half gaps. */
function slab(y: number, fourier: number): number {
  let sum = 0;
  for (let n = 0; n < 60; n++) {
    const k = ((2 * n + 1) * Math.PI) / 2;
    sum += ((n % 2 === 0 ? 2 : -2) / k) * Math.cos(k * y) * Math.exp(-k * k * fourier);
  }
  return sum;
}

const POINTS = 300;

/** K at evenly spaced no-flow fractions, worked out as they are asked for; straight lines between. */
const table = new Map<number, number>();
const SPACING = 0.01;

/** K of a slot, read between two worked out: within a thousandth of its own. */
export function slotConstant(theta: number): number {
  const at = (i: number): number => {
    const known = table.get(i) ?? marched(i * SPACING);
    table.set(i, known);
    return known;
  };
  const place = theta / SPACING;
  const i = Math.floor(place);
  return at(i) + (at(i + 1) - at(i)) * (place - i);
}

/**
 * K of a slot: reach = K·h²·√(P/(μ·α)), h the gap.
 *
 * @param theta - (no-flow − wall)/(melt − wall)
 */
function marched(theta: number): number {
  const shut = root((fo) => theta - slab(0, fo), 1e-3, 5);
  // Share of the gap that is open, at times even in their root.
  const open = Array.from({ length: POINTS + 1 }, (_, i) => {
    if (i === 0) return 1;
    const fo = shut * (i / POINTS) ** 2;
    return i === POINTS ? 0 : root((y) => theta - slab(y, fo), 0, 1);
  });
  const openAt = (fo: number): number => {
    const place = POINTS * Math.sqrt(fo / shut);
    const i = Math.floor(place);
    if (i >= POINTS) return 0;
    return (open[i] ?? 0) + ((open[i + 1] ?? 0) - (open[i] ?? 0)) * (place - i);
  };
  // Lengths in h²·√(P/(μα)), times as Fourier numbers on the half gap: speed = 1/(48·∫dx/s³).
  const slice = 1e-4;
  const born: number[] = [];
  let now = 0;
  let reach = 0;
  while (reach < 1) {
    const drag = born.reduce((sum, at) => sum + slice / openAt(now - at) ** 3, slice / 2);
    const wait = 48 * slice * drag;
    if (!(now + wait < shut)) break;
    now += wait;
    born.push(now);
    reach += slice;
  }
  return reach;
}
