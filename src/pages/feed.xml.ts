import type { APIRoute } from 'astro';
import { atomFeed } from '../components/export/feed.ts';
import { siteData } from '../site/site-data.ts';

/** New and revised sheets, as Atom. */
export const GET: APIRoute = async () => {
  const { catalogue, sheets } = await siteData();
  return new Response(atomFeed(catalogue.shop, sheets), {
    headers: { 'Content-Type': 'application/atom+xml' },
  });
};
