import { z } from 'zod';
import { text, webAddress } from './fields.ts';

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
  invented: z
    .boolean()
    .default(false)
    .meta({ description: 'True marks the whole catalogue as invented, on every page' }),
});

/** The maker, read. */
export type Shop = z.output<typeof shopSchema>;
