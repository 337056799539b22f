import { band, type Band } from '../quantity/band.ts';
import { readQuantity, UNITS, type Dimension, type UnitCode } from '../quantity/units.ts';
import { blendShare } from './blend.ts';
import { sessionCost } from './cost.ts';
import { endwise } from './endwise.ts';
import {
  OWN_INJECTOR,
  PRICE_UNITS,
  SOFTENER,
  type Field,
  type PlanData,
  type PlanState,
} from './plan-state.ts';
import type { SessionPlan } from './session-parts.ts';
import { sessionPlan } from './session.ts';

/** Two liquids that make a hardness. */
export interface Blend {
  /** Volume share of the second [1]. */
  readonly share: Band;
  /** Liquid of the compound itself, and of what is blended in [m³]. */
  readonly own: Band;
  readonly other: Band;
  readonly name: string;
}

/** What the planner answers. */
export interface PlanAnswer {
  /** Null while something that it needs is missing or wrong. */
  readonly plan: SessionPlan | null;
  readonly blend: Blend | null;
  readonly cost: { readonly whole: Band; readonly each: Band } | null;
  /** What is wrong, by field; a mold's number of baits stands under the mold's id. */
  readonly problems: Readonly<Record<string, string>>;
}

type Note = (field: string, problem: string) => undefined;

/** A quantity that may be left out. */
function quantityOf(text: string, dimension: Dimension, field: Field, note: Note): number | undefined {
  if (text.trim() === '') return undefined;
  const read = readQuantity(text, dimension);
  if (typeof read === 'string') return note(field, read);
  return read.si < 0 ? note(field, 'wants 0 or more') : read.si;
}

/** A plain number in a range; an empty text is the number at its start. */
function numberOf(
  text: string,
  [low, high]: readonly [number, number],
  field: string,
  note: Note,
): number | undefined {
  const value = text.trim() === '' ? low : Number(text);
  return value >= low && value <= high ? value : note(field, `wants a number from ${low} to ${high}`);
}

function ordersOf({ baits }: PlanState, { molds }: PlanData, note: Note) {
  return molds.flatMap((mold) => {
    const text = (baits[mold.id] ?? '').trim();
    if (text === '') return [];
    const count = Number(text);
    const whole = Number.isInteger(count) && count >= 0 && count <= 100_000;
    if (!whole) note(mold.id, 'wants a whole number of baits, at most 100 000');
    return whole && count > 0 ? [{ mold, baits: count }] : [];
  });
}

function capacityOf({ fields }: PlanState, { injectors }: PlanData, note: Note): number | undefined {
  if (fields.injector !== OWN_INJECTOR) {
    return injectors.find(({ id }) => id === fields.injector)?.capacity;
  }
  const own = quantityOf(fields.capacity, 'volume', 'capacity', note);
  return own !== undefined && own > 0
    ? own
    : note('capacity', 'wants the volume of one stroke, like 5 fl oz');
}

function blendOf({ fields }: PlanState, data: PlanData, liquid: Band, note: Note): Blend | null {
  const first = data.compounds.find(({ id }) => id === fields.compound);
  const second = data.compounds.find(({ id }) => id === fields.blend);
  if (!first || fields.blend === '' || fields.hardness.trim() === '') return null;
  const wanted = numberOf(fields.hardness, [0, 98], 'hardness', note);
  if (wanted === undefined) return null;
  try {
    const other = fields.blend === SOFTENER ? SOFTENER : (second?.shore00.value ?? NaN);
    const share = blendShare(first.shore00.value, other, wanted);
    return {
      share,
      own: endwise((end) => liquid[end] * (1 - share[OPPOSITE[end]])),
      other: endwise((end) => liquid[end] * share[end]),
      name: second?.name ?? 'Softener (plain plasticiser)',
    };
  } catch (error) {
    if (!(error instanceof RangeError)) throw error;
    const reach = second
      ? `${first.shore00.value.toFixed(0)} and ${second.shore00.value.toFixed(0)}`
      : `0 and ${first.shore00.value.toFixed(0)}`;
    note('hardness', `wants a Shore 00 between ${reach}: these two reach no other`);
    return null;
  }
}

const OPPOSITE = { value: 'value', low: 'high', high: 'low' } as const;

function perUnit(price: number | undefined, sign: string, codes: readonly UnitCode[]): number | undefined {
  const code = codes.find((one) => UNITS[one].sign === sign);
  return price === undefined || !code ? undefined : price / UNITS[code].factor;
}

function priceOf(text: string, field: Field, note: Note): number | undefined {
  return text.trim() === '' ? undefined : numberOf(text, [0, 1e6], field, note);
}

/**
 * Works out a plan as it is typed.
 *
 * @param state - texts of every field
 * @param data - molds, compounds and injectors to choose from [SI]
 * @returns the session [SI], the blend, the cost, and what is wrong with which field
 *
 * Valid: as `sessionPlan` and `blendShare`; a blend is taken to be as dense as the compound itself.
 * Cost: linear in the shots.
 * Source: as `sessionPlan`, `blendShare` and `sessionCost`.
 */
export function planAnswer(state: PlanState, data: PlanData): PlanAnswer {
  const problems: Record<string, string> = {};
  const note: Note = (field, problem) => {
    problems[field] ??= problem;
    return undefined;
  };
  const { fields } = state;
  const compound = data.compounds.find(({ id }) => id === fields.compound);
  const orders = ordersOf(state, data, note);
  const capacity = capacityOf(state, data, note);
  const shelf = quantityOf(fields.shelf, 'volume', 'shelf', note);
  const heel = quantityOf(fields.heel, 'volume', 'heel', note) ?? 0;
  const old = numberOf(fields.old, [0, 50], 'old', note);
  const salt = numberOf(fields.salt, [0, 40], 'salt', note);
  const glass = numberOf(fields.glass, [0, 10], 'glass', note);
  const prices = {
    compound: perUnit(priceOf(fields.price, 'price', note), fields.per, PRICE_UNITS.compound),
    salt: perUnit(priceOf(fields.saltPrice, 'saltPrice', note), fields.saltPer, PRICE_UNITS.salt),
  };
  const complete = compound && capacity && old !== undefined && salt !== undefined && glass !== undefined;
  if (!complete || orders.length === 0 || Object.keys(problems).length > 0) {
    blendOf(state, data, band(0), note);
    return { plan: null, blend: null, cost: null, problems };
  }
  const plan = sessionPlan({
    orders,
    density: compound.density,
    capacity,
    heel,
    shelf,
    remelt: old / 100,
    salt: salt / 100,
    microballoons: glass / 100,
  });
  const blend = blendOf(state, data, plan.measured.liquid, note);
  return { plan, blend, cost: sessionCost(plan, prices), problems };
}
