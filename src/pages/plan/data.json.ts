import type { APIRoute } from 'astro';
import { planData } from '../../sheet/plan-data.ts';
import { siteData } from '../../site/site-data.ts';

/** Every mold, compound and injector, for the planner. */
export const GET: APIRoute = async () => {
  const { catalogue, sheets } = await siteData();
  return Response.json(planData(catalogue, sheets));
};
