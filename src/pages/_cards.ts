import type { CardFacts } from '../card/facts.ts';
import { cardPng } from '../card/png.ts';
import type { CardSize } from '../card/layout.ts';
import { cardFonts } from '../site/card-fonts.ts';

/** A share card as the file that its address gives. */
export async function cardFile(facts: CardFacts, size: CardSize): Promise<Response> {
  const png = await cardPng(facts, size, await cardFonts());
  return new Response(new Uint8Array(png), { headers: { 'Content-Type': 'image/png' } });
}
