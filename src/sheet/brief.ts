import type { Figure } from '../core/quantity/figure.ts';
import type { BaitGeometry } from '../core/section/geometry.ts';
import type { Revision } from '../schema/bait.ts';
import type { Bait, Entry, Hook, Mold, Plastisol } from '../schema/collections.ts';
import type { Answer, BatchRow, Fault, HookFit, InjectorFit, Sheet } from './sheet.ts';

/** A figure as lists print it: its number, without how it was worked out. */
export type BriefFigure = Pick<Figure, 'key' | 'label' | 'unit' | 'value' | 'low' | 'high'>;

type BriefHook = Pick<HookFit, 'size' | 'rig' | 'verdict'> & { readonly hook: Pick<Hook, 'pattern'> };

/**
 * What the pages about the whole catalogue print of one mold. It is a fiftieth of a sheet, so a thousand of them fit
 * into memory; every sheet is also a brief.
 */
export interface Brief extends Pick<
  Sheet,
  'id' | 'title' | 'shop' | 'verdicts' | 'plan' | 'cautions' | 'ledger' | 'rigNames'
> {
  readonly mold: Pick<Entry<Mold>, 'id' | 'stock' | 'status' | 'released' | 'listing' | 'cavities'>;
  readonly bait: Pick<Entry<Bait>, 'id' | 'name' | 'family' | 'summary' | 'rigs' | 'colour'>;
  readonly revision: Pick<Revision, 'id' | 'date' | 'note'>;
  readonly plastisol: Pick<Entry<Plastisol>, 'id'>;
  readonly geometry: Pick<BaitGeometry, 'plan' | 'box'>;
  readonly figures: Readonly<Record<string, BriefFigure>>;
  readonly injectors: readonly (Pick<InjectorFit, 'injector' | 'holds'> & {
    readonly pressure: BriefFigure;
  })[];
  readonly hooks: readonly BriefHook[];
  readonly bestHook: BriefHook | null;
  readonly batches: readonly (Pick<BatchRow, 'baits' | 'shots'> & { readonly compound: BriefFigure })[];
  readonly answers: readonly Pick<Answer, 'key' | 'question' | 'short' | 'words'>[];
  readonly faults: readonly Pick<Fault, 'key' | 'name' | 'looks' | 'words'>[];
}

function figureBrief({ key, label, unit, value, low, high }: Figure): BriefFigure {
  return { key, label, unit, value, low, high };
}

function hookBrief({ size, rig, verdict, hook: { pattern } }: HookFit): BriefHook {
  return { size, rig, verdict, hook: { pattern } };
}

/** The entries that a sheet is about, without what only the sheet itself prints of them. */
function entriesBrief({ mold, bait, revision, plastisol }: Sheet) {
  const { stock, status, released, listing, cavities } = mold;
  const { name, family, summary, rigs, colour } = bait;
  return {
    mold: { id: mold.id, stock, status, released, listing, cavities },
    bait: { id: bait.id, name, family, summary, rigs, colour },
    revision: { id: revision.id, date: revision.date, note: revision.note },
    plastisol: { id: plastisol.id },
  };
}

/** A sheet in brief. */
export function briefOf(sheet: Sheet): Brief {
  const { id, title, shop, verdicts, plan, cautions, ledger, rigNames, geometry, bestHook } = sheet;
  return {
    ...{ id, title, shop, verdicts, plan, cautions, ledger, rigNames },
    ...entriesBrief(sheet),
    geometry: { plan: geometry.plan, box: geometry.box },
    figures: Object.fromEntries(
      Object.entries(sheet.figures).map(([key, figure]) => [key, figureBrief(figure)]),
    ),
    injectors: sheet.injectors.map(({ injector, holds, pressure }) => ({
      injector,
      holds,
      pressure: figureBrief(pressure),
    })),
    hooks: sheet.hooks.map(hookBrief),
    bestHook: bestHook && hookBrief(bestHook),
    batches: sheet.batches.map(({ baits, shots, compound }) => ({
      baits,
      shots,
      compound: figureBrief(compound),
    })),
    answers: sheet.answers.map(({ key, question, short, words }) => ({ key, question, short, words })),
    faults: sheet.faults.map(({ key, name, looks, words }) => ({ key, name, looks, words })),
  };
}
