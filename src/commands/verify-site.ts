import type { FileFacts } from './site-facts.ts';
import { deadLinks } from './site-links.ts';

/** What a finished site must hold. */
export interface Expected {
  /** Ids of the molds that are published; no other may appear. */
  readonly published: readonly string[];
  /** Address that it will be published at. */
  readonly address: string;
}

/** What is wrong with a built site, one line each; an empty list means that it is whole. */
export function siteFaults(facts: readonly FileFacts[], { published, address }: Expected): string[] {
  const names = new Set(facts.map(({ name }) => name));
  const known = new Set(published);
  const required = [
    'index.html',
    ...published.flatMap((id) => [`molds/${id}/index.html`, `molds/${id}/spec.json`]),
  ];
  const absent = required.filter((name) => !names.has(name)).map((name) => `${name} is missing`);
  const shown = [...names].map((name) => /^molds\/([^/]+)\//u.exec(name)?.[1]);
  const strangers = [...new Set(shown)].filter((id) => id !== undefined && !known.has(id));
  return [
    ...absent,
    ...strangers.map((id) => `molds/${id} is not published`),
    ...facts.flatMap(({ faults = [] }) => faults),
    ...deadLinks(facts, address),
  ];
}
