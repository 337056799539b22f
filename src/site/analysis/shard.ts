import type { Group } from './groups.ts';

/** One part of the work that is split over several machines. */
export interface Shard {
  /** From 1 to `count`. */
  readonly index: number;
  readonly count: number;
}

/** Machines that one catalogue may be split over. */
const MOST = 4096;

/** Reads "3/16"; nothing when it is no such part. */
export function shardOf(text: string): Shard | undefined {
  const [, index, count] = (/^(\d{1,4})\/(\d{1,4})$/u.exec(text) ?? []).map(Number);
  if (index === undefined || count === undefined) return undefined;
  return index >= 1 && index <= count && count <= MOST ? { index, count } : undefined;
}

/** Whether a piece of work falls to a shard: its own address alone decides, so that other pieces never move it. */
export function fallsTo({ index, count }: Shard, { address }: Pick<Group, 'address'>): boolean {
  return Number.parseInt(address.slice(0, 12), 16) % count === index - 1;
}
