import { defineCollection } from 'astro:content';
import { glob } from 'astro/loaders';
import { guideSchema } from './schema/guide.ts';

const folder = process.env['CONTENT_DIR'] ?? 'content';

/** Guides in MDX; every other collection is read by `src/io`, which gives its own, plainer errors. */
export const collections = {
  guides: defineCollection({
    loader: glob({ pattern: '*.mdx', base: `${folder}/guides`, retainBody: false }),
    schema: guideSchema,
  }),
};
