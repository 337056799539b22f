import type { PackedIndex } from '../../src/answer/packed-index.ts';
import type { Findable } from '../../src/answer/search.ts';

/** What was packed: what stands by itself first, then sheet by sheet. */
export function unpackedIndex({ alone, places, kinds }: PackedIndex): Findable[] {
  const sheets = places.map((own) => ({ ...own, all: [] as Findable[] }));
  for (const { anchor, texts, on, said, ...kind } of kinds) {
    on.forEach((sheet, at) => {
      const own = sheets[sheet]!;
      own.all.push({
        ...kind,
        place: own.place,
        path: `${own.path}${anchor}`,
        text: texts[said[at]!]!,
      });
    });
  }
  return [...alone, ...sheets.flatMap(({ all }) => all)];
}
