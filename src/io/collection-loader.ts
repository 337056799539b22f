import { glob, type Loader, type LoaderContext } from 'astro/loaders';
import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { readCatalogue, type Reading, type SourceName } from './catalogue.ts';
import { problemLine } from './problem-text.ts';
import { contentFolder } from './settings.ts';

let reading: Promise<Reading> | undefined;

/** The catalogue, read once for all collections of a build. */
function catalogueReading(): Promise<Reading> {
  reading ??= readCatalogue(contentFolder());
  return reading;
}

/**
 * Fills a content collection from the catalogue's own reader: the same files, checks and messages as `npm run check`.
 * While the site is being previewed, a change of any file fills it anew.
 */
export function catalogueLoader(collection: SourceName): Loader {
  return {
    name: `partline-${collection}`,
    async load(context) {
      await fill(collection, context);
      context.watcher?.add(contentFolder());
      context.watcher?.on('all', () => {
        reading = undefined;
        fill(collection, context).catch((error: unknown) => context.logger.error(String(error)));
      });
    },
  };
}

async function fill(collection: SourceName, { store, parseData }: LoaderContext): Promise<void> {
  const read = await catalogueReading();
  if ('problems' in read) {
    throw new RangeError(['the catalogue has mistakes', ...read.problems.map(problemLine)].join('\n'));
  }
  store.clear();
  for (const { id, path, data } of read.written.filter((entry) => entry.collection === collection)) {
    store.set({ id, data: await parseData({ id, data: data as Record<string, unknown>, filePath: path }) });
  }
}

/** Guides are pages of MDX: Astro's own loader renders them. A catalogue without guides is fine. */
export function guideLoader(): Loader {
  const base = join(contentFolder(), 'guides');
  const files = glob({ base, pattern: '*.mdx', retainBody: false });
  return { ...files, load: async (context) => (existsSync(base) ? files.load(context) : undefined) };
}
