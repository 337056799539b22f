import { printed, printedBoth, type UnitSystem } from '../core/quantity/print.ts';
import type { Figure } from '../core/quantity/figure.ts';

/** Figures by key. */
export type Figures = Readonly<Record<string, Figure>>;

/** Prints figures for sentences: both unit systems, the shop's own first. */
export interface Speaker {
  /** Nominal with its band, `18 mL (16 to 20) / 0.61 fl oz (0.54 to 0.68)`. */
  readonly say: (key: string) => string;
  /** One end of the band alone, for limits: `185 °C / 365 °F`. */
  readonly end: (key: string, end: 'value' | 'low' | 'high') => string;
  readonly has: (key: string) => boolean;
  readonly figure: (key: string) => Figure;
}

/** A speaker over a sheet's figures. */
export function speaker(figures: Figures, units: UnitSystem): Speaker {
  const figure = (key: string): Figure => {
    const found = figures[key];
    if (!found) throw new RangeError(`speaker: wants a figure of the sheet, got "${key}"`);
    return found;
  };
  return {
    figure,
    has: (key) => figures[key] !== undefined,
    say: (key) => printedBoth(figure(key), units),
    end: (key, end) => endText(figure(key), end, units),
  };
}

function endText(figure: Figure, end: 'value' | 'low' | 'high', units: UnitSystem): string {
  const both = ([units, units === 'us' ? 'metric' : 'us'] as const).map((system) => {
    const text = printed(figure, system);
    const number = end === 'value' || !text.range ? text.value : text.range[end];
    return text.unit === '' ? number : `${number}\u00a0${text.unit}`;
  });
  return [...new Set(both)].join(' / ');
}

/** Names of features in a sentence: "tail", "claws and legs". */
export function listed(names: readonly string[]): string {
  if (names.length < 2) return names.join('');
  return `${names.slice(0, -1).join(', ')} and ${names.at(-1)}`;
}

const KIND_WORDS: Readonly<Record<string, string>> = {
  'curl-tail': 'curl tail',
  'ribbon-tail': 'ribbon tail',
};

/** A feature's name as people say it: "tail", "front legs". */
export function featureLabel(feature: { readonly name: string; readonly kind: string }): string {
  return feature.name === feature.kind
    ? (KIND_WORDS[feature.kind] ?? feature.kind)
    : feature.name.replaceAll('-', ' ');
}

/** A hook size in a sentence: "3/0", "size 4". */
export function sizeWords(size: string): string {
  return size.includes('/') ? size : `size ${size}`;
}

/** "the cavity", "both cavities", "all 6 cavities". */
export function cavityWords(count: number): string {
  if (count === 1) return 'the cavity';
  return count === 2 ? 'both cavities' : `all ${count} cavities`;
}
