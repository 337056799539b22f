import { describe, expect, test } from 'vitest';
import { readQuantity } from '../../src/core/quantity/units.ts';
import { CHAPTERS } from '../../src/commands/field-reference.ts';
import { fieldAt, fieldsOf } from '../../src/schema/outline.ts';

const all = CHAPTERS.flatMap(({ name, schema }) => fieldsOf(schema).map((field) => ({ name, field })));
const own = all.filter(({ field }) => !field.path.endsWith('[]'));
const quantities = own.filter(({ field }) => field.dimension);

test('there are fields to look at', () => {
  expect(own.length).toBeGreaterThan(150);
  expect(quantities.length).toBeGreaterThan(50);
});

test.each(own.map(({ name, field }) => [`${name}: ${field.path}`, field] as const))(
  '%s is described',
  (_, field) => {
    expect(field.description).toMatch(/^\p{Lu}.{3,}[^.]$/u);
  },
);

describe('quantities', () => {
  test.each(quantities.map(({ name, field }) => [`${name}: ${field.path}`, field] as const))(
    '%s: the example lies within the limits, and both are of its dimension',
    (_, field) => {
      const [low, high] = (field.limits ?? '')
        .split(' to ')
        .map((text) => readQuantity(text, field.dimension!));
      const example = readQuantity(field.example ?? '', field.dimension!);
      const numbers = [low, example, high].map((read) => (typeof read === 'object' ? read.si : NaN));
      expect(numbers.every(Number.isFinite)).toBe(true);
      expect(numbers).toEqual([...numbers].sort((a, b) => a - b));
    },
  );
});

describe('a field by its place', () => {
  const molds = CHAPTERS.find(({ name }) => name === 'molds')!.schema;
  const baits = CHAPTERS.find(({ name }) => name === 'baits')!.schema;

  test('inside lists, groups and wrappers', () => {
    expect(fieldAt(molds, ['cavities', 3, 'revision'])).toMatchObject({ kind: 'text', required: true });
    expect(fieldAt(molds, ['runner'])).toMatchObject({
      kind: 'group',
      required: false,
      keys: ['diameter', 'length'],
    });
    expect(fieldAt(molds, ['gate', 'at'])).toMatchObject({
      kind: 'choice',
      required: false,
      default: 'nose',
    });
    expect(fieldAt(molds, ['bait'])).toMatchObject({ references: 'baits' });
    expect(fieldAt(baits, ['revisions', 0, 'mesh', 'features', 0, 'box', 'from', 2])).toMatchObject({
      kind: 'quantity',
      description: 'up',
    });
  });

  test('nothing where the schema knows no such place', () => {
    expect(fieldAt(molds, ['cavities', 0, 'colour'])).toBeUndefined();
    expect(fieldAt(molds, ['name', 'first'])).toBeUndefined();
  });
});
