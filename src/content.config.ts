import { defineCollection } from 'astro:content';
import { glob } from 'astro/loaders';
import { join } from 'node:path';
import { catalogueLoader } from './io/collection-loader.ts';
import { contentFolder } from './io/settings.ts';
import { COLLECTIONS, guideSchema, shopSchema } from './schema/collections.ts';

/** Every collection of the catalogue, typed by its schema; quantities come out in SI. */
export const collections = {
  shop: defineCollection({ loader: catalogueLoader('shop'), schema: shopSchema }),
  baits: defineCollection({ loader: catalogueLoader('baits'), schema: COLLECTIONS.baits }),
  molds: defineCollection({ loader: catalogueLoader('molds'), schema: COLLECTIONS.molds }),
  plastisols: defineCollection({ loader: catalogueLoader('plastisols'), schema: COLLECTIONS.plastisols }),
  hooks: defineCollection({ loader: catalogueLoader('hooks'), schema: COLLECTIONS.hooks }),
  injectors: defineCollection({ loader: catalogueLoader('injectors'), schema: COLLECTIONS.injectors }),
  trials: defineCollection({ loader: catalogueLoader('trials'), schema: COLLECTIONS.trials }),
  guides: defineCollection({
    loader: glob({ pattern: '*.mdx', base: join(contentFolder(), 'guides'), retainBody: false }),
    schema: guideSchema,
  }),
};
