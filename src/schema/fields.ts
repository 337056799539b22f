import { z } from 'zod';
import { band, type Band } from '../core/quantity/band.ts';
import type { Source } from '../core/quantity/figure.ts';
import { readQuantity, type Dimension } from '../core/quantity/units.ts';

interface QuantityRange {
  /** Written like an author would: `0.1 mm`. */
  readonly min: string;
  readonly max: string;
  readonly example?: string;
}

function written(text: string, dimension: Dimension): number {
  const read = readQuantity(text, dimension);
  if (typeof read === 'string') throw new RangeError(`schema limit: ${read}`);
  return read.si;
}

/** A quantity with its unit, as text in and as an SI number out. */
export function quantity(dimension: Dimension, range: QuantityRange, description: string) {
  const low = written(range.min, dimension);
  const high = written(range.max, dimension);
  return z
    .string({ error: `write it with its unit, for example "${range.example ?? range.min}"` })
    .max(60)
    .transform((text, context): number => {
      const read = readQuantity(text, dimension);
      if (typeof read === 'string') {
        context.addIssue({ code: 'custom', message: read });
        return z.NEVER;
      }
      if (read.si < low * (1 - 1e-12) || read.si > high * (1 + 1e-12)) {
        context.addIssue({
          code: 'custom',
          message: `${text} is outside ${range.min} to ${range.max}; check the number and the unit`,
        });
        return z.NEVER;
      }
      return read.si;
    })
    .meta({
      description,
      dimension,
      limits: `${range.min} to ${range.max}`,
      example: range.example ?? range.min,
    });
}

const CONTROL = /[\u0000-\u0008\u000b-\u001f\u007f-\u009f\u200b-\u200f\u202a-\u202e\u2060-\u2069\ufeff]/u;

/** Plain text of one or more lines: no control, zero-width or direction-changing characters. */
export function text(max: number, description: string) {
  return z
    .string()
    .min(1)
    .max(max)
    .refine((value) => !CONTROL.test(value) && value.isWellFormed(), {
      error: 'holds an invisible control character; type the text again',
    })
    .transform((value) => value.trim().normalize('NFC'))
    .meta({ description, limits: `1 to ${max} characters` });
}

const NAME = /^[a-z0-9](?:[a-z0-9-]{0,62}[a-z0-9])?$/u;

/** The id of another entry: its file name without ending. */
export function reference(collection: string, description: string) {
  return z
    .string()
    .regex(NAME, { error: 'ids are lower-case letters, digits and dashes: the file name without its ending' })
    .meta({ description, references: collection, example: undefined });
}

/** A short key inside an entry. */
export function key(description: string) {
  return z
    .string()
    .regex(NAME, { error: 'wants lower-case letters, digits and dashes' })
    .meta({ description, limits: 'lower-case letters, digits and dashes, at most 64' });
}

/** A calendar date. */
export function date(description: string) {
  return z.iso
    .date({ error: 'wants a date like "2026-03-14", in quotes' })
    .meta({ description, example: '2026-03-14' });
}

/** An address on the web, https only. */
export function webAddress(description: string) {
  return z
    .url({ protocol: /^https$/u, hostname: z.regexes.domain, error: 'wants a full https:// address' })
    .max(500)
    .meta({ description, limits: 'https only', example: 'https://example.com/buy' });
}

/** A file beside the entry, by a path that stays inside the catalogue. */
export function filePath(
  endings: readonly string[],
  description: string,
  refused?: { readonly pattern: RegExp; readonly sentence: string },
) {
  const pattern = new RegExp(
    `^(?:[a-z0-9][a-z0-9_-]*/)*[a-z0-9][a-z0-9._-]*\\.(?:${endings.join('|')})$`,
    'u',
  );
  return z
    .string()
    .max(200)
    .regex(pattern, {
      error: ({ input }) =>
        refused?.pattern.test(String(input))
          ? refused.sentence
          : `wants a lower-case path below the catalogue's folder that ends in ${endings.map((end) => `.${end}`).join(', ')}`,
    })
    .meta({ description, file: true, limits: endings.map((end) => `.${end}`).join(', ') });
}

/** Where a number comes from. */
export const sourceSchema = z.strictObject({
  title: text(300, 'Author, title, year, table or clause; or who measured it and how'),
  kind: z
    .enum(['published', 'common practice', 'estimate', 'measured', 'stated', 'invented for the demo'])
    .meta({ description: 'How far to trust it' }),
  note: text(300, 'What was not checked').optional(),
});

/** A number with its band and its source. */
export interface SourcedBand extends Band {
  readonly source: Source;
}

/** A quantity with low, nominal and high, and the source of all three. */
export function banded(dimension: Dimension, range: QuantityRange, description: string) {
  return z
    .strictObject({
      low: quantity(dimension, range, `Lowest credible: ${description.toLowerCase()}`).optional(),
      nominal: quantity(dimension, range, description),
      high: quantity(dimension, range, `Highest credible: ${description.toLowerCase()}`).optional(),
      source: sourceSchema.meta({ description: 'Where the numbers come from' }),
    })
    .transform((value, context): SourcedBand => {
      const { nominal, low = nominal, high = nominal } = value;
      if (low > nominal || nominal > high) {
        context.addIssue({ code: 'custom', message: 'wants low ≤ nominal ≤ high; put the three in order' });
        return z.NEVER;
      }
      return { ...band(nominal, low, high), source: value.source };
    })
    .meta({
      description,
      dimension,
      limits: `${range.min} to ${range.max}`,
      example: range.example ?? range.min,
    });
}
