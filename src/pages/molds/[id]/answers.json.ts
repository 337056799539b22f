import type { APIRoute, GetStaticPaths } from 'astro';
import { replies } from '../../../answer/reply.ts';
import type { Sheet } from '../../../sheet/sheet.ts';
import { siteData } from '../../../site/site-data.ts';

export const getStaticPaths = (async () => {
  const { sheets } = await siteData();
  return sheets.map((sheet) => ({ params: { id: sheet.id }, props: { sheet } }));
}) satisfies GetStaticPaths;

/** Every reply of a sheet, ready to send. */
export const GET: APIRoute<{ sheet: Sheet }> = ({ props: { sheet } }) =>
  Response.json({ format: 'partline-answers/1', mold: sheet.id, replies: replies(sheet) });
