import type { APIRoute, GetStaticPaths } from 'astro';
import { picturesOf, type Picture } from '../../../site/pictures.ts';
import { siteData } from '../../../site/site-data.ts';

type File = Picture['files'][number];

export const getStaticPaths = (async () => {
  const { sheets } = await siteData();
  const all = sheets.map(async (sheet) =>
    (await picturesOf(sheet)).pictures.flatMap(({ name, files }) =>
      files.map((file) => ({
        params: { id: sheet.id, name: `${name}-${file.width}`, format: file.format },
        props: { file },
      })),
    ),
  );
  return (await Promise.all(all)).flat();
}) satisfies GetStaticPaths;

/** One size of a picture in one format. */
export const GET: APIRoute<{ file: File }> = ({ props: { file } }) =>
  new Response(new Uint8Array(file.data), { headers: { 'Content-Type': `image/${file.format}` } });
