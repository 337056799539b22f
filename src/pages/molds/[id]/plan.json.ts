import type { APIRoute, GetStaticPaths } from 'astro';
import { planData } from '../../../sheet/plan-data.ts';
import type { Sheet } from '../../../sheet/sheet.ts';
import { siteData } from '../../../site/site-data.ts';

export const getStaticPaths = (async () => {
  const { sheets } = await siteData();
  return sheets.map((sheet) => ({ params: { id: sheet.id }, props: { sheet } }));
}) satisfies GetStaticPaths;

/** One mold, every compound and injector, for the planner on its sheet. */
export const GET: APIRoute<{ sheet: Sheet }> = async ({ props: { sheet } }) => {
  const { catalogue } = await siteData();
  return Response.json(planData(catalogue, [sheet]));
};
