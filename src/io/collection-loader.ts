import type { Loader } from 'astro/loaders';
import { readCatalogue, type Reading, type SourceName } from './catalogue.ts';
import { problemLine } from './problem-text.ts';
import { contentFolder } from './settings.ts';

let reading: Promise<Reading> | undefined;

/** The catalogue, read once for all collections of a build. */
function catalogueReading(): Promise<Reading> {
  reading ??= readCatalogue(contentFolder());
  return reading;
}

/** Fills a content collection from the catalogue's own reader: the same files, checks and messages as `npm run check`. */
export function catalogueLoader(collection: SourceName): Loader {
  return {
    name: `partline-${collection}`,
    async load({ store, parseData }) {
      const read = await catalogueReading();
      if ('problems' in read) throw new RangeError(read.problems.map(problemLine).join('\n'));
      store.clear();
      for (const { id, path, data } of read.written.filter((entry) => entry.collection === collection)) {
        store.set({ id, data: await parseData({ id, data: data as Record<string, unknown>, filePath: path }) });
      }
    },
  };
}
