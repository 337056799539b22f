import type { Band } from '../quantity/band.ts';
import { UNITS, type UnitCode } from '../quantity/units.ts';
import type { PlanMold } from './session-parts.ts';

/** A compound as the planner offers it [SI]. */
export interface PlanCompound {
  readonly id: string;
  readonly name: string;
  readonly density: Band;
  /** Type 00 reading. */
  readonly shore00: Band;
  /** Pour band [K]. */
  readonly pour: { readonly low: number; readonly nominal: number; readonly high: number };
}

/** An injector as the planner offers it [SI]. */
export interface PlanInjector {
  readonly id: string;
  readonly name: string;
  readonly capacity: number;
}

/** Everything that the planner chooses from. */
export interface PlanData {
  readonly molds: readonly PlanMold[];
  readonly compounds: readonly PlanCompound[];
  readonly injectors: readonly PlanInjector[];
  /** Compound and injector to begin with, and baits of the first mold. */
  readonly start: { readonly compound: string; readonly injector: string };
}

/** Fields of the planner but the numbers of baits, each with its short name in a link. */
export const FIELDS = {
  compound: 'c',
  injector: 'i',
  capacity: 'cap',
  shelf: 'shelf',
  heel: 'heel',
  old: 'old',
  salt: 'salt',
  glass: 'glass',
  blend: 'with',
  hardness: 'to',
  price: 'price',
  per: 'per',
  saltPrice: 'sp',
  saltPer: 'sper',
} as const;

/** Name of a field. */
export type Field = keyof typeof FIELDS;

/** Injector of the reader's own, its volume in the field `capacity`. */
export const OWN_INJECTOR = 'other';
/** Plain plasticiser in place of a second compound. */
export const SOFTENER = 'softener';

/** Units that a price may be for. */
export const PRICE_UNITS = {
  compound: ['[pt_us]', '[qt_us]', '[gal_us]', 'L'],
  salt: ['[lb_av]', 'kg'],
} as const satisfies Readonly<Record<string, readonly UnitCode[]>>;

/** A plan as it is typed: texts only, so that a link can hold half-finished ones too. */
export interface PlanState {
  /** Baits by mold. */
  readonly baits: Readonly<Record<string, string>>;
  readonly fields: Readonly<Record<Field, string>>;
}

const EMPTY: Readonly<Record<Field, string>> = {
  compound: '',
  injector: '',
  capacity: '',
  shelf: '',
  heel: '1 fl oz',
  old: '0',
  salt: '0',
  glass: '0',
  blend: '',
  hardness: '',
  price: '',
  per: UNITS['[gal_us]'].sign,
  saltPrice: '',
  saltPer: UNITS['[lb_av]'].sign,
};

/**
 * The plan that nobody has touched yet.
 *
 * @param data - what there is to choose from
 * @returns compound and injector to begin with, 50 baits of the only mold, none of several
 *
 * Cost: linear in the molds.
 * Source: definition.
 */
export function freshPlan(data: PlanData): PlanState {
  const [only, ...others] = data.molds;
  return {
    baits: only && others.length === 0 ? { [only.id]: '50' } : {},
    fields: { ...EMPTY, ...data.start },
  };
}

/** Longest text that is taken from a link. */
const LONGEST = 40;

/**
 * A plan from the parameters of a link; what a link does not say, or says of things that do not exist, is as in a
 * fresh plan.
 *
 * @param link - value of a parameter by its name; null where it is missing
 * @param data - what there is to choose from
 * @returns the plan as typed
 *
 * Cost: linear in the link.
 * Source: definition.
 */
export function planFromLink(link: (name: string) => string | null, data: PlanData): PlanState {
  const fresh = freshPlan(data);
  const molds = link('m');
  const known = new Set(data.molds.map(({ id }) => id));
  const baits = (molds ?? '')
    .split('_')
    .map((pair) => pair.split('.'))
    .filter(([id]) => known.has(id ?? ''))
    .map(([id = '', ...count]) => [id, count.join('.').slice(0, LONGEST)]);
  const said = (Object.entries(FIELDS) as [Field, string][]).flatMap(([field, name]) => {
    const value = link(name);
    return value === null || !possible(field, value, data) ? [] : [[field, value.slice(0, LONGEST)]];
  });
  return {
    baits: molds === null ? fresh.baits : Object.fromEntries(baits),
    fields: { ...fresh.fields, ...Object.fromEntries(said) },
  };
}

function possible(field: Field, value: string, { compounds, injectors }: PlanData): boolean {
  const compound = compounds.some(({ id }) => id === value);
  if (field === 'compound') return compound;
  if (field === 'blend') return compound || value === SOFTENER || value === '';
  if (field === 'injector') return injectors.some(({ id }) => id === value) || value === OWN_INJECTOR;
  if (field === 'per') return PRICE_UNITS.compound.some((code) => UNITS[code].sign === value);
  if (field === 'saltPer') return PRICE_UNITS.salt.some((code) => UNITS[code].sign === value);
  return true;
}

/**
 * The parameters of a link that carries the whole plan; what is as in a fresh plan is left out.
 *
 * @param state - the plan as typed
 * @param data - what there is to choose from
 * @returns names and values
 *
 * Cost: linear in the molds.
 * Source: definition; the inverse of `planFromLink`.
 */
export function linkOfPlan(state: PlanState, data: PlanData): [name: string, value: string][] {
  const fresh = freshPlan(data);
  const molds = Object.entries(state.baits)
    .filter(([, count]) => count.trim() !== '' && count.trim() !== '0')
    .map(([id, count]) => `${id}.${count.trim().slice(0, LONGEST)}`)
    .join('_');
  const fields = (Object.entries(FIELDS) as [Field, string][])
    .filter(([field]) => state.fields[field] !== fresh.fields[field])
    .map(([field, name]): [string, string] => [name, state.fields[field]]);
  return [['m', molds], ...fields];
}
