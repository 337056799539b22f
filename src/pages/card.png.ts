import type { APIRoute } from 'astro';
import { siteCardPng } from '../card/site-card.ts';
import { cardFonts } from '../site/card-fonts.ts';
import { siteData } from '../site/site-data.ts';

/** The card that is shown where any page but a mold's or a bait's is shared. */
export const GET: APIRoute = async () => {
  const { catalogue, sheets } = await siteData();
  // A mold of a rear part alone shows less of its bait than the others do.
  const length = ({ box: { min, max } }: (typeof sheets)[number]['geometry']) => max[0] - min[0];
  const longestLast = [...sheets].sort((a, b) => length(a.geometry) - length(b.geometry));
  const plans = new Map(longestLast.map((sheet) => [sheet.bait.id, sheet.geometry.plan]));
  const { name: shop, invented } = catalogue.shop;
  const facts = { shop, invented, molds: sheets.length, plans: [...plans.values()] };
  return new Response(new Uint8Array(await siteCardPng(facts, await cardFonts())), {
    headers: { 'Content-Type': 'image/png' },
  });
};
