/** Even numbers from a seed, the same on every machine. */
export interface Dice {
  /** A number between two ends, in hundredths. */
  readonly between: (low: number, high: number) => number;
  /** One of a list. */
  readonly pick: <Item>(items: readonly Item[]) => Item;
}

/** A number of 32 bits from several: the seed of one thing of many. */
function mixed(numbers: readonly number[]): number {
  return numbers.reduce((hash, number) => {
    const step = Math.imul(hash ^ number, 0x85ebca6b);
    return Math.imul(step ^ (step >>> 13), 0xc2b2ae35) ^ (step >>> 16);
  }, 0x9e3779b9);
}

/** Dice of a seed: Marsaglia's xorshift of 32 bits (Journal of Statistical Software 8 (2003), from memory). */
export function dice(...seed: readonly number[]): Dice {
  let state = mixed(seed) || 1;
  const share = (): number => {
    state ^= state << 13;
    state ^= state >>> 17;
    state ^= state << 5;
    return (state >>> 0) / 2 ** 32;
  };
  const between = (low: number, high: number): number =>
    Math.round((low + (high - low) * share()) * 100) / 100;
  const pick = <Item>(items: readonly Item[]): Item => {
    const item = items[Math.floor(share() * items.length)];
    if (item === undefined) throw new RangeError('pick: wants a list with something in it, got none');
    return item;
  };
  return { between, pick };
}
