import type { AstroIntegration } from 'astro';
import { rename } from 'node:fs/promises';
import { fileURLToPath } from 'node:url';

/** Names the folder in which Astro is to leave the bundled pages instead of rendering them. */
export const BUNDLE = 'PARTLINE_BUNDLE';

/** Where Astro puts the bundled pages while it builds, in its output. */
const BUNDLED = '.prerender/';

/**
 * Has Astro bundle the pages and render none: the bundler takes more memory than all pages, and a process of its own renders
 * them when the bundler has ended. Without the name of a folder, Astro renders them itself.
 */
export function pagesApart(): AstroIntegration {
  const folder = process.env[BUNDLE];
  let output: URL | undefined;
  return {
    name: 'partline-pages-apart',
    hooks: {
      'astro:config:done': ({ config }) => {
        output = config.outDir;
      },
      'astro:build:start': ({ setPrerenderer }) => {
        if (folder === undefined || !output) return;
        const bundled = fileURLToPath(new URL(BUNDLED, output));
        setPrerenderer({
          name: 'partline-pages-apart',
          setup: () => rename(bundled, folder),
          getStaticPaths: () => Promise.resolve([]),
          render: () => Promise.reject(new RangeError('pagesApart: wants no page to render, got one')),
        });
      },
    },
  };
}
