import { readCardFonts, type CardFont } from '../io/fonts.ts';

let kept: Promise<CardFont[]> | undefined;

/** The faces of the share cards, read once a build. */
export function cardFonts(): Promise<CardFont[]> {
  kept ??= readCardFonts();
  return kept;
}
