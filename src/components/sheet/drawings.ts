import { baitDrawing, type Drawing } from '../../drawing/bait.ts';
import type { Layout } from '../../drawing/layout.ts';
import type { Scheme } from '../../drawing/lines.ts';
import type { Cut } from '../../sheet/cuts.ts';
import type { Sheet } from '../../sheet/sheet.ts';

function titleBlockOf(sheet: Sheet) {
  return {
    owner: sheet.shop.name,
    number: sheet.mold.stock,
    revision: sheet.revision.id.toUpperCase(),
    date: sheet.revision.date,
    title: sheet.bait.name,
    documentType: 'Bait drawing',
  };
}

/** How a drawing of a sheet is put on a page, or into a file of its own. */
export interface SheetDrawingOptions {
  readonly layout: Layout;
  readonly prefix: string;
  readonly standalone?: Scheme;
}

/** The bait of a sheet drawn from its solid; a file of its own carries the title block. */
export function sheetDrawing(sheet: Sheet, cuts: readonly Cut[], options: SheetDrawingOptions): Drawing {
  const { bait, geometry } = sheet;
  return baitDrawing(
    {
      name: bait.name,
      geometry,
      lies: bait.lies,
      cuts,
      projection: sheet.shop.units === 'us' ? 'third' : 'first',
      ...(options.standalone && { titleBlock: titleBlockOf(sheet) }),
    },
    options,
  );
}
