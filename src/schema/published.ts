import { z } from 'zod';
import { UNITS, type UnitCode } from '../core/quantity/units.ts';
import { date, text } from './fields.ts';

const units = z.enum(Object.keys(UNITS) as [UnitCode, ...UnitCode[]]);

const numberSchema = z.strictObject({ value: z.number(), low: z.number(), high: z.number() });

const figureSchema = numberSchema.extend({ label: z.string(), unit: units });

const changeSchema = z.strictObject({
  key: z.string(),
  label: z.string(),
  /** Absent for a fact in words. */
  unit: units.optional(),
  from: z.union([numberSchema, z.string()]).nullable(),
  to: z.union([numberSchema, z.string()]).nullable(),
});

/** One accepted step. */
export const ledgerEntrySchema = z.strictObject({
  date: date('Day it was accepted'),
  note: text(300, 'Why'),
  revision: z.string(),
  changes: z.array(changeSchema),
});

/** What has been published of one mold: every step with its note, and all figures as they stand in public. */
export const ledgerSchema = z.strictObject({
  format: z.literal('partline-published/1'),
  entries: z.array(ledgerEntrySchema).min(1),
  figures: z.record(z.string(), figureSchema),
  facts: z.record(z.string(), z.strictObject({ label: z.string(), text: z.string() })),
});

/** The ledger of one mold, as its file holds it. */
export type LedgerFile = z.output<typeof ledgerSchema>;
/** The ledger of a mold, with the mold's id. */
export type Ledger = { readonly mold: string } & LedgerFile;
/** One step of a ledger. */
export type LedgerEntry = LedgerFile['entries'][number];
/** One thing that a step changed; null where it was not there. */
export type LedgerChange = LedgerEntry['changes'][number];
/** A figure as it stands in public. */
export type LedgerFigure = LedgerFile['figures'][string];
