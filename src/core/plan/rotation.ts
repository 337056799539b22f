import { need, needNonNegative, needPositive } from '../quantity/guard.ts';

/** A block in a session. */
export interface Block {
  readonly id: string;
  /** Whole shots that it is to make. */
  readonly shots: number;
  /** Hands on it for one shot: open, lift out, close, draw, shoot [s]. */
  readonly handling: number;
  /** Shut, then resting, before it can be opened for the next shot [s]. */
  readonly rest: number;
}

/** How a session is run, and how long it takes. */
export interface Rotation {
  /** Blocks in the order of each round; one that has made its shots is left out of the later ones. */
  readonly order: readonly string[];
  /** From the first draw until the last bait can be lifted out [s]. */
  readonly time: number;
  /** Time in which hands are idle, waiting for a block [s]. */
  readonly waiting: number;
  /** What the same shots would take with one block finished, rest and all, before the next is begun [s]. */
  readonly apart: number;
}

const longestRestFirst = (a: Block, b: Block): number =>
  b.rest - a.rest || b.handling - a.handling || (a.id < b.id ? -1 : 1);

/** Plays a list of visits: each waits for its block, then takes its hands' time. */
function played(visits: readonly Block[]): Pick<Rotation, 'time' | 'waiting'> {
  const ready = new Map<string, number>();
  let [now, waiting, last] = [0, 0, 0];
  for (const { id, handling, rest } of visits) {
    const start = Math.max(now, ready.get(id) ?? 0);
    waiting += start - now;
    now = start + handling;
    ready.set(id, now + rest);
    last = Math.max(last, now + rest);
  }
  return { time: last, waiting };
}

/** Visits in rounds: every block that still has shots to make, in order. */
function inTurn(blocks: readonly Block[]): Block[] {
  const rounds = Math.max(0, ...blocks.map(({ shots }) => shots));
  return Array.from({ length: rounds }, (_, round) => blocks.filter(({ shots }) => shots > round)).flat();
}

/** Most shots of one session that are played through: bounds the work. */
const MOST_SHOTS = 200_000;

/**
 * Order in which several molds are shot by one pair of hands, so that blocks rest while others are filled.
 *
 * Every round makes one shot with each block, the one that rests longest first.
 *
 * @param blocks - shots, handling and rest of each [s]
 * @returns order, time, idle time and the time without taking turns [s]
 * @throws {RangeError} when an id stands twice, shots are not whole or a time is negative
 *
 * Valid: one pair of hands, one injector; more shots of any block never take less time.
 * Cost: linear in the shots.
 * Source: own construction: cyclic visits of one server, start = max(hands free, block ready).
 */
export function rotation(blocks: readonly Block[]): Rotation {
  need(
    new Set(blocks.map(({ id }) => id)).size === blocks.length,
    'rotation',
    'each block once',
    blocks.map(({ id }) => id).join(', '),
  );
  for (const { shots, handling, rest } of blocks) {
    need(Number.isInteger(shots) && shots >= 0, 'rotation', 'whole shots of 0 or more', shots);
    needPositive('rotation', { handling });
    needNonNegative('rotation', { rest });
  }
  const total = blocks.reduce((sum, { shots }) => sum + shots, 0);
  need(total <= MOST_SHOTS, 'rotation', `at most ${MOST_SHOTS} shots`, total);
  const ordered = [...blocks].filter(({ shots }) => shots > 0).sort(longestRestFirst);
  return {
    ...played(inTurn(ordered)),
    order: ordered.map(({ id }) => id),
    apart: ordered.reduce((all, { shots, handling, rest }) => all + shots * (handling + rest), 0),
  };
}
