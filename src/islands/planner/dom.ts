import type { Band } from '../../core/quantity/band.ts';
import { printed, type UnitSystem } from '../../core/quantity/print.ts';
import { fromSI, type UnitCode } from '../../core/quantity/units.ts';

type Content = Node | string | null;
type Attributes = Readonly<Record<string, string | boolean | undefined>>;

/** An element with its attributes and contents; text is never read as markup. */
export function el<Tag extends keyof HTMLElementTagNameMap>(
  tag: Tag,
  attributes: Attributes = {},
  ...content: readonly Content[]
): HTMLElementTagNameMap[Tag] {
  const made = document.createElement(tag);
  for (const [name, value] of Object.entries(attributes)) {
    if (value === true) made.setAttribute(name, '');
    else if (typeof value === 'string') made.setAttribute(name, value);
  }
  made.append(...content.filter((one) => one !== null));
  return made;
}

/** A band from SI in a unit, ready to be printed. */
export function shown(si: Band, unit: UnitCode): Band & { readonly unit: UnitCode } {
  return { unit, value: fromSI(si.value, unit), low: fromSI(si.low, unit), high: fromSI(si.high, unit) };
}

function reading(
  quantity: Band & { readonly unit: UnitCode },
  system: UnitSystem,
  shared: boolean,
): HTMLElement {
  const { value, unit, range } = printed(quantity, system);
  const aloud = (text: string) => el('i', {}, text);
  const limits = range && el('small', {}, aloud(' ('), range.low, aloud(' to '), range.high, aloud(')'));
  const sign = unit === '' || unit === '%' ? unit : `\u00a0${unit}`;
  return el('span', { class: shared ? 'both' : system }, el('b', {}, value), sign, limits);
}

/** A quantity as every page shows it: in both systems, the shop's own first; one form where they share the unit. */
export function quantity(amount: Band & { readonly unit: UnitCode }, first: UnitSystem): HTMLElement {
  const other: UnitSystem = first === 'us' ? 'metric' : 'us';
  const shared = printed(amount, first).text === printed(amount, other).text;
  if (shared) return el('span', { class: 'q' }, reading(amount, first, true));
  const between = el('i', {}, ' / ');
  return el('span', { class: 'q' }, reading(amount, first, false), between, reading(amount, other, false));
}
