import type { Brief } from '../../sheet/brief.ts';
import { filtersOf, ORDERS } from './filters.ts';

const text = (value: string) => JSON.stringify(value);

/**
 * The form with something chosen. It stands before what it narrows, and its rules look into the form alone: one that looked
 * around the list as well would be looked up again for every mold that a browser reads.
 */
const chosen = (name: string, value: string) =>
  `.narrowing:has(#f-${name} option[value=${text(value)}]:checked)`;

/**
 * Style rules that make the form of the catalogue work without a script: what does not match goes, and the rest takes
 * the chosen order.
 */
export function browseStyles(sheets: readonly Brief[]): string {
  const hide = filtersOf(sheets).flatMap(({ name, choices }) =>
    choices.map(
      ({ value }) => `${chosen(name, value)}~.molds>li:not([data-${name}~=${text(value)}]){display:none}`,
    ),
  );
  const place = ORDERS.flatMap(({ value, by }) => [
    `${chosen('sort', value)}~.molds{`,
    ...[...sheets].sort((a, b) => by(a) - by(b)).map(({ id }, index) => `#at-${id}{order:${index}}`),
    '}',
  ]);
  return [...hide, ...place, ''].join('\n');
}

/** Style rules for the columns of the page that compares molds: once some are picked, only those stay. */
export function compareStyles(sheets: readonly Brief[]): string {
  return [
    '.narrowing:has(.pick :checked)~.table .of{display:none}',
    ...sheets.map(
      ({ id }) => `.narrowing:has(#pick-${id}:checked)~.table .${columnOf(id)}{display:table-cell}`,
    ),
    '',
  ].join('\n');
}

/** Class of the cells of a mold. */
export const columnOf = (id: string): string => `of-${id}`;
