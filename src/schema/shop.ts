import { z } from 'zod';
import { filePath, text, webAddress } from './fields.ts';

/** The maker: one entry, `shop.yaml`. */
export const shopSchema = z.strictObject({
  name: text(80, 'Name as customers know it'),
  tagline: text(160, 'One sentence under the name').optional(),
  site: webAddress('Address the site is published at; share cards, feeds and QR codes are built from it'),
  contact: z
    .strictObject({
      email: z
        .email()
        .max(120)
        .meta({ description: 'Address that customers write to', example: 'hello@example.com' })
        .optional(),
      page: webAddress('A page with a form').optional(),
      post: text(300, 'Postal address, where the law wants one on an offer').optional(),
    })
    .meta({ description: 'How to reach the maker' }),
  units: z
    .enum(['us', 'metric'])
    .meta({ description: 'Which units to show first; both are always on the page' }),
  look: z
    .strictObject({
      accent: z
        .string()
        .regex(/^#[0-9a-f]{6}$/u, { error: 'wants a colour like "#8a3b12", in quotes' })
        .optional()
        .meta({
          description: 'Colour of links and lines; darkened or lightened until text in it is legible',
          example: '#8a3b12',
        }),
      type: z
        .enum(['drawn', 'system'])
        .default('drawn')
        .meta({ description: 'Typeface: the lettering that comes along, or that of the reader' }),
      logo: filePath(
        ['png', 'svg', 'webp', 'jpg'],
        'Sign beside the name, below the catalogue folder',
      ).optional(),
    })
    .default({ type: 'drawn' })
    .meta({ description: 'The look, as far as it is yours' }),
  invented: z
    .boolean()
    .default(false)
    .meta({ description: 'True marks the whole catalogue as invented, on every page' }),
});

/** The maker, read. */
export type Shop = z.output<typeof shopSchema>;
