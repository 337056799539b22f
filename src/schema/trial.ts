import { z } from 'zod';
import { date, key, quantity, reference, text } from './fields.ts';

/** A water test of one revision. */
export const trialSchema = z.strictObject({
  date: date('Day of the test'),
  bait: reference('baits', 'Bait that was swum'),
  revision: key('Revision that was swum'),
  plastisol: reference('plastisols', 'Compound it was shot in'),
  colour: text(60, 'Colour of the bait'),
  clarity: z.enum(['clear', 'stained', 'muddy']).meta({ description: 'Water clarity' }),
  rig: z
    .enum(['Texas', 'Carolina', 'shaky head', 'jig trailer', 'drop shot', 'weightless', 'jig head'])
    .meta({ description: 'Rig it was swum on' }),
  retrieve: quantity('speed', { min: '0.02 m/s', max: '3 m/s', example: '0.3 m/s' }, 'Retrieve speed'),
  features: z
    .array(
      z.strictObject({
        name: key('Feature of the bait'),
        moved: z
          .enum(['moved', 'moved only fast', 'stopped below a speed', 'did not move'])
          .meta({ description: 'What it did' }),
      }),
    )
    .max(24)
    .default([])
    .meta({ description: 'What each feature did; left out for a bait without thin parts' }),
  passed: z.boolean().meta({ description: 'Whether the bait did what it was designed for' }),
  fish: z.boolean().default(false).meta({ description: 'Whether a fish was caught' }),
  seen: z
    .enum(['well', 'hardly', 'not'])
    .optional()
    .meta({ description: 'How well the bait could be seen in that water, to watch it swim' }),
  note: text(600, 'What was seen').optional(),
});

/** A water test, read: SI inside. */
export type Trial = z.output<typeof trialSchema>;
