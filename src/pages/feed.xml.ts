import type { APIRoute } from 'astro';
import { sheetFeed } from '../components/export/feed.ts';
import { siteData } from '../site/site-data.ts';

/** New and revised sheets, as Atom. */
export const GET: APIRoute = async () => {
  const { catalogue, sheets } = await siteData();
  return new Response(sheetFeed(catalogue.shop, sheets, 'atom').atom1(), {
    headers: { 'Content-Type': 'application/atom+xml' },
  });
};
