import { figure, figureInput, type Figure } from '../core/quantity/figure.ts';
import type { Band } from '../core/quantity/band.ts';
import { band } from '../core/quantity/band.ts';
import type { Mold } from '../schema/mold.ts';
import type { Case } from './case.ts';
import type { FillStudy } from './fill-study.ts';
import { COLD_MOLD, WARMED_TOLERANCE, WORKING_MOLD, type Assumption } from './practice.ts';
import { SOURCES } from './sources.ts';

/**
 * The block before the first shot, as the sheet tells its customers to have it [K]: warmed where the entry says so,
 * else as it stands in a workshop. Verdict, pour instruction, cautions, answers and the gate all start from it.
 */
export function firstMold({ warmTo }: Pick<Mold, 'warmTo'>): Assumption {
  if (warmTo === undefined) return COLD_MOLD;
  const { low, high } = WARMED_TOLERANCE;
  return {
    ...band(warmTo, warmTo + low, warmTo + high),
    source: { kind: 'stated', title: 'The maker’s own instruction, `warmTo` of the mold' },
  };
}

/** A block this much under the coolest bait that is lifted out still sets one, if slowly [K]. */
const STILL_SETS = 2;

/**
 * A block in a run [K]: the usual one, widened where customers are told to start with a warmer one, as far as a bait
 * still sets in it.
 */
export function workingMold({ mold, plastisol }: Pick<Case, 'mold' | 'plastisol'>): Assumption {
  const { value, low, high, source } = WORKING_MOLD;
  const told = mold.warmTo === undefined ? high : firstMold(mold).high;
  return { ...band(value, low, Math.max(high, Math.min(told, plastisol.demold.low - STILL_SETS))), source };
}

/** How the first shot goes in a block as the sheet tells it. */
export interface FirstShot {
  readonly mold: Band;
  /** True when the sheet tells to warm it. */
  readonly warmed: boolean;
  /** Parts that come short at nominal. */
  readonly short: readonly string[];
  /** Parts that come short at the adverse end. */
  readonly shortAtWorst: readonly string[];
  /** Block from which every part fills at nominal [K]; Infinity when none does. */
  readonly needed: number;
}

/** The fill verdict at nominal, taken in the block that customers are told to shoot into. */
export function firstShot(mold: Pick<Mold, 'warmTo'>, studies: readonly FillStudy[]): FirstShot {
  const { value, low, high } = firstMold(mold);
  const short = (end: 'value' | 'low') =>
    studies.filter(({ first }) => first[end] < 1).map(({ label }) => label);
  return {
    mold: band(value, low, high),
    warmed: mold.warmTo !== undefined,
    short: short('value'),
    shortAtWorst: short('low'),
    needed: Math.max(COLD_MOLD.value, ...studies.map(({ neededNominal }) => neededNominal)),
  };
}

/** Block and least reserve of the first shot; none where the mold is shot cold, since those have their own figures. */
export function firstShotFigures({ mold, warmed }: FirstShot, studies: readonly FillStudy[]): Figure[] {
  const [least] = [...studies].sort((a, b) => a.first.low - b.first.low);
  if (!warmed || !least) return [];
  const told = figureInput('mold temperature', mold, 'Cel');
  return [
    figure(
      {
        key: 'fill.mold.first',
        label: 'Warm the mold to, before the first shot',
        unit: 'Cel',
        basis: 'As the maker tells it. Low and high: what a thermometer on the face of the block may be off.',
        sources: [
          { kind: 'stated', title: 'The maker’s own instruction for this mold' },
          WARMED_TOLERANCE.source,
        ],
      },
      mold,
    ),
    figure(
      {
        key: 'fill.reserve.first',
        label: 'Least fill reserve, mold warmed as told',
        unit: '1',
        basis: `The least of the reserves of all parts in that block, at the low end: that of the ${least.label}.`,
        formula: 'least of all parts',
        inputs: [told],
        sources: [SOURCES.filling, SOURCES.closing],
      },
      least.first,
    ),
  ];
}
