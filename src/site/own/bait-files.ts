import { baitCardFacts } from '../../card/facts.ts';
import { cardPng } from '../../card/png.ts';
import type { Sheet } from '../../sheet/sheet.ts';
import { cardFonts } from '../card-fonts.ts';
import type { OwnFile } from './own-file.ts';

/**
 * Every file of a bait besides its pages: its cards.
 *
 * @param sheet - of the first of its molds
 */
export function baitFiles(sheet: Sheet): OwnFile[] {
  const card = (name: string, size: 'wide' | 'square'): OwnFile => ({
    name,
    type: 'image/png',
    make: async () => cardPng(baitCardFacts(sheet), size, await cardFonts()),
  });
  return [card('card.png', 'wide'), card('card-square.png', 'square')];
}
