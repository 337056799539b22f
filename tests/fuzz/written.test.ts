// Whatever a file holds, reading it gives its data or sentences with their places; it never throws and never takes long.
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { CHAPTERS } from '../../src/commands/field-reference.ts';
import { readQuantity, spellings, UNITS, type Dimension } from '../../src/core/quantity/units.ts';
import { readGuide } from '../../src/io/guide-source.ts';
import { problemLine } from '../../src/io/problem-text.ts';
import { referenceProblems, type Written } from '../../src/io/reference-problems.ts';
import { schemaProblems } from '../../src/io/schema-problems.ts';
import { readYaml } from '../../src/io/yaml-source.ts';
import { COLLECTIONS, type CollectionName } from '../../src/schema/collections.ts';
import type { Problem } from '../../src/schema/problem.ts';

/** Every run draws the same cases; what once failed is kept as an example below. */
const SEED = 20_260_314;
const options = (numRuns: number): fc.Parameters<unknown> => ({ seed: SEED, numRuns });

/** A mistake as an author reads it: one line, a place that counts from 1, something to do. */
function isPlain(problem: Problem): boolean {
  const line = problemLine(problem);
  return (
    problem.line >= 1 &&
    problem.column >= 1 &&
    problem.remedy.length > 0 &&
    !/[\n\r]|\bat .*\.ts:\d|\[object/u.test(line)
  );
}

/** Pieces that YAML is made of, and pieces that break it. */
const PIECES = [
  'name',
  ': ',
  ':',
  '\n',
  '\n  ',
  '\n- ',
  '- ',
  '[',
  ']',
  '{',
  '}',
  ',',
  '"',
  "'",
  '|',
  '>',
  '&a ',
  '*a',
  '<<',
  '!!binary ',
  '%YAML 1.1\n',
  '---\n',
  '...\n',
  '#',
  '\t',
  '? ',
  '__proto__',
  'constructor',
  '012',
  '0x1F',
  '1e999',
  '.nan',
  '.inf',
  '2026-02-30',
  'null',
  '~',
  'yes',
  '5 mm',
  '\u0000',
  '\u202e',
  '\ud800',
  '\ufeff',
  '\u0085',
  '\r',
];

const yamlText = fc.array(fc.oneof(fc.constantFrom(...PIECES), fc.string({ maxLength: 6 })), {
  maxLength: 60,
});

describe(`YAML (seed ${SEED})`, () => {
  test('any text is read, or refused in plain lines', () => {
    fc.assert(
      fc.property(yamlText, (pieces) => {
        const { source, problems } = readYaml('x.yaml', pieces.join(''));
        expect(problems.every(isPlain)).toBe(true);
        expect(source !== undefined || problems.length > 0).toBe(true);
      }),
      options(3000),
    );
    expect(({} as Record<string, unknown>)['polluted']).toBeUndefined();
  });

  test('any data goes through the schemas, or comes back in plain lines', () => {
    const value = fc.jsonValue({ maxDepth: 4 });
    fc.assert(
      fc.property(fc.constantFrom(...CHAPTERS), value, ({ schema }, data) => {
        const { source } = readYaml('x.yaml', JSON.stringify(data));
        if (!source) return;
        const result = schema.safeParse(source.data);
        if (result.success) return;
        const problems = schemaProblems(schema, source, result.error.issues);
        expect(problems.length).toBeGreaterThan(0);
        expect(problems.filter((problem) => !isPlain(problem))).toEqual([]);
      }),
      options(2000),
    );
  });

  // A module without an end once stopped the parser of guides, and with it the whole command.
  test.each(['import  of="*&><`\\', 'export {', 'import'])('a guide that holds %s is refused', (prose) => {
    const text = `---\ntitle: a\nsummary: b\norder: 1\n---\n${prose}`;
    expect(readGuide('x.mdx', text).problems).toHaveLength(1);
  });

  test('a guide of any prose is read, or refused in plain lines', () => {
    const pieces = fc.constantFrom(
      '{',
      '}',
      '<',
      '</',
      '>',
      'Caution',
      ' of="',
      '"',
      '`',
      '[a](',
      ')',
      '\n',
      '# ',
      'import ',
      '*',
      '&',
      '\\',
      '<!--',
      '|',
    );
    fc.assert(
      fc.property(fc.array(pieces, { maxLength: 40 }), (prose) => {
        const text = `---\ntitle: a\nsummary: b\norder: 1\n---\n${prose.join('')}`;
        expect(readGuide('x.mdx', text).problems.every(isPlain)).toBe(true);
      }),
      options(2000),
    );
  });
});

describe(`units (seed ${SEED})`, () => {
  const dimensions = [...new Set<Dimension>(Object.values(UNITS).map(({ dimension }) => dimension))];

  test('any text is a finite number or a sentence', () => {
    const piece = fc.constantFrom(
      '1',
      '-',
      '+',
      '.',
      'e',
      '9',
      ' ',
      'mm',
      'in',
      '°F',
      '"',
      '/',
      '·',
      '½',
      '٣',
      ',',
      '_',
      '0x',
      'Infinity',
      'NaN',
      '\u0000',
    );
    const text = fc.oneof(
      fc.string({ maxLength: 20 }),
      fc.array(piece, { maxLength: 8 }).map((parts) => parts.join('')),
    );
    fc.assert(
      fc.property(fc.constantFrom(...dimensions), text, (dimension, written) => {
        const read = readQuantity(written, dimension);
        if (typeof read === 'string') expect(read.length).toBeGreaterThan(5);
        else expect(Number.isFinite(read.si)).toBe(true);
      }),
      options(5000),
    );
  });

  test('a number and any spelling of a unit read back as that number', () => {
    const all = dimensions.flatMap((dimension) =>
      spellings(dimension).map(({ code, spelling }) => ({ dimension, code, spelling })),
    );
    const number = fc
      .double({ min: -1e6, max: 1e6, noNaN: true })
      .map((value) => Number(value.toPrecision(9)));
    fc.assert(
      fc.property(fc.constantFrom(...all), number, ({ dimension, spelling }, value) => {
        const one = readQuantity(`${value} ${spelling}`, dimension);
        const none = readQuantity(`0 ${spelling}`, dimension);
        const unit = readQuantity(`1 ${spelling}`, dimension);
        if (typeof one === 'string' || typeof none === 'string' || typeof unit === 'string') {
          // Some quantities are never below nought; then they say so.
          expect(value < 0 || typeof one !== 'string').toBe(true);
          return;
        }
        const straight = none.si + value * (unit.si - none.si);
        expect(Math.abs(one.si - straight)).toBeLessThanOrEqual(
          1e-9 * Math.max(Math.abs(straight), Math.abs(none.si), Math.abs(unit.si)),
        );
      }),
      options(3000),
    );
  });
});

describe(`references (seed ${SEED})`, () => {
  const names = Object.keys(COLLECTIONS) as CollectionName[];
  const id = fc.constantFrom('a', 'b', 'c', 'constructor', '__proto__', 'toString');
  const data = fc.oneof(
    fc.jsonValue({ maxDepth: 3 }),
    fc.record({
      bait: id,
      plastisol: id,
      revision: id,
      stock: id,
      cavities: fc.array(fc.record({ revision: id }), { maxLength: 3 }),
      features: fc.array(fc.record({ name: id }), { maxLength: 3 }),
      revisions: fc.array(
        fc.record({
          id,
          sections: fc.record({ appendages: fc.array(fc.record({ name: id }), { maxLength: 3 }) }),
        }),
        { maxLength: 3 },
      ),
    }),
  );
  const entry: fc.Arbitrary<Written> = fc.record({ collection: fc.constantFrom(...names), id, data });

  test('any catalogue is looked through; every finding names an entry of it', () => {
    fc.assert(
      fc.property(fc.array(entry, { maxLength: 8 }), (entries) => {
        for (const { collection, id: own, remedy } of referenceProblems(entries)) {
          expect(entries.some((one) => one.collection === collection && one.id === own)).toBe(true);
          expect(remedy.length).toBeGreaterThan(0);
        }
      }),
      options(2000),
    );
  });

  test('a reference to what is there is never called dangling, and to what is not always', () => {
    fc.assert(
      fc.property(fc.uniqueArray(id, { minLength: 1 }), id, (there, wanted) => {
        const entries: Written[] = [
          ...there.map((one) => ({ collection: 'plastisols' as const, id: one, data: {} })),
          { collection: 'baits', id: 'bait', data: { plastisol: wanted } },
        ];
        const dangling = referenceProblems(entries).some(({ path }) => path[0] === 'plastisol');
        expect(dangling).toBe(!there.includes(wanted));
      }),
      options(500),
    );
  });
});
