import type { Brief } from '../../sheet/brief.ts';
import { isLong } from './long.ts';

/** Molds under one name. */
export interface Group {
  readonly name: string;
  readonly members: readonly Brief[];
}

/** Molds to pick from: all under one name, or by family where there are too many to look over at once. */
export function groupsOf(sheets: readonly Brief[]): Group[] {
  if (!isLong(sheets)) return [{ name: 'Molds to keep', members: sheets }];
  return [...Map.groupBy(sheets, ({ bait }) => bait.family)]
    .map(([name, members]) => ({ name, members }))
    .sort((a, b) => (a.name < b.name ? -1 : 1));
}
