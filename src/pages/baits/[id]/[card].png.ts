import type { APIRoute, GetStaticPaths } from 'astro';
import { baitFiles } from '../../../site/own/bait-files.ts';
import type { OwnFile } from '../../../site/own/own-file.ts';
import { ownData } from '../../../site/site-data.ts';
import { answered } from '../../_own-file.ts';

/** For a preview only: a build writes the cards itself, on every core. */
export const getStaticPaths = (async () => {
  if (import.meta.env.PROD) return [];
  const { sheets } = await ownData();
  const ofBait = new Map([...sheets].reverse().map((sheet) => [sheet.bait.id, sheet]));
  return [...ofBait].flatMap(([id, sheet]) =>
    baitFiles(sheet).map((file) => ({
      params: { id, card: file.name.replace(/\.png$/u, '') },
      props: { file },
    })),
  );
}) satisfies GetStaticPaths;

/** A card of a bait, from the first of its molds. */
export const GET: APIRoute<{ file: OwnFile }> = ({ props: { file } }) => answered(file);
