import type { APIRoute, GetStaticPaths } from 'astro';
import { cardFacts } from '../../../card/facts.ts';
import { cardPng } from '../../../card/png.ts';
import type { Sheet } from '../../../sheet/sheet.ts';
import { cardFonts } from '../../../site/card-fonts.ts';
import { siteData } from '../../../site/site-data.ts';

export const getStaticPaths = (async () => {
  const { sheets } = await siteData();
  return sheets.map((sheet) => ({ params: { id: sheet.id }, props: { sheet } }));
}) satisfies GetStaticPaths;

/** The card that is shown where a sheet's address is shared. */
export const GET: APIRoute<{ sheet: Sheet }> = async ({ props }) => {
  const png = await cardPng(cardFacts(props.sheet), 'wide', await cardFonts());
  return new Response(new Uint8Array(png), { headers: { 'Content-Type': 'image/png' } });
};
