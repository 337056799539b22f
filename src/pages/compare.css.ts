import type { APIRoute } from 'astro';
import { compareStyles } from '../components/browse/styles.ts';
import { siteData } from '../site/site-data.ts';

/** Rules by which the form of the comparison works without a script. */
export const GET: APIRoute = async () => {
  const { sheets } = await siteData();
  return new Response(compareStyles(sheets), { headers: { 'Content-Type': 'text/css' } });
};
