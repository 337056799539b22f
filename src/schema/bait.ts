import { z } from 'zod';
import { COLOURS } from './colour.ts';
import { date, filePath, key, quantity, reference, text } from './fields.ts';
import { RIGS } from './rigs.ts';

const at = (description: string) =>
  quantity('length', { min: '-500 mm', max: '500 mm', example: '12 mm' }, description);
const size = (description: string) =>
  quantity('length', { min: '0.05 mm', max: '500 mm', example: '6 mm' }, description);
const turn = (description: string) =>
  quantity('angle', { min: '-720 deg', max: '720 deg', example: '30 deg' }, description);

const stationSchema = z.strictObject({
  at: at('Distance from the nose along the bait'),
  width: size('Full width across, in the parting plane'),
  above: quantity(
    'length',
    { min: '0 mm', max: '250 mm', example: '4 mm' },
    'Height above the parting plane',
  ),
  below: quantity('length', { min: '0 mm', max: '250 mm', example: '4 mm' }, 'Depth below the parting plane'),
  roundness: z.number().min(1.2).max(10).default(2).meta({
    description: 'Superellipse exponent of the outline: 2 is an ellipse, larger is boxier',
    limits: '1.2 to 10',
  }),
});

const rootTip = (what: string) =>
  z
    .strictObject({
      root: size(`${what} at the root`),
      middle: size(`${what} half-way`).optional(),
      tip: size(`${what} at the tip`),
    })
    .meta({ description: `${what} along the appendage` });

const appendageSchema = z.strictObject({
  name: key('Name used in figures and answers'),
  kind: z
    .enum(['curl-tail', 'ribbon-tail', 'paddle', 'arm', 'claw', 'leg', 'rib', 'fin'])
    .meta({ description: 'What it is; decides the shape that is lofted and the words on the sheet' }),
  root: z
    .strictObject({
      at: at('Distance of the root from the nose'),
      across: at('Offset across, in the parting plane').optional(),
      up: at('Offset out of the parting plane').optional(),
    })
    .meta({ description: 'Where it starts, inside the body' }),
  direction: turn(
    'Where it points at the root, in the parting plane: 0° is straight back, 90° is across',
  ).optional(),
  length: size('Length along its own middle line; of a rib, how far it stands out of the body'),
  width: rootTip('Width in the parting plane; of a rib, its width along the bait'),
  thickness: rootTip('Thickness out of the parting plane; left out, the same as the width').optional(),
  curl: turn('How far its middle line turns from root to tip, in the parting plane').optional(),
  mirrored: z.boolean().default(false).meta({ description: 'True adds its mirror image across the middle' }),
  count: z
    .int()
    .min(1)
    .max(60)
    .default(1)
    .meta({ description: 'How many, in a row along the bait (ribs)', limits: '1 to 60' }),
  pitch: size('Distance between neighbours in the row').optional(),
});

const pointSchema = z.tuple([at('along'), at('across'), at('up')]);

const meshFeatureSchema = z
  .strictObject({
    name: key('Name used in figures and answers'),
    kind: appendageSchema.shape.kind,
    point: pointSchema.optional().meta({
      description:
        'A point on the thin part: along, across, up. The part is followed from there to its tip and, towards the body, to where it grows thick; or give `box`',
    }),
    box: z
      .strictObject({
        from: pointSchema.meta({ description: 'One corner: along, across, up' }),
        to: pointSchema.meta({ description: 'The opposite corner' }),
      })
      .optional()
      .meta({
        description:
          'The part of the bait that is this feature, measured inside the box; or give `point`, where the part stands off the body with a step',
      }),
    root: z
      .enum(['front', 'back', 'left', 'right', 'bottom', 'top'])
      .optional()
      .meta({ description: 'Side of the box where the feature joins the body; left out, the front' }),
  })
  .refine(({ point, box }) => (point === undefined) !== (box === undefined), {
    message: 'a feature of a mesh is named either by `point` or by `box`',
  })
  .refine(({ point, root }) => point === undefined || root === undefined, {
    path: ['root'],
    message: 'the root of a part named by `point` is found from the solid: leave `root` out',
  });

const rounding = (end: string) =>
  quantity(
    'length',
    { min: '0 mm', max: '250 mm', example: '3 mm' },
    `Length over which the ${end} is rounded off; left out, half the smaller size of the section there`,
  ).optional();

const sectionsGeometry = z.strictObject({
  noseRounding: rounding('nose'),
  tailRounding: rounding('tail'),
  stations: z
    .array(stationSchema)
    .min(3)
    .max(80)
    .meta({ description: 'Sections of the body from nose to tail, in order' }),
  appendages: z
    .array(appendageSchema)
    .max(24)
    .default([])
    .meta({ description: 'Tails, arms, claws, legs, paddles and ribs' }),
});

