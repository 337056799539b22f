import type { Share } from '../core/quantity/band.ts';
import type { Figure } from '../core/quantity/figure.ts';
import type { Case } from './case.ts';
import { fillWindow, type FillWindow } from './fill-outlook.ts';
import { setupFacts, type SetupFacts } from './fill-setup.ts';
import type { FirstShot } from './first-shot.ts';
import type { FillModel, FillStudy } from './fill-study.ts';
import type { HeatStudy } from './heat-study.ts';
import { COLD_MOLD, WARM_MOLD } from './practice.ts';
import { warmUp, type WarmUp } from './warm-up.ts';

/** What the pictures, plots and set-ups of a sheet's filling are made from. */
export interface SheetFilling {
  readonly model: FillModel;
  readonly window: FillWindow;
  readonly warmUp: WarmUp;
  readonly setup: SetupFacts;
  /** The fill verdict at nominal, in the block that customers are told to shoot into. */
  readonly first: FirstShot;
  /** Mold temperatures that `cold` and `warm` stand for [K]. */
  readonly molds: { readonly cold: number; readonly warm: number };
  /** What buys most, the most first. */
  readonly gains: readonly Figure[];
  /** What makes the band of the least cold reserve wide, widest first. */
  readonly widest: readonly Share[];
}

/** Gathers what the pictures, plots and set-ups are made from. */
export function sheetFilling(
  given: Case,
  heat: HeatStudy,
  fill: {
    readonly model: FillModel;
    readonly studies: readonly FillStudy[];
    readonly figures: readonly Figure[];
    readonly first: FirstShot;
  },
): SheetFilling {
  const { model, studies, figures, first } = fill;
  return {
    model,
    window: fillWindow(given, model, studies),
    warmUp: warmUp(heat, given.plastisol.specificHeat),
    setup: setupFacts(given, heat),
    first,
    molds: { cold: COLD_MOLD.value, warm: WARM_MOLD.value },
    gains: figures.filter(({ key }) => key.startsWith('fill.gain.')),
    widest: studies[0]?.cold.shares ?? [],
  };
}
