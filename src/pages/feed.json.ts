import type { APIRoute } from 'astro';
import { jsonFeed } from '../components/export/feed.ts';
import { siteData } from '../site/site-data.ts';

/** New and revised sheets, as JSON Feed. */
export const GET: APIRoute = async () => {
  const { catalogue, sheets } = await siteData();
  return new Response(jsonFeed(catalogue.shop, sheets), {
    headers: { 'Content-Type': 'application/feed+json' },
  });
};
