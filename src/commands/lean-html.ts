/** Elements beside which white space is never shown: they start and end lines, or stand inside a drawing. */
const BLOCKS =
  'address|article|aside|base|blockquote|body|br|caption|circle|col|colgroup|dd|desc|details|div|dl|dt|fieldset|figcaption|figure|footer|form|g|h[1-6]|head|header|hr|html|legend|li|line|link|main|meta|nav|noscript|ol|optgroup|option|p|path|rect|script|section|source|summary|table|tbody|td|text|tfoot|th|thead|title|tr|ul';

/** What keeps every character: scripts, data, text that is set as it is written. */
const KEPT = /<(script|style|pre|textarea)\b[\s\S]*?<\/\1>/giu;

const AFTER = new RegExp(`(</?(?:${BLOCKS})(?:\\s[^<>]*)?>)\\s+`, 'giu');
const BEFORE = new RegExp(`\\s+(?=</?(?:${BLOCKS})[\\s/>])`, 'giu');

/** No-break spaces are text, not white space. */
const plainSpace = (pattern: RegExp) => new RegExp(pattern.source.replaceAll('\\s+', '[ \\t\\r\\n]+'), 'giu');

const RULES = [AFTER, BEFORE].map(plainSpace);

/**
 * A page without the white space that nobody sees: at the edges of blocks, and line breaks within text.
 *
 * @param html - a page in which attribute values hold no bare angle brackets
 */
export function leanHtml(html: string): string {
  const kept: string[] = [];
  const open = html.replace(KEPT, (whole) => `<script \u0000${kept.push(whole) - 1}>`);
  const [after, before] = RULES as [RegExp, RegExp];
  const lean = open
    .replace(after, '$1')
    .replace(before, '')
    .replace(/(>|[^<>\s])[ \t]*[\r\n][ \t\r\n]*(?=[^<>]*<)/gu, '$1 ');
  return lean.replace(/<script \u0000(\d+)>/gu, (_, index: string) => kept[Number(index)] ?? '');
}
