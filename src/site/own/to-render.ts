import type { Sheet } from '../../sheet/sheet.ts';
import { ownData, type OwnData } from '../site-data.ts';
import { renderList } from './render-list.ts';

/** Sheets whose pages are to be rendered: all those that are not kept from an earlier build. */
export async function sheetsToRender(): Promise<readonly Sheet[]> {
  const [{ sheets }, wanted] = [await ownData(), await renderList()];
  const molds = new Set(wanted?.molds);
  return wanted ? sheets.filter(({ id }) => molds.has(id)) : sheets;
}

/** Baits whose pages are to be rendered, and how to read one of them. */
export async function baitsToRender(): Promise<
  Pick<OwnData, 'baitOf'> & { readonly ids: readonly string[] }
> {
  const [{ sheets, baitOf }, wanted] = [await ownData(), await renderList()];
  return { baitOf, ids: wanted?.baits ?? [...new Set(sheets.map(({ bait }) => bait.id))] };
}
