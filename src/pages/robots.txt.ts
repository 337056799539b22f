import type { APIRoute } from 'astro';
import { fullAddress } from '../components/address.ts';
import { siteData } from '../site/site-data.ts';

/** Everything may be read and listed. */
export const GET: APIRoute = async () => {
  const { catalogue } = await siteData();
  const map = fullAddress('sitemap.xml', catalogue.shop.site);
  return new Response(`User-agent: *\nAllow: /\nSitemap: ${map}\n`, {
    headers: { 'Content-Type': 'text/plain' },
  });
};
