import type { APIRoute, GetStaticPaths } from 'astro';
import { sheetMarkdown } from '../../../components/export/markdown.ts';
import type { Sheet } from '../../../sheet/sheet.ts';
import { siteData } from '../../../site/site-data.ts';

export const getStaticPaths = (async () => {
  const { sheets } = await siteData();
  return sheets.map((sheet) => ({ params: { id: sheet.id }, props: { sheet } }));
}) satisfies GetStaticPaths;

/** The plain-text twin of a sheet. */
export const GET: APIRoute<{ sheet: Sheet }> = ({ props }) =>
  new Response(sheetMarkdown(props.sheet), { headers: { 'Content-Type': 'text/markdown; charset=utf-8' } });
