import { z } from 'zod';
import type { Band } from '../core/quantity/band.ts';
import { UNITS, type UnitCode } from '../core/quantity/units.ts';
import type { Sheet } from './sheet.ts';
import { REQUIRED_FIGURES } from './sheet.ts';

const SIGNIFICANT = 12;

const figureSpec = z
  .strictObject({
    value: z.number().meta({ description: 'Nominal value in `unit`' }),
    low: z
      .number()
      .meta({ description: 'Lowest credible value; equals `value` when the figure has no band' }),
    high: z
      .number()
      .meta({ description: 'Highest credible value; equals `value` when the figure has no band' }),
    unit: z.enum(Object.keys(UNITS) as [UnitCode, ...UnitCode[]]).meta({ description: 'UCUM code' }),
    basis: z.string().min(1).meta({ description: 'What it was worked out from, and its sources' }),
  })
  .refine(({ low, value, high }) => low <= value && value <= high, { error: 'wants low ≤ value ≤ high' });

const cautionSpec = z.strictObject({
  key: z.string(),
  type: z.string().meta({ description: 'Kind of hazard' }),
  signal: z
    .enum(['DANGER', 'WARNING', 'CAUTION', 'NOTICE'])
    .meta({ description: 'Signal word after ANSI Z535.6' }),
  hazard: z.string(),
  consequence: z.string(),
  avoid: z.array(z.string()).min(1).meta({ description: 'What to do, in order' }),
});

const rigSpec = z.strictObject({
  rig: z.string(),
  pattern: z.string(),
  size: z.string(),
  from: z.string().meta({ description: 'Smallest size that will do' }),
  to: z.string().meta({ description: 'Largest size that will do' }),
  figures: z.array(z.string()).meta({ description: 'Keys of its figures: clearance, ratio, stations' }),
});

const ends = { value: z.number(), low: z.number(), high: z.number() };

const floatSpec = z.strictObject({
  compound: z.string(),
  density: z.strictObject({ ...ends, unit: z.literal('g/cm3') }),
  cells: z.array(
    z.strictObject({
      water: z.enum(['fresh', 'salt']),
      load: z
        .enum(['bare', 'hooked', 'weighted'])
        .meta({ description: 'Bare; on its hook; with an eighth of an ounce at the nose too' }),
      verdict: z.string(),
      speed: z.strictObject({ ...ends, unit: z.literal('cm/s') }).nullable(),
    }),
  ),
});

/** The machine-readable sheet, `molds/ID/spec.json`; published as a JSON Schema beside it. */
export const specSchema = z
  .strictObject({
    format: z.literal('partline-spec/1').meta({ description: 'Name and version of this format' }),
    id: z.string().meta({ description: 'The mold: last part of its address' }),
    url: z.url().meta({ description: 'Address of the sheet' }),
    title: z.string(),
    stock: z.string().meta({ description: 'Stock number' }),
    status: z.enum(['development', 'proof', 'final', 'retired']),
    invented: z
      .boolean()
      .meta({ description: 'True when shop, mold and bait are invented for a demonstration' }),
    maker: z.string(),
    bait: z.strictObject({ id: z.string(), name: z.string(), family: z.string(), revision: z.string() }),
    cavities: z.int().min(1),
    plastisol: z.strictObject({ id: z.string(), name: z.string() }),
    verdicts: z
      .strictObject({
        cold: z.string(),
        coldText: z.string(),
        float: z.string(),
        floatText: z.string(),
        injector: z.string(),
        injectorText: z.string(),
      })
      .meta({ description: 'Each verdict as a short code and as a sentence' }),
    hook: z.strictObject({ pattern: z.string(), size: z.string(), rig: z.string() }).nullable(),
    rigs: z.array(rigSpec).meta({ description: 'The hook for each rig, the usual rig first' }),
    floating: z.array(floatSpec).meta({
      description: 'What it does let go in fresh and salt water at 20 °C, by compound',
    }),
    cautions: z.array(cautionSpec).min(1),
    figures: z.record(z.string().regex(/^[a-z]+(?:\.[a-zA-Z0-9-]+)+$/u), figureSpec).meta({
      description: 'Every figure of the sheet by key',
    }),
  })
  .meta({ title: 'Partline spec', description: 'One mold with its computed figures' });

/** One mold's machine-readable sheet. */
export type Spec = z.output<typeof specSchema>;

/** Twelve significant digits: the same text on every machine, and more than any figure deserves. */
function stable(value: number): number {
  return Number(value.toPrecision(SIGNIFICANT));
}

function figuresOf(sheet: Sheet): Spec['figures'] {
  const missing = REQUIRED_FIGURES.filter((key) => !sheet.figures[key]);
  if (missing.length > 0)
    throw new RangeError(`specOf: wants every required figure, ${missing.join(', ')} missing`);
  return Object.fromEntries(
    Object.values(sheet.figures)
      .sort((a, b) => (a.key < b.key ? -1 : 1))
      .map(({ key, value, low, high, unit, basis, sources }) => [
        key,
        {
          value: stable(value),
          low: stable(low),
          high: stable(high),
          unit,
          basis: [basis, ...sources.map(({ title, kind }) => `Source (${kind}): ${title}.`)].join(' '),
        },
      ]),
  );
}

function rigsOf({ rigs }: Sheet): Spec['rigs'] {
  return rigs.map(({ rig, best, from, to, stations }) => ({
    rig,
    pattern: best.hook.name,
    size: best.size,
    from,
    to,
    figures: [best.clearance, best.ratio, ...stations].map(({ key }) => key),
  }));
}

const stableBand = <Unit>({ value, low, high, unit }: Band & { readonly unit: Unit }) => ({
  value: stable(value),
  low: stable(low),
  high: stable(high),
  unit,
});

function floatingOf({ floating }: Sheet): Spec['floating'] {
  return floating.map(({ name, density, cells }) => ({
    compound: name,
    density: stableBand(density),
    cells: cells.map(({ water, load, code, speed }) => ({
      water,
      load,
      verdict: code,
      speed: speed && stableBand(speed),
    })),
  }));
}

/** The machine-readable twin of a sheet. */
export function specOf(sheet: Sheet): Spec {
  const { mold, bait, verdicts, bestHook } = sheet;
  return specSchema.parse({
    format: 'partline-spec/1',
    id: sheet.id,
    url: new URL(
      `molds/${sheet.id}/`,
      sheet.shop.site.endsWith('/') ? sheet.shop.site : `${sheet.shop.site}/`,
    ).href,
    title: sheet.title,
    stock: mold.stock,
    status: mold.status,
    invented: sheet.shop.invented,
    maker: sheet.shop.name,
    bait: { id: bait.id, name: bait.name, family: bait.family, revision: sheet.revision.id },
    cavities: mold.cavities.length,
    plastisol: { id: sheet.plastisol.id, name: sheet.plastisol.name },
    verdicts: {
      cold: verdicts.cold.code,
      coldText: verdicts.cold.sentence,
      float: verdicts.float.code,
      floatText: verdicts.float.sentence,
      injector: verdicts.injector.code,
      injectorText: verdicts.injector.sentence,
    },
    hook: bestHook && { pattern: bestHook.hook.name, size: bestHook.size, rig: bestHook.rig },
    rigs: rigsOf(sheet),
    floating: floatingOf(sheet),
    cautions: sheet.cautions.map(({ key, type, signal, hazard, consequence, avoid }) => ({
      key,
      type,
      signal,
      hazard,
      consequence,
      avoid: [...avoid],
    })),
    figures: figuresOf(sheet),
  });
}
