import { z } from 'zod';
import { quantity, sourceSchema, text } from './fields.ts';

/** A hand injector. */
export const injectorSchema = z.strictObject({
  name: text(80, 'Generic name: "4 fl oz hand injector"'),
  capacity: quantity('volume', { min: '5 mL', max: '2 L', example: '4 fl oz' }, 'Volume of one full stroke'),
  piston: quantity('length', { min: '8 mm', max: '100 mm', example: '38 mm' }, 'Piston diameter'),
  source: sourceSchema.meta({ description: 'Where the dimensions come from' }),
});

/** A hand injector, read: SI inside. */
export type Injector = z.output<typeof injectorSchema>;
