import type { RouteData, SSRManifest } from 'astro';
import nodeLog from 'astro/logger/node';
import { StaticPaths } from 'astro/runtime/prerender/static-paths.js';
import { mkdir, readdir, writeFile } from 'node:fs/promises';
import { dirname, join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { outputFolder } from '../../io/settings.ts';
import { say } from '../progress.ts';
import { fileOf, inOrder, pathOf } from './addresses.ts';
import { BUNDLE } from './apart.ts';

type Sheet = SSRManifest['routes'][number]['styles'][number];

/** What Astro's renderer asks of the bundler that it usually runs beside: the style sheets of each page. */
interface Internals {
  readonly pagesByKeys: ReadonlyMap<
    string,
    { readonly styles: { depth: number; order: number; sheet: Sheet }[] }
  >;
}

/** The renderer in a bundle. */
type App = ConstructorParameters<typeof StaticPaths>[0] & {
  readonly manifest: SSRManifest;
  setInternals(internals: Internals): void;
  setOptions(options: object): void;
  render(request: Request, options: { readonly routeData: RouteData }): Promise<Response>;
};

function internalsOf({ routes }: SSRManifest): Internals {
  const pages = routes.map(({ routeData, styles }) => {
    const sheets = styles.map((sheet, order) => ({ depth: 0, order, sheet }));
    return [`${routeData.route}&${routeData.component}`, { styles: sheets }] as const;
  });
  return { pagesByKeys: new Map(pages) };
}

async function bundledApp(folder: string): Promise<App> {
  const entry = (await readdir(folder)).find((name) => name.startsWith('prerender-entry.'));
  if (!entry) throw new RangeError('bundledApp: wants a bundle of pages, got none');
  const { app } = (await import(pathToFileURL(join(folder, entry)).href)) as { readonly app: App };
  app.setInternals(internalsOf(app.manifest));
  app.setOptions({ settings: { scripts: [] }, logger: { options: { destination: nodeLog({}) } } });
  return app;
}

/** Renders one page into a file that must not be there yet. */
async function rendered(app: App, routeData: RouteData, pathname: string): Promise<void> {
  const { site, base } = app.manifest;
  const file = fileOf(pathname, routeData.type);
  const response = await app.render(new Request(new URL(pathOf(pathname, routeData.type, base), site)), {
    routeData,
  });
  if (!response.body || (!response.ok && pathname !== '/404'))
    throw new RangeError(`rendered: wants the page ${file}, got status ${response.status}`);
  const path = join(outputFolder(), file);
  await mkdir(dirname(path), { recursive: true });
  await writeFile(path, response.body, { flag: 'wx' });
  say(`rendered /${file}`);
}

const app = await bundledApp(process.env[BUNDLE] ?? '');
for (const { pathname, route } of inOrder(await new StaticPaths(app).getAll()))
  await rendered(app, route, pathname);
