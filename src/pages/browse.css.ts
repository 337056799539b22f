import type { APIRoute } from 'astro';
import { browseStyles } from '../components/browse/styles.ts';
import { siteData } from '../site/site-data.ts';

/** Rules by which the form of the catalogue works without a script. */
export const GET: APIRoute = async () => {
  const { sheets } = await siteData();
  return new Response(browseStyles(sheets), { headers: { 'Content-Type': 'text/css' } });
};
