import { readFile, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { sha256 } from '../io/digest.ts';
import { leanHtml } from './lean-html.ts';
import { policed } from './page-policy.ts';

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

/**
 * Makes every page of a folder lean, has its policy name its own styles, and has it say which page it is.
 *
 * @param folder - of a rendered site
 * @param names - of files in it
 * @param program - id of the program that made them
 */
export async function finishPages(folder: string, names: readonly string[], program: string): Promise<void> {
  for (const name of names.filter((file) => file.endsWith('.html'))) {
    const path = join(folder, name);
    const before = await readFile(path, 'utf8');
    const after = identified(policed(leanHtml(before)), program);
    if (after !== before) await writeFile(path, after);
  }
}
