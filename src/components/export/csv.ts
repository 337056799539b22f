import { unitFor } from '../../core/quantity/print.ts';
import type { Brief } from '../../sheet/brief.ts';
import { fullAddress } from '../address.ts';
import { figureOf } from '../figure/homes.ts';

/** Figures of the table, each with its limits, in the metric unit that its heading names. */
const KEYS = [
  'bait.length',
  'bait.mass',
  'shot.total',
  'pour.low',
  'pour.nominal',
  'pour.high',
  'heat.demoldTime',
  'mold.clampForce',
  'mold.blockMass',
] as const;

const DIGITS = 6;
const stable = (value: number) => Number(value.toPrecision(DIGITS));

function figureCells(sheet: Brief): Record<string, number> {
  return Object.fromEntries(
    KEYS.flatMap((key) => {
      const { value, low, high, unit } = figureOf(sheet, key);
      return [
        [`${key} [${unitFor(unit, 'metric')}]`, stable(value)],
        [`${key} low`, stable(low)],
        [`${key} high`, stable(high)],
      ];
    }),
  );
}

/** A cell: numbers as they are, texts in quotes where they need them, formulas made harmless. */
function cell(value: string | number): string {
  if (typeof value === 'number') return String(value);
  const text = /^[=+\-@\t\r]/u.test(value) ? `'${value}` : value;
  return /[",\r\n]/u.test(text) ? `"${text.replaceAll('"', '""')}"` : text;
}

/**
 * The catalogue as a table for spreadsheets, RFC 4180. A text that a spreadsheet would take for a formula gets an
 * apostrophe in front.
 */
export function catalogueCsv(sheets: readonly Brief[]): string {
  const rows = sheets.map((sheet) => ({
    id: sheet.id,
    title: sheet.title,
    stock: sheet.mold.stock,
    status: sheet.mold.status,
    bait: sheet.bait.name,
    family: sheet.bait.family,
    revision: sheet.revision.id,
    cavities: sheet.mold.cavities.length,
    'fills cold': sheet.verdicts.cold.code,
    float: sheet.verdicts.float.code,
    injector: sheet.injectors.find(({ holds }) => holds)?.injector.name ?? '',
    hook: sheet.bestHook ? `${sheet.bestHook.size} ${sheet.bestHook.hook.pattern}` : '',
    ...figureCells(sheet),
    price: sheet.mold.listing.price?.amount ?? '',
    currency: sheet.mold.listing.price?.currency ?? '',
    url: fullAddress(`molds/${sheet.id}/`, sheet.shop.site),
  }));
  const heads = Object.keys(rows[0] ?? {});
  const lines = [heads, ...rows.map((row) => Object.values(row))];
  return lines.map((line) => `${line.map(cell).join(',')}\r\n`).join('');
}
