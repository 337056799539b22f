import type { Findable } from './search.ts';

/** A sheet that things stand on. */
export interface Place {
  readonly place: string;
  /** Path below the site's root. */
  readonly path: string;
}

/** What stands on many sheets under one title, with each thing that is said there told once. */
interface Kind extends Pick<Findable, 'title' | 'words' | 'keys'> {
  /** With its mark, as it follows the path of a sheet. */
  readonly anchor: string;
  readonly texts: readonly string[];
  /** Numbers of the sheets that it stands on, and of what is said on each. */
  readonly on: readonly number[];
  readonly said: readonly number[];
}

/** Everything that can be found, as it is sent. */
export interface PackedIndex {
  readonly alone: readonly Findable[];
  readonly places: readonly Place[];
  readonly kinds: readonly Kind[];
}

interface Growing extends Omit<Kind, 'texts' | 'on' | 'said'> {
  readonly texts: Map<string, number>;
  readonly on: number[];
  readonly said: number[];
}

/** What stands at an anchor, before it stands anywhere. */
function kindOf({ title, words, keys }: Findable, anchor: string): Growing {
  const own = keys === undefined ? { title, words } : { title, words, keys };
  return { ...own, anchor, texts: new Map(), on: [], said: [] };
}

/** Place of a value in a map of values, new ones behind the others. */
function numberOf<Value>(known: Map<Value, number>, value: Value): number {
  const found = known.get(value) ?? known.size;
  known.set(value, found);
  return found;
}

/**
 * Packs what can be found. What stands at an anchor of a sheet is kept by its title, what stands by itself as it is.
 *
 * @param parts - one sheet or guide after another
 */
export async function packedIndex(parts: AsyncIterable<readonly Findable[]>): Promise<PackedIndex> {
  const alone: Findable[] = [];
  const places = new Map<string, number>();
  const kinds = new Map<string, Growing>();
  const add = (one: Findable, mark: number) => {
    const anchor = one.path.slice(mark);
    const key = JSON.stringify([anchor, one.title, one.words, one.keys]);
    const kind = kinds.get(key) ?? kindOf(one, anchor);
    kinds.set(key, kind);
    kind.on.push(numberOf(places, JSON.stringify({ place: one.place, path: one.path.slice(0, mark) })));
    kind.said.push(numberOf(kind.texts, one.text));
  };
  for await (const all of parts) {
    for (const one of all) {
      const mark = one.path.indexOf('#');
      if (mark < 0) alone.push(one);
      else add(one, mark);
    }
  }
  return {
    alone,
    places: [...places.keys()].map((place) => JSON.parse(place) as Place),
    kinds: [...kinds.values()].map((kind) => ({ ...kind, texts: [...kind.texts.keys()] })),
  };
}
