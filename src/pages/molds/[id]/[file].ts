import type { APIRoute, GetStaticPaths } from 'astro';
import { moldFiles } from '../../../site/own/mold-files.ts';
import type { OwnFile } from '../../../site/own/own-file.ts';
import { ownData } from '../../../site/site-data.ts';
import { answered } from '../../_own-file.ts';

/** For a preview only: a build writes these files itself, on every core. */
export const getStaticPaths = (async () => {
  if (import.meta.env.PROD) return [];
  const { sheets, shared } = await ownData();
  const all = sheets.map(async (sheet) =>
    (await moldFiles(sheet, shared)).map((file) => ({
      params: { id: sheet.id, file: file.name },
      props: { file },
    })),
  );
  return (await Promise.all(all)).flat();
}) satisfies GetStaticPaths;

/** A file of a mold: data, a card, a drawing, a picture. */
export const GET: APIRoute<{ file: OwnFile }> = ({ props: { file } }) => answered(file);
