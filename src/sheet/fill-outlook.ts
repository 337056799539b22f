import type { ReserveValues } from '../core/fill/grid/reserve-band.ts';
import { bisect } from '../core/numeric/root.ts';
import { toSI } from '../core/quantity/units.ts';
import type { Case } from './case.ts';
import { HOTTEST_MOLD, nominalReserve, type FillModel, type FillStudy } from './fill-study.ts';
import { COLD_MOLD, TRANSFER_LOSS, WARM_MOLD } from './practice.ts';

/** Least reserve of all parts at a pour and a mold temperature [K]: nominal, and at both ends of its band [1]. */
export interface LeastReserve {
  readonly favourable: number;
  readonly nominal: number;
  readonly adverse: number;
}

/** Least reserve as a function of pour and mold temperature [K]. */
export function leastReserve(given: Case, model: FillModel, studies: readonly FillStudy[]) {
  const reserve = nominalReserve(given, model.table);
  return (pour: number, mold: number): LeastReserve => {
    const each = studies.map(({ part, cold }) => {
      const nominal = reserve(part, { melt: pour - TRANSFER_LOSS.value, mold });
      const { value, low, high } = cold;
      return { nominal, adverse: (nominal * low) / value, favourable: (nominal * high) / value };
    });
    return {
      favourable: Math.min(...each.map(({ favourable }) => favourable)),
      nominal: Math.min(...each.map(({ nominal }) => nominal)),
      adverse: Math.min(...each.map(({ adverse }) => adverse)),
    };
  };
}

/** Coolest pour within the compound's limits that fills [K]; Infinity when none does. */
export interface CoolestPour {
  readonly favourable: number;
  readonly nominal: number;
  readonly adverse: number;
}

/** Coolest pours that fill from a cold and from a warm mold. */
export function coolestPours(given: Case, model: FillModel, studies: readonly FillStudy[]) {
  const least = leastReserve(given, model, studies);
  const { low, high } = given.pour;
  const coolest = (mold: number, end: keyof LeastReserve) => {
    const excess = (pour: number) => least(pour, mold)[end] - 1;
    if (excess(low) >= 0) return low;
    return excess(high) < 0 ? Infinity : bisect(excess, low, high, 20);
  };
  const at = (mold: number): CoolestPour => ({
    favourable: coolest(mold, 'favourable'),
    nominal: coolest(mold, 'nominal'),
    adverse: coolest(mold, 'adverse'),
  });
  return { cold: at(COLD_MOLD.value), warm: at(WARM_MOLD.value) };
}

/** One change of a cold shot, and what it does to the least reserve. */
export interface Gain {
  readonly key: 'pour' | 'mold' | 'gap' | 'push';
  /** Reserve with the change over reserve without [1]. */
  readonly times: number;
}

/** Ten degrees Fahrenheit [K], a tenth of a millimetre [m], and half as hard again [1]. */
export const STEPS = { degrees: toSI(10, '[degF]{difference}'), gap: 1e-4, push: 1.5 } as const;

/** What buys most for the part with the least reserve, the most first. */
export function gains(given: Case, model: FillModel, studies: readonly FillStudy[]): Gain[] {
  const weakest = studies[0];
  if (!weakest) return [];
  const reserve = nominalReserve(given, model.table);
  const now = reserve(weakest.part, {});
  const times = (changes: Partial<ReserveValues>) => reserve(weakest.part, changes) / now;
  const { pressure, gateTemperature } = given;
  const all: Gain[] = [
    { key: 'pour', times: times({ melt: gateTemperature.value + STEPS.degrees }) },
    { key: 'mold', times: times({ mold: COLD_MOLD.value + STEPS.degrees }) },
    { key: 'gap', times: times({ gap: STEPS.gap }) },
    { key: 'push', times: times({ pressure: pressure.value * STEPS.push }) },
  ];
  return all.sort((a, b) => b.times - a.times);
}

/** Least reserve over pour and mold temperature on an even grid; entry (i, j) is i + pours·j. */
export interface FillWindow {
  readonly pours: readonly number[];
  readonly molds: readonly number[];
  readonly nominal: readonly number[];
  readonly adverse: readonly number[];
}

const [ACROSS, UP] = [25, 17];
/** Shown beyond the coolest and the hottest pour [K]. */
const BESIDE = 12;

const even = (from: number, to: number, count: number) =>
  Array.from({ length: count }, (_, k) => from + ((to - from) * k) / (count - 1));

/** The operating window of a mold. */
export function fillWindow(given: Case, model: FillModel, studies: readonly FillStudy[]): FillWindow {
  const least = leastReserve(given, model, studies);
  const { low, high } = given.pour;
  const pours = even(low - BESIDE, high + BESIDE, ACROSS);
  const molds = even(COLD_MOLD.low, HOTTEST_MOLD, UP);
  const all = molds.flatMap((mold) => pours.map((pour) => least(pour, mold)));
  return {
    ...{ pours, molds },
    nominal: all.map(({ nominal }) => nominal),
    adverse: all.map(({ adverse }) => adverse),
  };
}
