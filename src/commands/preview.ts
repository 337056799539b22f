import type { AstroIntegration, HookParameters } from 'astro';
import type { FramedProblem } from '../io/code-frame.ts';
import { contentFolder } from '../io/settings.ts';
import { inspected } from './inspect.ts';
import { mistakesPage } from './mistakes-page.ts';

type Server = Pick<HookParameters<'astro:server:setup'>['server'], 'watcher' | 'middlewares'>;

/** While a catalogue with mistakes is previewed, every page shows them, as `npm run check` prints them. */
export function mistakesInPreview(): AstroIntegration {
  return {
    name: 'partline-mistakes',
    hooks: { 'astro:server:setup': ({ server }) => showMistakes(server, contentFolder()) },
  };
}

/**
 * Previews answer paths with and without a slash at their end: Astro cannot tell that a route whose last part is only known
 * with the catalogue is one of files.
 */
export function filesInPreview(): AstroIntegration {
  return {
    name: 'partline-files',
    hooks: {
      'astro:config:setup': ({ command, updateConfig }) => {
        if (command === 'dev') updateConfig({ trailingSlash: 'ignore' });
      },
    },
  };
}

/** Answers requests for pages while the catalogue in a folder has mistakes; looks again after a file has changed. */
export function showMistakes({ watcher, middlewares }: Server, folder: string): void {
  let found: Promise<readonly FramedProblem[]> | undefined;
  watcher.on('all', (_event, path) => {
    if (path.startsWith(folder)) found = undefined;
  });
  middlewares.use((request, response, next) => {
    if (!request.headers.accept?.includes('text/html')) return next();
    found ??= inspected(folder).then(({ problems }) => problems);
    found.then((problems) => {
      if (problems.length === 0) return next();
      response.writeHead(500, { 'content-type': 'text/html; charset=utf-8' });
      return response.end(mistakesPage(problems));
    }, next);
  });
}
