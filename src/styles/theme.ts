import { contrast } from './contrast.ts';
import type { Palette } from './tokens.ts';

/** Least contrast of text on its ground. Source: WCAG 2.2, success criterion 1.4.3. */
const LEGIBLE = 4.5;

const channels = (hex: string): number[] => [1, 3, 5].map((at) => Number.parseInt(hex.slice(at, at + 2), 16));

/** A colour between two: `share` of the other in the one. */
function mixed(one: string, other: string, share: number): string {
  const ends = channels(other);
  const parts = channels(one).map((value, i) => Math.round(value + ((ends[i] ?? 0) - value) * share));
  return `#${parts.map((value) => value.toString(16).padStart(2, '0')).join('')}`;
}

/** The first of a row of ever darker (or lighter) colours that is legible on all grounds; the last, when none is. */
function legible(colour: string, towards: string, grounds: readonly string[]): string {
  for (let share = 0; share < 1; share += 0.05) {
    const tried = mixed(colour, towards, share);
    if (grounds.every((ground) => contrast(tried, ground) >= LEGIBLE)) return tried;
  }
  return towards;
}

/**
 * A palette with another accent: as near to it as text in it stays legible on every ground of the palette; the tints
 * follow.
 *
 * @param palette - the palette to change
 * @param accent - colour as `#rrggbb`
 */
export function themed(palette: Palette, accent: string): Palette {
  const accentSoft = mixed(palette.sheet, accent, 0.12);
  const plastic = mixed(palette.sheet, accent, 0.15);
  const grounds = [palette.paper, palette.sheet, palette.metal, accentSoft, plastic];
  const text = legible(accent, palette.ink, grounds);
  const onAccent = contrast(palette.sheet, text) > contrast(palette.ink, text) ? palette.sheet : palette.ink;
  return { ...palette, accent: text, accentSoft, plastic, onAccent };
}
