import { z } from 'zod';
import type { Dimension } from '../core/quantity/units.ts';
import type { Path } from './problem.ts';

/** What an author writes in a field. */
export type FieldKind =
  | 'text'
  | 'number'
  | 'true or false'
  | 'choice'
  | 'quantity'
  | 'banded quantity'
  | 'list'
  | 'group'
  | 'point';

/** One field of a collection, as the reference and the error messages describe it. */
export interface Field {
  /** From the outside in, lists marked: `cavities[].revision`; empty for the entry itself. */
  readonly path: string;
  readonly kind: FieldKind;
  readonly required: boolean;
  readonly default?: unknown;
  readonly description: string;
  readonly dimension?: Dimension;
  readonly limits?: string;
  readonly example?: string;
  /** Collection whose ids it takes. */
  readonly references?: string;
  /** True when it names a file below the catalogue folder. */
  readonly file?: boolean;
  readonly choices?: readonly string[];
  /** Keys of a group, in order. */
  readonly keys?: readonly string[];
}

type Facts = Partial<Pick<Field, 'description' | 'dimension' | 'limits' | 'example' | 'references' | 'file'>>;

interface Opened {
  readonly core: z.core.$ZodType;
  readonly facts: Facts;
  readonly required: boolean;
  readonly default?: unknown;
}

/** Takes the wrappers off a schema; facts of an outer wrapper win over those further in. */
function opened(schema: z.core.$ZodType): Opened {
  const own = (z.globalRegistry.get(schema) ?? {}) as Facts;
  const inner = innerOf(schema);
  if (!inner) return { core: schema, facts: own, required: true };
  const below = opened(inner);
  const facts = { ...below.facts, ...own };
  if (schema instanceof z.ZodOptional) return { ...below, facts, required: false };
  if (schema instanceof z.ZodDefault)
    return { ...below, facts, required: false, default: schema.def.defaultValue };
  return { ...below, facts };
}

function innerOf(schema: z.core.$ZodType): z.core.$ZodType | undefined {
  if (schema instanceof z.ZodOptional || schema instanceof z.ZodDefault) return schema.def.innerType;
  if (schema instanceof z.ZodPipe) return schema.def.in;
  return undefined;
}

function kindOf({ core, facts }: Opened): FieldKind {
  if (core instanceof z.ZodObject) return facts.dimension ? 'banded quantity' : 'group';
  if (facts.dimension) return 'quantity';
  if (core instanceof z.ZodArray) return 'list';
  if (core instanceof z.ZodTuple) return 'point';
  if (core instanceof z.ZodEnum) return 'choice';
  if (core instanceof z.ZodBoolean) return 'true or false';
  if (core instanceof z.ZodNumber) return 'number';
  return 'text';
}

function fieldOf(path: string, schema: z.core.$ZodType): Field {
  const open = opened(schema);
  const { core, facts } = open;
  return {
    path,
    kind: kindOf(open),
    required: open.required,
    description: '',
    ...facts,
    ...(open.default === undefined ? {} : { default: open.default }),
    ...(core instanceof z.ZodEnum ? { choices: core.options.map(String) } : {}),
    ...(core instanceof z.ZodObject ? { keys: Object.keys(core.shape) } : {}),
  };
}

/** Every field of a schema from top to bottom; banded quantities and points are one field each. */
export function fieldsOf(schema: z.core.$ZodType, path = ''): Field[] {
  const { core } = opened(schema);
  if (core instanceof z.ZodArray) {
    const element = core.element as z.core.$ZodType;
    const own = fieldOf(`${path}[]`, element);
    return [...(own.kind === 'group' ? [] : [own]), ...below(element, `${path}[]`)];
  }
  if (!(core instanceof z.ZodObject)) return [];
  return Object.entries(core.shape as Record<string, z.core.$ZodType>).flatMap(([key, child]) => {
    const here = path === '' ? key : `${path}.${key}`;
    return [fieldOf(here, child), ...below(child, here)];
  });
}

function below(schema: z.core.$ZodType, path: string): Field[] {
  const { kind } = fieldOf(path, schema);
  return kind === 'group' || kind === 'list' ? fieldsOf(schema, path) : [];
}

/** The field at a place in an entry, or nothing where the schema knows no such place. */
export function fieldAt(schema: z.core.$ZodType, path: Path): Field | undefined {
  let here: z.core.$ZodType | undefined = schema;
  for (const step of path) here = here && child(here, step);
  return here && fieldOf(dotted(path), here);
}

function child(schema: z.core.$ZodType, step: string | number): z.core.$ZodType | undefined {
  const { core } = opened(schema);
  if (core instanceof z.ZodObject) return (core.shape as Record<string, z.core.$ZodType>)[String(step)];
  if (core instanceof z.ZodArray) return core.element as z.core.$ZodType;
  if (core instanceof z.ZodTuple) return core.def.items[Number(step)];
  return undefined;
}

/** A place as people write it: `cavities[2].revision`, counted from 1. */
export function dotted(path: Path): string {
  return path.reduce<string>(
    (text, step) =>
      typeof step === 'number' ? `${text}[${step + 1}]` : text === '' ? step : `${text}.${step}`,
    '',
  );
}

/** A value in an entry with its place. */
export interface Placed {
  readonly path: Path;
  readonly value: unknown;
}

/** Every value that a field has in written data: `cavities[].revision` gives one a cavity. */
export function valuesAt(data: unknown, field: string): Placed[] {
  const steps = field.split(/\.|(?=\[\])/u);
  return steps.reduce<Placed[]>(
    (found, step) => found.flatMap((place) => inside(place, step)),
    [{ path: [], value: data }],
  );
}

function inside({ path, value }: Placed, step: string): Placed[] {
  if (step === '[]') {
    return Array.isArray(value)
      ? value.map((item: unknown, index) => ({ path: [...path, index], value: item }))
      : [];
  }
  if (typeof value !== 'object' || value === null || !Object.hasOwn(value, step)) return [];
  return [{ path: [...path, step], value: (value as Record<string, unknown>)[step] }];
}
