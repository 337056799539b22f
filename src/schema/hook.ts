import { z } from 'zod';
import { quantity, sourceSchema, text } from './fields.ts';
import { RIGS } from './rigs.ts';

const size = (description: string, max = '120 mm', example = '12 mm') =>
  quantity('length', { min: '0.2 mm', max, example }, description);

/** A hook pattern and its sizes. */
export const hookSchema = z.strictObject({
  name: text(80, 'Generic name of the pattern'),
  pattern: z
    .enum(['extra wide gap', 'offset worm', 'straight shank', 'jig', 'drop shot'])
    .meta({ description: 'Form of the hook' }),
  rigs: z.array(z.enum(RIGS)).min(1).meta({ description: 'Rigs it is used for' }),
  source: sourceSchema.meta({ description: 'Where the dimensions come from' }),
  sizes: z
    .array(
      z
        .strictObject({
          size: z
            .string()
            .regex(/^(?:[1-9]\d?|[1-9]\d?\/0)$/u, { error: 'wants a size like 4, 1 or 3/0, in quotes' })
            .meta({ description: 'Size mark, in quotes', example: '3/0' }),
          gape: size('Distance from point to shank'),
          length: size('Overall length'),
          bite: size('Throat: depth from the gape line to the bend'),
          shank: size('Eye to where the bend begins; left out, overall length less throat').optional(),
          offset: quantity(
            'length',
            { min: '0 mm', max: '40 mm', example: '6 mm' },
            'How far the shank steps off from the eye; left out, it is straight',
          ).optional(),
          wire: size('Wire diameter', '4 mm', '1.1 mm'),
          mass: quantity('mass', { min: '0.01 g', max: '30 g', example: '1.1 g' }, 'Mass of the bare hook'),
        })
        .refine(({ length, bite, shank = 0 }) => bite < length && shank < length, {
          error: 'wants throat and shank shorter than the overall length',
        }),
    )
    .min(1)
    .max(24)
    .meta({ description: 'Sizes from small to large' }),
});

/** A hook pattern, read: SI inside. */
export type Hook = z.output<typeof hookSchema>;
/** One size of a hook pattern. */
export type HookSize = Hook['sizes'][number];
