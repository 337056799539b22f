import type { APIRoute, GetStaticPaths } from 'astro';
import { photosOf, type Photo } from '../../../site/photos.ts';
import { siteData } from '../../../site/site-data.ts';

export const getStaticPaths = (async () => {
  const { sheets } = await siteData();
  const all = sheets.map(async (sheet) =>
    (await photosOf(sheet)).map((photo, index) => ({
      params: { id: sheet.id, number: String(index + 1) },
      props: { photo },
    })),
  );
  return (await Promise.all(all)).flat();
}) satisfies GetStaticPaths;

/** A photo of a listing. */
export const GET: APIRoute<{ photo: Photo }> = ({ props }) =>
  new Response(new Uint8Array(props.photo.data), { headers: { 'Content-Type': 'image/webp' } });
