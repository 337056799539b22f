import { readFile } from 'node:fs/promises';
import { join } from 'node:path';

/** Stands for the site's own address, so that links elsewhere can be told apart. */
const HERE = 'https://site.invalid';

interface Page {
  readonly name: string;
  readonly links: readonly string[];
  readonly anchors: ReadonlySet<string>;
}

/** Links within a built site that lead to no page, no file or no anchor, one line each. */
export async function deadLinks(folder: string, files: readonly string[]): Promise<string[]> {
  const pages = new Map<string, Page>();
  for (const name of files.filter((file) => file.endsWith('.html'))) {
    pages.set(name, pageOf(name, await readFile(join(folder, name), 'utf8')));
  }
  const known = new Set(files);
  return [...pages.values()].flatMap((page) =>
    page.links
      .filter((link) => isDead(page, link, known, pages))
      .map((link) => `${page.name} links to ${link}, which is not there`),
  );
}

function pageOf(name: string, html: string): Page {
  const all = (pattern: RegExp): string[] => [...html.matchAll(pattern)].map(([, text = '']) => text);
  return {
    name,
    links: [...new Set(all(/\s(?:href|src)="([^"]*)"/gu).map((link) => link.replaceAll('&amp;', '&')))],
    anchors: new Set(all(/\sid="([^"]*)"/gu)),
  };
}

function isDead(
  from: Page,
  link: string,
  known: ReadonlySet<string>,
  pages: ReadonlyMap<string, Page>,
): boolean {
  if (!URL.canParse(link, `${HERE}/${from.name}`)) return true;
  const { origin, pathname, hash } = new URL(link, `${HERE}/${from.name}`);
  if (origin !== HERE) return false;
  const path = decodeURIComponent(pathname).slice(1);
  const target = path === '' || path.endsWith('/') ? `${path}index.html` : path;
  if (!known.has(target)) return true;
  const anchor = decodeURIComponent(hash).slice(1);
  return anchor !== '' && pages.get(target)?.anchors.has(anchor) === false;
}
