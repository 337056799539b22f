import type { APIRoute, GetStaticPaths } from 'astro';
import type { Sheet } from '../../../sheet/sheet.ts';
import { siteData } from '../../../site/site-data.ts';
import { specOf } from '../../../sheet/spec.ts';

export const getStaticPaths = (async () => {
  const { sheets } = await siteData();
  return sheets.map((sheet) => ({ params: { id: sheet.id }, props: { sheet } }));
}) satisfies GetStaticPaths;

/** The machine-readable twin of a sheet. */
export const GET: APIRoute<{ sheet: Sheet }> = ({ props }) => Response.json(specOf(props.sheet));
