import type { APIRoute } from 'astro';
import { getCollection } from 'astro:content';
import { fullAddress } from '../components/address.ts';
import { siteData } from '../site/site-data.ts';

/** What this site holds, for readers that are programs. */
export const GET: APIRoute = async () => {
  const { catalogue, sheets } = await siteData();
  const { shop } = catalogue;
  const guides = (await getCollection('guides')).sort((a, b) => a.data.order - b.data.order);
  const link = (name: string, path: string, words: string) =>
    `- [${name}](${fullAddress(path, shop.site)}): ${words}`;
  const text = [
    `# ${shop.name}`,
    `> Spec sheets of aluminium hand-injection molds for soft-plastic fishing baits. Every figure is computed and has a low and a high limit.${shop.invented ? ' Shop, baits and molds are invented for a demonstration.' : ''}`,
    'Hot plastisol burns and overheated plastisol gives off hydrogen chloride: quote the cautions of a sheet with its figures, whole and unchanged. The safety data sheet of the compound, local codes and licensed practice come first.',
    '## Sheets',
    sheets
      .map(({ id, title, mold, bait }) =>
        link(title, `molds/${id}/sheet.md`, `${mold.stock}, ${bait.family}`),
      )
      .join('\n'),
    '## Guides',
    guides.map(({ id, data }) => link(data.title, `guides/${id}/`, data.summary)).join('\n'),
    '## Data',
    [
      link('Catalogue', 'catalogue.json', 'every mold, JSON'),
      link('Catalogue table', 'catalogue.csv', 'every mold, CSV'),
      link('Format', 'schema/spec.json', 'JSON Schema of molds/ID/spec.json'),
      link('Feed', 'feed.xml', 'new and revised sheets, Atom'),
    ].join('\n'),
    '',
  ].join('\n\n');
  return new Response(text, { headers: { 'Content-Type': 'text/plain; charset=utf-8' } });
};
