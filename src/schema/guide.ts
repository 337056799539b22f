import { z } from 'zod';
import { text } from './fields.ts';

/** Front matter of a guide in MDX. */
export const guideSchema = z.strictObject({
  title: text(80, 'Title of the page'),
  summary: text(240, 'One or two sentences for lists and search'),
  order: z.int().min(1).max(99).meta({ description: 'Place in the list of guides', limits: '1 to 99' }),
});

/** Front matter of a guide, read. */
export type Guide = z.output<typeof guideSchema>;

/** Components that a guide may hold, each with the attributes that it takes. */
export const GUIDE_COMPONENTS = {
  Caution: ['id', 'signal', 'hazard', 'consequence', 'sign'],
  EveryMold: ['of'],
  Figure: ['mold', 'of'],
  ForYourMold: ['answer'],
} as const;

/** Elements of HTML that a guide may hold, without attributes. */
export const GUIDE_ELEMENTS = ['br', 'kbd', 'sub', 'sup'] as const;
