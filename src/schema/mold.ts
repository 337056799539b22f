import { z } from 'zod';
import { date, filePath, key, quantity, reference, text, webAddress } from './fields.ts';

const size = (description: string, min = '0.5 mm', max = '600 mm', example = '6 mm') =>
  quantity('length', { min, max, example }, description);
const place = (description: string) =>
  quantity('length', { min: '-600 mm', max: '600 mm', example: '25 mm' }, description);
const thin = (description: string) =>
  quantity('length', { min: '0.0002 in', max: '2 mm', example: '0.0015 in' }, description);

const cavitySchema = z.strictObject({
  revision: key('Revision of the bait cut in this cavity'),
  x: place('Where the nose lies, along the block from its left edge').optional(),
  y: place('Where the middle line lies, from the lower edge').optional(),
  turn: quantity(
    'angle',
    { min: '-360 deg', max: '360 deg', example: '180 deg' },
    'Turned in the parting plane',
  ).optional(),
  mirrored: z.boolean().default(false).meta({ description: 'True mirrors the bait across its middle line' }),
});

const ventSchema = z.strictObject({
  tier: z
    .enum(['edge', 'collector', 'outlet'])
    .meta({ description: 'Edge vents touch the cavity; collectors gather them; outlets lead outside' }),
  depth: thin('Depth cut into the parting face'),
  width: size('Width of one vent', '0.2 mm', '60 mm'),
  land: size('Length in the direction of flow', '0.2 mm', '200 mm'),
  count: z.int().min(1).max(400).meta({ description: 'How many on each cavity', limits: '1 to 400' }),
});

const listingSchema = z.strictObject({
  price: z
    .strictObject({
      amount: z
        .number()
        .min(0.01)
        .max(100000)
        .meta({ description: 'Price of one mold', limits: '0.01 to 100 000' }),
      currency: z
        .string()
        .regex(/^[A-Z]{3}$/u, { error: 'wants three capital letters, like USD' })
        .meta({ description: 'ISO 4217 code', example: 'USD' }),
    })
    .optional()
    .meta({ description: 'Price, if it is shown' }),
  buy: webAddress('Where to order it').optional(),
  leadTime: quantity(
    'time',
    { min: '1 d', max: '52 weeks', example: '3 weeks' },
    'From order to shipping',
  ).optional(),
  inTheBox: z.array(text(120, 'One item')).max(20).default([]).meta({ description: 'What is in the box' }),
  photos: z
    .array(
      z.strictObject({
        file: filePath(['jpg', 'jpeg', 'png', 'webp', 'avif'], 'The picture, below the catalogue folder'),
        alt: text(240, 'What it shows, in words'),
      }),
    )
    .max(12)
    .default([])
    .meta({ description: 'Pictures; location and camera data are stripped' }),
});

/** A mold listing. */
export const moldSchema = z.strictObject({
  name: text(80, 'Name of the listing'),
  stock: z
    .string()
    .regex(/^[A-Z0-9][A-Z0-9-]{1,23}$/u, { error: 'wants capital letters, digits and dashes' })
    .meta({
      description: 'Stock number',
      limits: '2 to 24 capital letters, digits and dashes',
      example: 'TT-GRUB-4',
    }),
  status: z
    .enum(['development', 'proof', 'final', 'retired'])
    .meta({ description: 'Only `final` and `retired` molds are published' }),
  released: date('Day this listing was first published').optional(),
  replacedBy: reference('molds', 'For a retired mold: the published mold to buy instead').optional(),
  bait: reference('baits', 'The bait it makes'),
  from: quantity(
    'length',
    { min: '1 mm', max: '500 mm', example: '30 mm' },
    'For a mold of the rear part only, a tail to set on another body: where the bait is cut off, from the nose',
  ).optional(),
  cavities: z
    .array(cavitySchema)
    .min(1)
    .max(48)
    .meta({ description: 'One entry a cavity, with the revision cut in it' }),
  block: z
    .strictObject({
      length: size('Length of the block', '20 mm', '1 m', '150 mm'),
      width: size('Width of the block', '20 mm', '1 m', '4 in'),
      thickness: size('Thickness of both halves together', '8 mm', '200 mm', '1 in'),
      alloy: z.enum(['6061-T6']).meta({ description: 'Alloy of both halves' }),
      finish: z
        .enum(['bare', 'anodised'])
        .default('bare')
        .meta({ description: 'Surface outside; decides how fast it sheds heat' }),
    })
    .meta({ description: 'The closed block' }),
  sprue: z
    .strictObject({
      mouth: size('Diameter at the mouth', '2 mm', '40 mm'),
      end: size('Diameter where it meets the runner', '1 mm', '40 mm'),
      length: size('Length', '2 mm', '200 mm'),
    })
    .meta({ description: 'The tapered hole that the injector sits on' }),
  runner: z
    .strictObject({
      diameter: size('Diameter of the round runner', '1 mm', '30 mm'),
      length: size(
        'Length of all runners together, where it was measured; worked out from the layout when left out',
        '0.5 mm',
        '3 m',
      ).optional(),
    })
    .optional()
    .meta({ description: 'Channels from the sprue to the gates; left out when the sprue feeds the cavity' }),
  gate: z
    .strictObject({
      width: size('Width', '0.5 mm', '40 mm'),
      depth: size('Depth over both halves', '0.3 mm', '30 mm'),
      length: size('Length', '0.2 mm', '60 mm'),
      at: z.enum(['nose', 'tail', 'side']).default('nose').meta({ description: 'Where it enters the bait' }),
    })
    .meta({ description: 'The last passage into each cavity' }),
  vents: z.array(ventSchema).max(12).default([]).meta({ description: 'Vent tiers from the cavity outwards' }),
  pins: z
    .strictObject({
      count: z.int().min(0).max(12).meta({ description: 'How many', limits: '0 to 12' }),
      diameter: size('Diameter', '2 mm', '20 mm'),
    })
    .optional()
    .meta({ description: 'Alignment pins' }),
  warmTo: quantity(
    'temperature',
    { min: '30 °C', max: '75 °C', example: '100 °F' },
    'Block temperature that customers are told to warm the mold to before the first shot; left out for a mold that is shot cold. Sheet, answers and the check take the fill verdict there',
  ).optional(),
  clamping: text(200, 'How it is held shut').optional(),
  measured: z
    .strictObject({
      mass: quantity(
        'mass',
        { min: '0.05 g', max: '500 g', example: '6.1 g' },
        'One cured bait, weighed',
      ).optional(),
    })
    .optional()
    .meta({ description: 'What was weighed on the bench; compared with the computed figure' }),
  listing: listingSchema
    .default({ inTheBox: [], photos: [] })
    .meta({ description: 'What a buyer needs; nothing of it is required' }),
  prose: text(2000, 'A paragraph about this mold').optional(),
});

/** A mold listing, read: SI inside. */
export type Mold = z.output<typeof moldSchema>;
/** One vent tier of a mold. */
export type VentTier = Mold['vents'][number];
