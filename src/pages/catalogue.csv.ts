import type { APIRoute } from 'astro';
import { catalogueCsv } from '../components/export/csv.ts';
import { siteData } from '../site/site-data.ts';

/** Every published mold in a table. */
export const GET: APIRoute = async () => {
  const { sheets } = await siteData();
  return new Response(catalogueCsv(sheets), { headers: { 'Content-Type': 'text/csv; charset=utf-8' } });
};
