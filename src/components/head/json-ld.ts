import type { Figure } from '../../core/quantity/figure.ts';
import { printed } from '../../core/quantity/print.ts';
import type { UnitCode } from '../../core/quantity/units.ts';
import type { Sheet } from '../../sheet/sheet.ts';
import { fullAddress } from '../address.ts';

/**
 * UN/CEFACT codes of the metric units that figures are shown in.
 * Source: UN/CEFACT Recommendation 20, common codes, from memory.
 */
export const CEFACT: Partial<Record<UnitCode, string>> = {
  mm: 'MMT',
  cm: 'CMT',
  m: 'MTR',
  mm2: 'MMK',
  cm2: 'CMK',
  cm3: 'CMQ',
  mL: 'MLT',
  L: 'LTR',
  g: 'GRM',
  kg: 'KGM',
  s: 'SEC',
  min: 'MIN',
  h: 'HUR',
  Cel: 'CEL',
  K: 'KEL',
  N: 'NEW',
  kN: 'B47',
  Pa: 'PAL',
  kPa: 'KPA',
  MPa: 'MPA',
  'g/cm3': '23',
  'kg/m3': 'KMQ',
  'm/s': 'MTS',
  Hz: 'HTZ',
  'cm/s': '2M',
  deg: 'DD',
  '1': 'C62',
  '%': 'P1',
};

/** JSON that is safe inside a script element: no text in it can end the element or open a comment. */
export function jsonForScript(value: unknown): string {
  return JSON.stringify(value)
    .replace(/</gu, '\\u003c')
    .replace(/>/gu, '\\u003e')
    .replace(/&/gu, '\\u0026')
    .replace(/\u2028/gu, '\\u2028')
    .replace(/\u2029/gu, '\\u2029');
}

const asNumber = (text: string) => Number(text.replace('\u2212', '-'));

/** One figure as schema.org knows it, with the very numbers that the page prints; null for a unit without a code. */
export function propertyValue(figure: Figure) {
  const { value, unit, code, range } = printed(figure, 'metric');
  const unitCode = CEFACT[code];
  if (!unitCode) return null;
  return {
    '@type': 'PropertyValue',
    propertyID: figure.key,
    name: figure.label,
    value: asNumber(value),
    ...(range && { minValue: asNumber(range.low), maxValue: asNumber(range.high) }),
    unitCode,
    unitText: unit || 'ratio',
  };
}

function offerOf(sheet: Sheet, page: string) {
  const { price, buy } = sheet.mold.listing;
  return (
    price && {
      '@type': 'Offer',
      price: price.amount.toFixed(2),
      priceCurrency: price.currency,
      url: buy ?? page,
      seller: { '@type': 'Organization', name: sheet.shop.name },
    }
  );
}

/** Figures that are only steps to others, or one of many alike; the machine-readable sheet has them all. */
const DETAIL = [
  /^(?:action|batch|burn|hook|injector|rig|vent|yield)\./u,
  /^fill\.(?:gain|pour|time)|^fill\.re(?:ach|serve)\.(?:cold|warm)\./u,
  /^heat\.(?:demoldTimeCold|pause|rise)|^mold\.parting|^shot\.(?:pressure|sprueShare)/u,
  /^bait\.(?:centroid|gyration)|^float\.(?:arm|nose)|^mold\.shotCheck/u,
];

/** A sheet as a schema.org Product: identity, an offer only where a price is stated, and its main figures with coded units. */
export function productOf(sheet: Sheet, description: string) {
  const page = fullAddress(`molds/${sheet.id}/`, sheet.shop.site);
  return {
    '@context': 'https://schema.org',
    '@type': 'Product',
    '@id': page,
    url: page,
    name: sheet.title,
    sku: sheet.mold.stock,
    description,
    image: fullAddress(`molds/${sheet.id}/card.png`, sheet.shop.site),
    category: `Injection mold, ${sheet.bait.family}`,
    brand: { '@type': 'Brand', name: sheet.shop.name },
    offers: offerOf(sheet, page),
    additionalProperty: Object.values(sheet.figures)
      .filter(({ key }) => !DETAIL.some((pattern) => pattern.test(key)))
      .flatMap((figure) => propertyValue(figure) ?? []),
  };
}
