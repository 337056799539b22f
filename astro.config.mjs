import mdx from '@astrojs/mdx';
import { defineConfig } from 'astro/config';
import { pagesApart } from './src/commands/pages/apart.ts';
import { filesInPreview, mistakesInPreview } from './src/commands/preview.ts';
import { shopOf } from './src/io/catalogue.ts';
import { tokensPlugin } from './src/styles/tokens-plugin.ts';
import { CACHE_FOLDER, contentFolder, outputFolder } from './src/io/settings.ts';

/** Packages with code that is not JavaScript: loaded from node_modules as they are, never bundled. */
const NATIVE = ['manifold-3d', 'sharp'];

const shop = await shopOf(contentFolder());

export default defineConfig({
  site: shop?.site,
  base: shop && new URL(shop.site).pathname,
  outDir: outputFolder(),
  cacheDir: `${CACHE_FOLDER}/astro`,
  output: 'static',
  trailingSlash: 'always',
  build: { format: 'directory', inlineStylesheets: 'always' },
  compressHTML: true,
  prerenderConflictBehavior: 'error',
  devToolbar: { enabled: false },
  integrations: [mdx(), mistakesInPreview(), filesInPreview(), pagesApart()],
  server: { host: '127.0.0.1' },
  vite: {
    plugins: [tokensPlugin(shop?.look ?? {})],
    build: { assetsInlineLimit: 0, sourcemap: false },
    ssr: { external: NATIVE },
    optimizeDeps: { exclude: NATIVE },
  },
});
