import type { APIRoute, GetStaticPaths } from 'astro';
import {
  drawingFile,
  drawingFiles,
  sheetDrawing,
  type DrawingFile,
} from '../../../components/sheet/drawings.ts';
import type { Sheet } from '../../../sheet/sheet.ts';
import { siteData } from '../../../site/site-data.ts';

export const getStaticPaths = (async () => {
  const { sheets } = await siteData();
  return sheets.flatMap((sheet) =>
    drawingFiles(sheet).map((file) => ({
      params: { id: sheet.id, name: drawingFile(file).replace(/^drawing-|\.svg$/gu, '') },
      props: { sheet, file },
    })),
  );
}) satisfies GetStaticPaths;

/** A drawing as a file of its own. */
export const GET: APIRoute<{ sheet: Sheet; file: DrawingFile }> = ({ props: { sheet, file } }) => {
  const { drawing, layout, view } = file;
  const options = { layout, prefix: 'drawing', standalone: 'auto', titled: !view } as const;
  const { svg } = sheetDrawing(sheet, drawing, options);
  return new Response(svg, { headers: { 'Content-Type': 'image/svg+xml' } });
};
