import type { Fault, Sheet } from '../sheet/sheet.ts';

/** A reply ready to send: its text, and where it stays. */
export interface Reply {
  readonly key: string;
  readonly title: string;
  readonly text: string;
  readonly address: string;
}

/** Address of an anchor on a sheet, for messages. */
export function anchorAddress({ id, shop }: Pick<Sheet, 'id' | 'shop'>, key: string): string {
  return `${new URL(`molds/${id}/`, shop.site.endsWith('/') ? shop.site : `${shop.site}/`).href}#${key}`;
}

/** The causes of a fault in a message: the first two with their cures, the rest by name. */
export function faultText({ name, causes }: Fault): string {
  const [first, second, ...others] = causes;
  const told = [first, second].flatMap((one) => (one ? [`${one.cause}: ${one.cure}`] : []));
  const rest =
    others.length > 0 ? ` Less likely: ${others.map(({ cause }) => cause.toLowerCase()).join('; ')}.` : '';
  return `${name}: likeliest causes first. ${told.join(' ')}${rest}`;
}

/** What a sheet is known by in a message: "Osier Grub, six cavities, TT-OSIER-6, revision C of 2026-03-01". */
export function sheetName({ title, mold, revision }: Pick<Sheet, 'title' | 'mold' | 'revision'>): string {
  return `${title}, ${mold.stock}, revision ${revision.id.toUpperCase()} of ${revision.date}`;
}

/** Text, source and address in one message, with plain spaces. */
export function message(sheet: Sheet, key: string, text: string): string {
  return [text, `${sheetName(sheet)}`, anchorAddress(sheet, key)].join('\n').replaceAll('\u00a0', ' ');
}

/** Every reply of a sheet: its answers, then its faults. */
export function replies(sheet: Sheet): Reply[] {
  const one = (key: string, title: string, text: string): Reply => ({
    key,
    title,
    text: message(sheet, key, text),
    address: anchorAddress(sheet, key),
  });
  return [
    ...sheet.answers.map(({ key, question, short }) => one(key, question, short)),
    ...sheet.faults.map((fault) => one(fault.key, fault.name, faultText(fault))),
  ];
}
