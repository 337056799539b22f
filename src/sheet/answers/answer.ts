import type { UnitSystem } from '../../core/quantity/print.ts';
import { figureInput } from '../../core/quantity/figure.ts';
import { printed } from '../../core/quantity/print.ts';
import { band } from '../../core/quantity/band.ts';
import type { Entry, Mold } from '../../schema/collections.ts';
import type { Case } from '../case.ts';
import type { Answer, FeatureFill, HookFit, InjectorFit, Sheet } from '../sheet.ts';
import type { Speaker } from '../words.ts';

/** What answers are written from. */
export interface AnswerParts {
  readonly given: Case;
  readonly speak: Speaker;
  readonly verdicts: Sheet['verdicts'];
  readonly hook: HookFit | null;
  readonly features: readonly FeatureFill[];
  readonly injectors: readonly InjectorFit[];
  readonly siblings: readonly Entry<Mold>[];
}

/** Writes the answer to one question for one mold. */
export type AnswerOf = (parts: AnswerParts) => Answer;

/** A block is stated to half a millimetre, whatever unit its maker wrote [m]. */
const HALF = 0.0005;

/** Sides with as many decimals as the one that needs most. */
function sides(sizes: readonly number[], system: UnitSystem): string {
  const texts = sizes.map((size) =>
    printed(figureInput('', band(size, size - HALF, size + HALF), 'mm'), system),
  );
  const decimals = Math.max(...texts.map(({ value }) => /\.\d*[1-9]/u.exec(value)?.[0].length ?? 1)) - 1;
  const even = texts.map(({ value }) => Number(value).toFixed(decimals));
  return `${even.join(' × ')}\u00a0${texts[0]?.unit ?? ''}`;
}

/** Sides of the closed block in both unit systems, the shop's own first. */
export function blockSizes({ mold, catalogue }: Pick<Case, 'mold' | 'catalogue'>): string {
  const { length, width, thickness } = mold.block;
  const all = [length, width, thickness];
  const first = catalogue.shop.units;
  return `${sides(all, first)} / ${sides(all, first === 'us' ? 'metric' : 'us')}`;
}

/** "two cavities" as people count: "1 cavity", "6 cavities". */
export const cavityCount = (count: number) => `${count} ${count === 1 ? 'cavity' : 'cavities'}`;
