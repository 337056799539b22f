import type { RouteData } from 'astro';

type Kind = RouteData['type'];

const bare = (pathname: string): string => pathname.replaceAll(/^\/|\/$/gu, '');

/** The path that a page is asked for by: a folder ends in a slash, a file does not. */
export function pathOf(pathname: string, kind: Kind, base: string): string {
  const own = bare(pathname);
  const path = `${base.replace(/\/$/u, '')}/${own}`;
  return kind === 'endpoint' || own === '' ? path : `${path}/`;
}

/** The file of a page in a site. */
export function fileOf(pathname: string, kind: Kind): string {
  const own = bare(pathname);
  if (kind === 'endpoint') return own;
  return own === '404' ? '404.html' : own === '' ? 'index.html' : `${own}/index.html`;
}

/**
 * The order to render pages in: those of one mold or bait follow one another, so that its sheet is read once, and what speaks of
 * the whole catalogue comes when all of them are done, so that what it reads is not held beside them.
 */
export function inOrder<Page extends { readonly pathname: string }>(pages: readonly Page[]): Page[] {
  const whole = '';
  const units = Map.groupBy(
    pages,
    ({ pathname }) => /^\/?(?:molds|baits)\/[^/]+/u.exec(pathname)?.[0] ?? whole,
  );
  const last = units.get(whole) ?? [];
  units.delete(whole);
  return [...[...units.values()].flat(), ...last];
}
