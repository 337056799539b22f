import type { AstroIntegration } from 'astro';
import type { FramedProblem } from '../io/code-frame.ts';
import { contentFolder } from '../io/settings.ts';
import { inspected } from './inspect.ts';
import { mistakesPage } from './mistakes-page.ts';

/** While a catalogue with mistakes is previewed, every page shows them, as `npm run check` prints them. */
export function mistakesInPreview(): AstroIntegration {
  return {
    name: 'partline-mistakes',
    hooks: {
      'astro:server:setup'({ server }) {
        let found: Promise<readonly FramedProblem[]> | undefined;
        server.watcher.on('all', (_event, path) => {
          if (path.startsWith(contentFolder())) found = undefined;
        });
        server.middlewares.use((request, response, next) => {
          if (!request.headers.accept?.includes('text/html')) return next();
          found ??= inspected(contentFolder()).then(({ problems }) => problems);
          found.then((problems) => {
            if (problems.length === 0) return next();
            response.writeHead(500, { 'content-type': 'text/html; charset=utf-8' });
            return response.end(mistakesPage(problems));
          }, next);
        });
      },
    },
  };
}
