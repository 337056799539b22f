import type { APIRoute } from 'astro';
import { getCollection } from 'astro:content';
import { fullAddress } from '../components/address.ts';
import { lastChanged } from '../components/export/dates.ts';
import { siteData } from '../site/site-data.ts';

const safe = (text: string) => text.replaceAll('&', '&amp;').replaceAll('<', '&lt;');

/** Every page that is meant to be found, with the day its data last changed. */
export const GET: APIRoute = async () => {
  const { catalogue, sheets, baitOf } = await siteData();
  const { site } = catalogue.shop;
  const guides = await getCollection('guides');
  const days = new Map(sheets.map((sheet) => [sheet.id, lastChanged(sheet)]));
  const newest = [...days.values()].reduce((a, b) => (a > b ? a : b), '');
  const baits = [...new Set(sheets.map(({ bait }) => bait.id))];
  const dayOfBait = (id: string) =>
    sheets
      .filter(({ bait }) => bait.id === id)
      .reduce((day, { id: mold }) => {
        const own = days.get(mold) ?? '';
        return own > day ? own : day;
      }, '');
  const pages: readonly { readonly path: string; readonly day: string }[] = [
    ...['', 'answers/', 'compare/', 'plan/'].map((path) => ({ path, day: newest })),
    ...sheets.map(({ id }) => ({ path: `molds/${id}/`, day: days.get(id) ?? '' })),
    ...baits.flatMap((id) => {
      const pairs = baitOf(id).comparisons.map(({ from, to }) => `${from}-${to}/`);
      return ['', ...pairs].map((rest) => ({ path: `baits/${id}/${rest}`, day: dayOfBait(id) }));
    }),
    { path: 'guides/', day: '' },
    ...guides.map(({ id }) => ({ path: `guides/${id}/`, day: '' })),
  ];
  const entries = pages.map(
    ({ path, day }) =>
      `<url><loc>${safe(fullAddress(path, site))}</loc>${day ? `<lastmod>${day}</lastmod>` : ''}</url>`,
  );
  const text = `<?xml version="1.0" encoding="UTF-8"?>\n<urlset xmlns="http://www.sitemaps.org/schemas/sitemap/0.9">\n${entries.join('\n')}\n</urlset>\n`;
  return new Response(text, { headers: { 'Content-Type': 'application/xml' } });
};
