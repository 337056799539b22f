import type { APIRoute } from 'astro';
import { browseStyles, compareStyles } from '../components/browse/styles.ts';
import { siteData } from '../site/site-data.ts';

/** Rules by which the forms of the catalogue and of the comparison work without a script. */
export const GET: APIRoute = async () => {
  const { sheets } = await siteData();
  return new Response(browseStyles(sheets) + compareStyles(sheets), {
    headers: { 'Content-Type': 'text/css' },
  });
};