const meshGeometry = z.strictObject({
  file: filePath(['stl', '3mf', 'obj'], 'The mesh, below the catalogue folder', {
    pattern: /\.(?:step|stp)$/iu,
    sentence:
      'is a STEP file, which is not read; export STL (with its unit stated), 3MF or OBJ from the CAD program',
  }),
  unit: z
    .enum(['mm', 'in', 'cm', 'm'])
    .optional()
    .meta({ description: 'Unit of the file; compulsory for STL and OBJ, which carry none' }),
  length: size('Overall length as drawn; the mesh must measure the same within 2 %'),
  axes: z
    .strictObject({
      nose: z
        .enum(['-x', '+x', '-y', '+y', '-z', '+z'])
        .meta({ description: 'Axis of the file that points to the nose' }),
      out: z
        .enum(['-x', '+x', '-y', '+y', '-z', '+z'])
        .meta({ description: 'Axis of the file that points out of the parting plane' }),
    })
    .optional()
    .meta({ description: 'How the file lies; left out: nose towards -x, +z out of the parting plane' }),
  parting: at('Height of the parting plane in the file, along the out axis').optional(),
  features: z
    .array(meshFeatureSchema)
    .max(24)
    .default([])
    .meta({ description: 'Thin parts to measure and name' }),
});

const caliperSchema = z.strictObject({
  feature: key('Thin part that was measured'),
  at: z
    .enum(['root', 'tip', 'length', 'width'])
    .meta({ description: 'Thickness at root or tip, length along the part, or its widest width' }),
  value: size('What the caliper read on a cured bait'),
  tolerance: quantity(
    'length',
    { min: '0.001 mm', max: '2 mm', example: '0.05 mm' },
    'What the reading may be off, either way; left out, 0.05 mm',
  ).optional(),
  use: z
    .boolean()
    .default(false)
    .meta({ description: 'True: figures take this reading instead of the solid; false: it only confirms' }),
});

const revisionSchema = z.strictObject({
  id: key('Short mark of the revision, in order: a, b, c'),
  date: date('Day it was drawn'),
  note: text(600, 'What changed and why'),
  measured: z
    .array(caliperSchema)
    .max(40)
    .default([])
    .meta({ description: 'Sizes taken with a caliper on a cured bait of this revision' }),
  sections: sectionsGeometry
    .optional()
    .meta({ description: 'The bait as a table of sections; or give `mesh`' }),
  mesh: meshGeometry.optional().meta({ description: 'The bait as a mesh file; or give `sections`' }),
});

/** Families of bait that Partline has words for. */
export const FAMILIES = [
  'paddle-tail minnow',
  'curl-tail grub',
  'straight finesse worm',
  'salted stick worm',
  'craw',
  'drop-shot minnow',
  'ribbon-tail worm',
  'lizard',
] as const;

/** A bait design with its revisions. */
export const baitSchema = z.strictObject({
  name: text(60, 'Name of the design'),
  family: z.enum(FAMILIES).meta({ description: 'What kind of bait it is' }),
  summary: text(300, 'One or two sentences for the catalogue'),
  lies: z
    .enum(['on its belly', 'on its side'])
    .meta({ description: 'How the bait lies in the mold: which way is up when it swims' }),
  rigs: z.array(z.enum(RIGS)).min(1).meta({ description: 'Rigs it is made for, the usual one first' }),
  plastisol: reference('plastisols', 'Compound it is designed for'),
  colour: z
    .enum(COLOURS)
    .optional()
    .meta({ description: 'Plastic colour of its rendered picture; left out, one that suits its family' }),
  split: at('Where a two-colour bait changes colour, from the nose').optional(),
  revisions: z
    .array(
      revisionSchema.refine(
        (revision) => (revision.sections === undefined) !== (revision.mesh === undefined),
        {
          error: 'wants exactly one of `sections` and `mesh`',
        },
      ),
    )
    .min(1)
    .max(40)
    .meta({ description: 'Every revision of the shape, oldest first' }),
});

/** A bait design, read: lengths in metres, angles in radians. */
export type Bait = z.output<typeof baitSchema>;
/** One revision of a bait. */
export type Revision = Bait['revisions'][number];
/** A size taken with a caliper on a cured bait. */
export type CaliperEntry = Revision['measured'][number];
/** A bait as a table of sections. */
export type SectionTable = z.output<typeof sectionsGeometry>;
/** A bait as a mesh file. */
export type MeshGeometry = z.output<typeof meshGeometry>;
