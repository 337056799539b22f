import type { FileFacts } from './site-facts.ts';

interface Site {
  readonly home: string;
  readonly files: ReadonlySet<string>;
  readonly anchors: ReadonlyMap<string, ReadonlySet<string>>;
}

/**
 * Links within a built site that lead to no page, no file or no anchor, one line each.
 *
 * @param facts - of all its files
 * @param address - where it will be published; links that begin with it are the site's own
 */
export function deadLinks(facts: readonly FileFacts[], address: string): string[] {
  const site: Site = {
    home: address.endsWith('/') ? address : `${address}/`,
    files: new Set(facts.map(({ name }) => name)),
    anchors: new Map(facts.flatMap(({ name, anchors }) => (anchors ? [[name, new Set(anchors)]] : []))),
  };
  const judged = new Map<string, boolean>();
  const dead = (name: string, link: string): boolean => {
    // A link that names its whole way leads to the same place from every page.
    if (!/^(?:\/|https:)/u.test(link)) return isDead(name, link, site);
    const known = judged.get(link) ?? isDead(name, link, site);
    judged.set(link, known);
    return known;
  };
  return facts.flatMap(({ name, links = [] }) =>
    links.filter((link) => dead(name, link)).map((link) => `${name} links to ${link}, which is not there`),
  );
}

function isDead(from: string, link: string, { home, files, anchors }: Site): boolean {
  if (!URL.canParse(link, home + from)) return true;
  const { origin, pathname, hash } = new URL(link, home + from);
  const { origin: here, pathname: base } = new URL(home);
  if (origin !== here) return false;
  if (!pathname.startsWith(base)) return !URL.canParse(link);
  const path = decodeURIComponent(pathname.slice(base.length));
  const target = path === '' || path.endsWith('/') ? `${path}index.html` : path;
  if (!files.has(target)) return true;
  const anchor = decodeURIComponent(hash).slice(1);
  return anchor !== '' && anchors.get(target)?.has(anchor) === false;
}
