import { sha256 } from '../io/digest.ts';

/** Where a page names itself: in its head, in its foot, on paper. */
const PLACES = /(<meta name="build" content="|<span data-build>)[^"<]*(?=["<])/gu;

/** Signs of each half of an id; two pages are taken for one by mistake once in four thousand million. */
const SIGNS = 8;

/**
 * Writes into a page which page it is: eight signs of the program's id, eight of the page's own text. Equal ids, equal
 * pages; no other page has a share in it.
 *
 * @param html - a page with places for its id, whatever stands in them
 * @param program - id of the program that made it
 */
export function identified(html: string, program: string): string {
  const put = (id: string): string => html.replace(PLACES, (_, place: string) => place + id);
  return put(`${program.slice(0, SIGNS)}-${sha256(program, put('')).slice(0, SIGNS)}`);
}
