import type { APIRoute } from 'astro';
import { sheetFeed } from '../components/export/feed.ts';
import { siteData } from '../site/site-data.ts';

/** New and revised sheets, as JSON Feed. */
export const GET: APIRoute = async () => {
  const { catalogue, sheets } = await siteData();
  return new Response(sheetFeed(catalogue.shop, sheets, 'json').json1(), {
    headers: { 'Content-Type': 'application/feed+json' },
  });
};
