import type { APIRoute } from 'astro';
import { getCollection, render } from 'astro:content';
import { findableOf } from '../answer/findable.ts';
import { packedIndex } from '../answer/packed-index.ts';
import type { Findable } from '../answer/search.ts';
import { printedBoth } from '../core/quantity/print.ts';
import { siteData } from '../site/site-data.ts';

async function guideParts(): Promise<Findable[]> {
  const guides = await getCollection('guides');
  const parts = guides.map(async (guide) => {
    const { headings } = await render(guide);
    const path = `guides/${guide.id}/`;
    const own = { title: guide.data.title, place: 'Guide', path, words: '', text: guide.data.summary };
    return [
      own,
      ...headings
        .filter(({ depth }) => depth > 1)
        .map(({ slug, text }) => ({
          title: text,
          place: guide.data.title,
          path: `${path}#${slug}`,
          words: '',
          text: '',
        })),
    ];
  });
  return (await Promise.all(parts)).flat();
}

async function* parts(): AsyncGenerator<Findable[]> {
  const { catalogue, sheets } = await siteData();
  const say = (figure: Parameters<typeof printedBoth>[0]) => printedBoth(figure, catalogue.shop.units);
  for (const sheet of sheets) yield findableOf(sheet, say);
  yield await guideParts();
}

/** What the search looks through. */
export const GET: APIRoute = async () => Response.json(await packedIndex(parts()));
