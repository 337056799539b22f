import type { APIRoute, GetStaticPaths } from 'astro';
import { rigDrawing, rigFile } from '../../../components/sheet/rig-drawing.ts';
import type { RigAdvice, Sheet } from '../../../sheet/sheet.ts';
import { siteData } from '../../../site/site-data.ts';

export const getStaticPaths = (async () => {
  const { sheets } = await siteData();
  return sheets.flatMap((sheet) =>
    sheet.rigs.flatMap((advice) =>
      [false, true].map((view) => ({
        params: { id: sheet.id, rig: rigFile(advice.rig, view) },
        props: { sheet, advice, view },
      })),
    ),
  );
}) satisfies GetStaticPaths;

/** The hook of a rig drawn in the bait, as a file of its own. */
export const GET: APIRoute<{ sheet: Sheet; advice: RigAdvice; view: boolean }> = ({ props }) => {
  const { svg } = rigDrawing(props.sheet, props.advice, props.view);
  return new Response(svg, { headers: { 'Content-Type': 'image/svg+xml' } });
};
