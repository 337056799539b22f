import { readFile } from 'node:fs/promises';
import { join } from 'node:path';

interface Page {
  readonly name: string;
  readonly links: readonly string[];
  readonly anchors: ReadonlySet<string>;
}

/**
 * Links within a built site that lead to no page, no file or no anchor, one line each.
 *
 * @param folder - the built site
 * @param files - paths of all files in it
 * @param address - where it will be published; links that begin with it are the site's own
 */
export async function deadLinks(
  folder: string,
  files: readonly string[],
  address: string,
): Promise<string[]> {
  const home = address.endsWith('/') ? address : `${address}/`;
  const pages = new Map<string, Page>();
  for (const name of files.filter((file) => file.endsWith('.html'))) {
    pages.set(name, pageOf(name, await readFile(join(folder, name), 'utf8')));
  }
  const known = new Set(files);
  return [...pages.values()].flatMap((page) =>
    page.links
      .filter((link) => isDead(page, link, { home, known, pages }))
      .map((link) => `${page.name} links to ${link}, which is not there`),
  );
}

function pageOf(name: string, html: string): Page {
  const all = (pattern: RegExp): string[] => [...html.matchAll(pattern)].map(([, text = '']) => text);
  return {
    name,
    links: [
      ...new Set(
        all(/\s(?:href|src|content(?=="https:))="([^"]*)"/gu).map((link) => link.replaceAll('&amp;', '&')),
      ),
    ],
    anchors: new Set(all(/\sid="([^"]*)"/gu)),
  };
}

interface Site {
  readonly home: string;
  readonly known: ReadonlySet<string>;
  readonly pages: ReadonlyMap<string, Page>;
}

function isDead(from: Page, link: string, { home, known, pages }: Site): boolean {
  if (!URL.canParse(link, home + from.name)) return true;
  const { origin, pathname, hash } = new URL(link, home + from.name);
  const { origin: here, pathname: base } = new URL(home);
  if (origin !== here) return false;
  if (!pathname.startsWith(base)) return !URL.canParse(link);
  const path = decodeURIComponent(pathname.slice(base.length));
  const target = path === '' || path.endsWith('/') ? `${path}index.html` : path;
  if (!known.has(target)) return true;
  const anchor = decodeURIComponent(hash).slice(1);
  return anchor !== '' && pages.get(target)?.anchors.has(anchor) === false;
}
