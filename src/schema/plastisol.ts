import { z } from 'zod';
import { banded, quantity, sourceSchema, text } from './fields.ts';

const shortShotSchema = z.strictObject({
  gap: quantity(
    'length',
    { min: '0.2 mm', max: '6 mm', example: '1 mm' },
    'Even gap of the slot that was shot',
  ),
  reach: quantity(
    'length',
    { min: '2 mm', max: '2 m', example: '38 mm' },
    'How far the plastic ran before it froze; the slot must be longer',
  ),
  push: quantity('force', { min: '5 N', max: '1000 N', example: '110 N' }, 'Steady push on the plunger'),
  piston: quantity('length', { min: '5 mm', max: '120 mm', example: '1 in' }, 'Bore of the injector'),
  pour: quantity(
    'temperature',
    { min: '120 °C', max: '210 °C', example: '330 °F' },
    'Melt as it went in, measured in the injector',
  ),
  mold: quantity('temperature', { min: '0 °C', max: '100 °C', example: '72 °F' }, 'The slot before the shot'),
});

/** A compound: what is poured. */
export const plastisolSchema = z.strictObject({
  name: text(80, 'Plain name: "medium compound"'),
  summary: text(300, 'What it is for'),
  recipe: z
    .strictObject({
      plasticiser: z
        .enum(['DINP', 'DEHT', 'DOA', 'ATBC', 'DEHP'])
        .meta({ description: 'Plasticiser, by its usual abbreviation' }),
      phr: z
        .number()
        .min(50)
        .max(600)
        .meta({ description: 'Parts of plasticiser to a hundred of resin, by mass', limits: '50 to 600' }),
      salt: z
        .number()
        .min(0)
        .max(0.5)
        .default(0)
        .meta({ description: 'Mass fraction of salt', limits: '0 to 0.5' }),
      microballoons: z
        .number()
        .min(0)
        .max(0.2)
        .default(0)
        .meta({ description: 'Mass fraction of hollow glass microspheres', limits: '0 to 0.2' }),
      source: sourceSchema.meta({ description: 'Where the recipe comes from' }),
    })
    .meta({
      description: 'What it is mixed from; density and hardness follow by rule unless they are stated',
    }),
  density: banded(
    'density',
    { min: '700 kg/m3', max: '1800 kg/m3', example: '1.02 g/cm3' },
    'Cured density at 20 °C',
  ).optional(),
  hardness: banded(
    'hardness',
    { min: '0 00', max: '100 00', example: '32 00' },
    'Durometer reading, Shore 00',
  ).optional(),
  conductivity: banded(
    'conductivity',
    { min: '0.05 W/(m·K)', max: '1 W/(m·K)', example: '0.14 W/(m·K)' },
    'Thermal conductivity',
  ),
  specificHeat: banded(
    'specific heat',
    { min: '800 J/(kg·K)', max: '4200 J/(kg·K)', example: '2000 J/(kg·K)' },
    'Specific heat',
  ),
  diffusivity: banded(
    'diffusivity',
    { min: '1e-8 m2/s', max: '5e-7 m2/s', example: '7.5e-8 m2/s' },
    'Thermal diffusivity, hot',
  ),
  expansion: banded(
    'expansion',
    { min: '1e-4 1/K', max: '2e-3 1/K', example: '7e-4 1/K' },
    'Volumetric thermal expansion',
  ),
  viscosity: banded(
    'viscosity',
    { min: '0.05 Pa·s', max: '200 Pa·s', example: '3 Pa·s' },
    'Melt viscosity at 175 °C',
  ),
  activation: banded(
    'molar energy',
    { min: '5 kJ/mol', max: '150 kJ/mol', example: '35 kJ/mol' },
    'Activation energy of the viscosity',
  ),
  noFlow: banded(
    'temperature',
    { min: '40 °C', max: '160 °C', example: '100 °C' },
    'Temperature below which it no longer flows',
  ),
  fusion: banded(
    'temperature',
    { min: '120 °C', max: '210 °C', example: '165 °C' },
    'Temperature at which it is fully fused',
  ),
  degradation: banded(
    'temperature',
    { min: '150 °C', max: '230 °C', example: '190 °C' },
    'Temperature at which it starts to break down',
  ),
  flashPoint: banded(
    'temperature',
    { min: '100 °C', max: '300 °C', example: '213 °C' },
    'Flash point of the plasticiser, closed cup',
  ),
  demold: banded(
    'temperature',
    { min: '30 °C', max: '90 °C', example: '60 °C' },
    'Centre temperature at which a bait can be lifted out',
  ),
  upperLimit: quantity(
    'temperature',
    { min: '150 °C', max: '200 °C', example: '185 °C' },
    'Hottest pour that its maker or common practice allows',
  ),
  measured: z
    .strictObject({
      shortShots: z
        .array(shortShotSchema)
        .min(1)
        .max(24)
        .meta({ description: 'Shots that froze half-way in a slot of even gap' }),
      source: sourceSchema.meta({ description: 'Who measured it and how' }),
    })
    .optional()
    .meta({
      description:
        'Your own measurements; short shots take the place of the stated viscosity in every fill reserve',
    }),
  safetyDataSheet: text(200, 'How to get the safety data sheet').optional(),
});

/** A compound, read: SI inside. */
export type Plastisol = z.output<typeof plastisolSchema>;
