import { glob, type Loader, type LoaderContext } from 'astro/loaders';
import { existsSync, readdirSync } from 'node:fs';
import { join } from 'node:path';
import { readCatalogue, type Reading, type SourceName } from './catalogue.ts';
import { problemLine } from './problem-text.ts';
import { contentFolder, PROJECT_ROOT } from './settings.ts';

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

/** A preview keeps what it last read while the files have mistakes, and shows these in its pages. */
async function fill(collection: SourceName, { store, parseData, watcher }: LoaderContext): Promise<void> {
  const read = await catalogueReading();
  if ('problems' in read) {
    if (watcher) return;
    throw new RangeError(['the catalogue has mistakes', ...read.problems.map(problemLine)].join('\n'));
  }
  store.clear();
  for (const { id, path, data } of read.written.filter((entry) => entry.collection === collection)) {
    store.set({ id, data: await parseData({ id, data: data as Record<string, unknown>, filePath: path }) });
  }
}

/** Guides that come with the project: they stand in for those that a catalogue does not have. */
const STANDARD = join(PROJECT_ROOT, 'content', 'guides');

/** Guides are pages of MDX: Astro's own loader renders them. A catalogue's own guide wins over one that comes along. */
export function guideLoader(): Loader {
  const own = join(contentFolder(), 'guides');
  const names = guidesIn(own);
  const missing = own === STANDARD ? [] : guidesIn(STANDARD).filter((name) => !names.includes(name));
  return {
    name: 'partline-guides',
    async load(context) {
      context.store.clear();
      if (names.length > 0) await files(own, '*.mdx').load(context);
      if (missing.length > 0) await files(STANDARD, missing).load(adding(context));
    },
  };
}

function guidesIn(folder: string): string[] {
  return existsSync(folder) ? readdirSync(folder).filter((name) => name.endsWith('.mdx')) : [];
}

function files(base: string, pattern: string | string[]): Loader {
  return glob({ base, pattern, retainBody: false });
}

/** A loader takes what its store holds beforehand for its own and drops it; here it sees an empty one. */
function adding(context: LoaderContext): LoaderContext {
  return { ...context, store: { ...context.store, keys: () => [] } };
}
