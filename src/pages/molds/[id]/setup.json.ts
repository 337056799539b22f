import type { APIRoute, GetStaticPaths } from 'astro';
import { setupData } from '../../../sheet/fill-setup.ts';
import type { Sheet } from '../../../sheet/sheet.ts';
import { siteData } from '../../../site/site-data.ts';

export const getStaticPaths = (async () => {
  const { sheets } = await siteData();
  return sheets.map((sheet) => ({ params: { id: sheet.id }, props: { sheet } }));
}) satisfies GetStaticPaths;

/** What a customer's own set-up of a mold is answered from. */
export const GET: APIRoute<{ sheet: Sheet }> = ({ props: { sheet } }) => Response.json(setupData(sheet));
