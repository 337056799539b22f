import type { APIRoute, GetStaticPaths } from 'astro';
import { publishedLogo } from '../site/logo.ts';
import { siteData } from '../site/site-data.ts';

/** One picture where the shop has a logo, none where it has not. */
export const getStaticPaths = (async () => {
  const { catalogue } = await siteData();
  const { logo } = catalogue.shop.look;
  return logo === undefined ? [] : [{ params: { logo: 'logo' }, props: { file: logo } }];
}) satisfies GetStaticPaths;

export const GET: APIRoute<{ file: string }> = async ({ props }) =>
  new Response(await publishedLogo(props.file), {
    headers: { 'Content-Type': 'image/png' },
  });
