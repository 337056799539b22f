import type { APIRoute, GetStaticPaths } from 'astro';
import { sheetDrawing } from '../../../components/sheet/drawings.ts';
import type { Layout } from '../../../drawing/layout.ts';
import { cutsOf } from '../../../sheet/cuts.ts';
import type { Sheet } from '../../../sheet/sheet.ts';
import { siteData } from '../../../site/site-data.ts';

const LAYOUTS: readonly Layout[] = ['wide', 'compact'];

export const getStaticPaths = (async () => {
  const { sheets } = await siteData();
  return sheets.flatMap((sheet) =>
    LAYOUTS.map((layout) => ({ params: { id: sheet.id, layout }, props: { sheet, layout } })),
  );
}) satisfies GetStaticPaths;

/** The bait's drawing as a file of its own, with its title block. */
export const GET: APIRoute<{ sheet: Sheet; layout: Layout }> = ({ props: { sheet, layout } }) => {
  const { svg } = sheetDrawing(sheet, cutsOf(sheet.geometry), {
    layout,
    prefix: 'drawing',
    standalone: 'auto',
  });
  return new Response(svg, { headers: { 'Content-Type': 'image/svg+xml' } });
};
