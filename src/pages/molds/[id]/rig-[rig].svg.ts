import type { APIRoute, GetStaticPaths } from 'astro';
import { rigDrawing, rigName } from '../../../components/sheet/rig-drawing.ts';
import type { RigAdvice, Sheet } from '../../../sheet/sheet.ts';
import { siteData } from '../../../site/site-data.ts';

export const getStaticPaths = (async () => {
  const { sheets } = await siteData();
  return sheets.flatMap((sheet) =>
    sheet.rigs.map((advice) => ({
      params: { id: sheet.id, rig: rigName(advice.rig) },
      props: { sheet, advice },
    })),
  );
}) satisfies GetStaticPaths;

/** The hook of a rig drawn in the bait, as a file of its own with its title block. */
export const GET: APIRoute<{ sheet: Sheet; advice: RigAdvice }> = ({ props: { sheet, advice } }) => {
  const { svg } = rigDrawing(sheet, advice, { layout: 'compact', prefix: 'rig', standalone: 'auto' });
  return new Response(svg, { headers: { 'Content-Type': 'image/svg+xml' } });
};
