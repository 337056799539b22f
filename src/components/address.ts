/** Path of a page or a file of this site, below the folder the site is published in. */
export function sitePath(path: string, base: string = import.meta.env.BASE_URL): string {
  return `${base.replace(/\/+$/u, '')}/${path.replace(/^\/+/u, '')}`;
}

/** Full address of a page or a file, for share cards, feeds and structured data. */
export function fullAddress(path: string, site: string): string {
  return new URL(path.replace(/^\/+/u, ''), site.endsWith('/') ? site : `${site}/`).href;
}

/** Path of a bait's page. */
export const baitPath = (id: string) => sitePath(`baits/${id}/`);

/** Path of two revisions of a bait side by side: `b-c`. */
export const pairPath = (id: string, pair: string) => sitePath(`baits/${id}/${pair}/`);

/** Path of a mold's spec sheet. */
export const moldPath = (id: string) => sitePath(`molds/${id}/`);
