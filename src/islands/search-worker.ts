import type { PackedIndex } from '../answer/packed-index.ts';
import { searched, searchIndex, type Found, type SearchIndex } from '../answer/search.ts';

/** Words to look for. */
export interface SearchOrder {
  /** Address of what is looked through, fetched with the first order. */
  readonly file: string;
  readonly query: string;
  /** Comes back with what was found, so that a late answer is told from the last. */
  readonly turn: number;
}

/** What was found; nothing at all when there was nothing to look through. */
export interface SearchReport {
  readonly turn: number;
  readonly found: readonly Found[] | null;
}

let index: Promise<SearchIndex> | undefined;

async function fetched(file: string): Promise<SearchIndex> {
  const answer = await fetch(file);
  if (!answer.ok) throw new Error(`no search index at ${file}: ${answer.status}`);
  return searchIndex((await answer.json()) as PackedIndex);
}

async function reportOf({ file, query, turn }: SearchOrder): Promise<SearchReport> {
  try {
    index ??= fetched(file);
    return { turn, found: searched(await index, query) };
  } catch {
    index = undefined;
    return { turn, found: null };
  }
}

addEventListener('message', ({ data }: MessageEvent<SearchOrder>) => void reportOf(data).then(postMessage));
