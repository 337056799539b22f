import type { Brief } from '../../sheet/brief.ts';
import { filtersOf, ORDERS } from './filters.ts';

const text = (value: string) => JSON.stringify(value);
const chosen = (name: string, value: string) =>
  `.browse:has(#f-${name} option[value=${text(value)}]:checked)`;

/**
 * Style rules that make the form of the catalogue work without a script: what does not match goes, and the rest takes
 * the chosen order.
 */
export function browseStyles(sheets: readonly Brief[]): string {
  const hide = filtersOf(sheets).flatMap(({ name, choices }) =>
    choices.map(
      ({ value }) => `${chosen(name, value)} .molds>li:not([data-${name}~=${text(value)}]){display:none}`,
    ),
  );
  const place = ORDERS.flatMap(({ value, by }) =>
    [...sheets]
      .sort((a, b) => by(a) - by(b))
      .map(({ id }, index) => `${chosen('sort', value)} #at-${id}{order:${index}}`),
  );
  return [...hide, ...place, ''].join('\n');
}

/** Style rules for the columns of the page that compares molds: once some are picked, only those stay. */
export function compareStyles(sheets: readonly Brief[]): string {
  return sheets
    .map(
      ({ id }) =>
        `.compare:has(.pick :checked):not(:has(#pick-${id}:checked)) [data-mold=${text(id)}]{display:none}\n`,
    )
    .join('');
}
