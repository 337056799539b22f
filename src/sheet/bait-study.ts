import type { Bait, Catalogue, Entry } from '../schema/collections.ts';
import { measuredFamily, partOf, PUBLISHED, sheetOrProblem } from './analyse.ts';
import { baitSheet, type BaitSheet, type WorkedRevision } from './bait-sheet.ts';
import type { Sheet } from './sheet.ts';
import type { Tools } from './tools.ts';

/** The mold in which all revisions are worked out: one of the whole bait that can be bought, the first by id. */
function referenceOf(own: readonly Sheet[]): Sheet | undefined {
  const final = own.filter(({ mold }) => mold.status === 'final');
  return final.find(({ mold }) => mold.from === undefined) ?? final[0] ?? own[0];
}

/**
 * The page of a bait, or nothing while none of its molds is published. Revisions that the reference mold cannot be
 * worked out with are left out.
 *
 * @param own - sheets of the bait's molds
 */
async function studied(
  catalogue: Catalogue,
  bait: Entry<Bait>,
  own: readonly Sheet[],
  tools: Tools,
): Promise<BaitSheet | null> {
  const published = own.filter(({ mold }) => PUBLISHED.has(mold.status));
  const reference = referenceOf(published);
  if (!reference) return null;
  const { mold, plastisol, ledger } = reference;
  const family = await measuredFamily(catalogue, bait, tools);
  const worked: WorkedRevision[] = [];
  for (const one of family) {
    const same = one.revision.id === reference.revision.id;
    const part = await partOf(mold, one.geometry, tools);
    if ('problem' in part) continue;
    const parts = { catalogue, mold, bait, plastisol, ledger, family, ...one, ...part };
    const result = same ? { sheet: reference } : await sheetOrProblem(parts, tools);
    if ('sheet' in result) worked.push({ ...one, sheet: result.sheet });
  }
  return baitSheet(worked, published);
}

/** The pages of all baits that have a published mold. */
export async function baitSheets(
  catalogue: Catalogue,
  sheets: readonly Sheet[],
  tools: Tools,
): Promise<BaitSheet[]> {
  const made: BaitSheet[] = [];
  for (const bait of catalogue.baits) {
    const own = sheets.filter(({ mold }) => mold.bait === bait.id);
    const sheet = await studied(catalogue, bait, own, tools);
    if (sheet) made.push(sheet);
  }
  return made;
}
