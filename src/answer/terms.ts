/** Other ways of writing a unit, after the number it belongs to. */
const UNIT_WORDS: Readonly<Record<string, string>> = {
  inch: 'in',
  inches: 'in',
  '"': 'in',
  '″': 'in',
  f: '°f',
  c: '°c',
  fahrenheit: '°f',
  celsius: '°c',
  ounce: 'oz',
  ounces: 'oz',
  'fluid ounces': 'fl oz',
  ml: 'ml',
  millimetres: 'mm',
  millimeters: 'mm',
  grams: 'g',
  minutes: 'min',
  hours: 'h',
  hour: 'h',
  seconds: 's',
  mil: 'thou',
  pounds: 'lb',
  um: 'µm',
};

const UNIT =
  'fl oz|fluid ounces|ounces?|oz|in³|in²|inch(?:es)?|in|mm|millimet(?:re|er)s|cm³|cm²|cm|ml|thou|mil|µm|um|°f|°c|fahrenheit|celsius|lbf|lb|pounds|psi|kpa|kg|g|grams|min|minutes|hours?|h|seconds|s|n|f|c|"|″|%';
const QUANTITY = new RegExp(`(\\d+(?:\\.\\d+)?(?:/\\d+)?|\\.\\d+)\\s*(?:(${UNIT})(?![\\p{L}²³]))?`, 'giu');

/** Stock numbers and the like: letters first, parts joined by dashes. */
const CODE = /\p{L}[\p{L}\p{N}]*(?:-[\p{L}\p{N}]+)+/gu;

/** A number as it stands in an index: no trailing zeros; a fraction of an inch as decimals. */
function numberTexts(text: string): string[] {
  const [over, under] = text.split('/').map(Number);
  const value = under === undefined ? (over ?? NaN) : (over ?? NaN) / under;
  if (!Number.isFinite(value)) return [];
  const decimals = under === undefined ? [] : [3, 2].map((places) => String(Number(value.toFixed(places))));
  return [...new Set([under === undefined ? String(value) : text, ...decimals])];
}

/** Numbers with their units as single terms: "0.80 mm" is `0.8mm`, "1/32 in" is `0.031in`. */
export function quantityTerms(text: string): string[] {
  return [...text.matchAll(QUANTITY)].flatMap(([, number = '', unit]) => {
    const numbers = numberTexts(number);
    if (unit === undefined) return numbers;
    const plain = unit.toLowerCase();
    const code = (UNIT_WORDS[plain] ?? plain).replaceAll(' ', '');
    return numbers.map((one) => `${one}${code}`);
  });
}

/** Terms of a text: codes whole and in parts, numbers with their units, and words. */
export function terms(text: string): string[] {
  const lower = text.replaceAll('\u00a0', ' ').toLowerCase();
  const codes = lower.match(CODE) ?? [];
  const rest = lower.replace(CODE, ' ');
  const words = rest.replace(QUANTITY, ' ').match(/\p{L}[\p{L}\p{N}]*/gu) ?? [];
  return [...codes.flatMap((code) => [code, ...code.split('-')]), ...quantityTerms(rest), ...words];
}

/** Terms of what a document says: here a number counts with its unit and also alone. */
export function documentTerms(text: string): string[] {
  const all = terms(text);
  return [...all, ...all.flatMap((term) => /^(\d[\d./]*)\D/u.exec(term)?.[1] ?? [])];
}

/** Number and unit of a term, or nothing for any other term. */
export const parted = (term: string): { value: number; unit: string } | null => {
  const [, number = '', unit = ''] = /^(\d[\d.]*)(\D+)$/u.exec(term) ?? [];
  return unit === '' ? null : { value: Number(number), unit };
};
