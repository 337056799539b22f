import { defineCollection } from 'astro:content';
import { catalogueLoader, guideLoader } from './io/collection-loader.ts';
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
  guides: defineCollection({ loader: guideLoader(), schema: guideSchema }),
};
