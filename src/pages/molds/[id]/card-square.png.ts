import type { APIRoute, GetStaticPaths } from 'astro';
import { cardFacts } from '../../../card/facts.ts';
import type { Sheet } from '../../../sheet/sheet.ts';
import { siteData } from '../../../site/site-data.ts';
import { cardFile } from '../../_cards.ts';

export const getStaticPaths = (async () => {
  const { sheets } = await siteData();
  return sheets.map((sheet) => ({ params: { id: sheet.id }, props: { sheet } }));
}) satisfies GetStaticPaths;

/** The card for square feeds. */
export const GET: APIRoute<{ sheet: Sheet }> = ({ props }) => cardFile(cardFacts(props.sheet), 'square');
