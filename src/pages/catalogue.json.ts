import type { APIRoute } from 'astro';
import { fullAddress } from '../components/address.ts';
import { siteData } from '../site/site-data.ts';

/** Every published mold with where to find its figures. */
export const GET: APIRoute = async () => {
  const { catalogue, sheets } = await siteData();
  const { site } = catalogue.shop;
  const molds = sheets.map(({ id, title, mold, bait, revision, verdicts }) => ({
    id,
    title,
    stock: mold.stock,
    status: mold.status,
    bait: { id: bait.id, name: bait.name, family: bait.family, revision: revision.id },
    cavities: mold.cavities.length,
    cold: verdicts.cold.code,
    url: fullAddress(`molds/${id}/`, site),
    spec: fullAddress(`molds/${id}/spec.json`, site),
  }));
  return Response.json({
    format: 'partline-catalogue/1',
    maker: catalogue.shop.name,
    invented: catalogue.shop.invented,
    molds,
  });
};
