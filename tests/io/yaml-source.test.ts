import { describe, expect, test } from 'vitest';
import { giveBack } from '../../src/io/v8.ts';
import { LIMITS, readYaml } from '../../src/io/yaml-source.ts';

const lines = (text: string): string[] =>
  readYaml('x.yaml', text).problems.map(({ line, column, message }) => `${line}:${column} ${message}`);

describe('what is refused, with its place', () => {
  test.each([
    ['an empty file', '', '1:1 the file is empty'],
    ['a repeated key', 'a: 1\nb: 2\na: 3\n', '3:1 map keys must be unique'],
    ['an alias', 'a: &x 1\nb: *x\n', '2:4 "*x" repeats another part'],
    ['a tag', 'a: !thing 1\n', '1:4 unresolved tag: !thing'],
    ['a second document', 'a: 1\n---\nb: 2\n', '2:1 a second document starts here'],
    ['a key that is a list', '? [a]\n: 1\n', '1:3 a key has to be a plain word'],
    ['a number as a key', '1: a\n', '1:1 a key has to be a plain word'],
  ])('%s', (_, text, expected) => {
    expect(lines(text)).toEqual([expected]);
  });

  test.each(['__proto__', 'constructor', 'prototype'])('the key %s, at any depth', (key) => {
    expect(lines(`a:\n  - b: 1\n    ${key}: 2\n`)).toEqual([`3:5 "${key}" cannot be a key`]);
    expect(Object.keys(Object.prototype)).toEqual([]);
  });

  test.each(['012', '0x10', '0o14', '1e3', '+5', '.5', '5.', '.nan', '.inf', '-.inf'])(
    'the number %s',
    (number) => {
      expect(lines(`a: 1\nb: ${number}\n`)).toEqual([`2:4 "${number}" is not a plain decimal number`]);
    },
  );
});

test.each([
  ['12', 12],
  ['-0.5', -0.5],
  ['1_000', '1_000'],
  ['no', 'no'],
  ['2026-03-14', '2026-03-14'],
  ['12:30:00', '12:30:00'],
  ['"012"', '012'],
])('%s is read as it stands', (written, value) => {
  expect(readYaml('x.yaml', `a: ${written}\n`).source?.data).toEqual({ a: value });
});

/** Flow lists around a number: `depth` levels of list. */
const nested = (depth: number): string => `${'['.repeat(depth)}1${']'.repeat(depth)}\n`;

test('nesting up to the limit is read, one more is refused', () => {
  expect(lines(nested(LIMITS.depth - 1))).toEqual([]);
  expect(lines(nested(LIMITS.depth))).toEqual([`1:${LIMITS.depth + 1} nested too deeply`]);
});

test.each([
  ['brackets', '['.repeat(LIMITS.bytes)],
  ['dashes', '- '.repeat(LIMITS.bytes / 2)],
  ['question marks', '? '.repeat(LIMITS.bytes / 2)],
])('a file full of %s is refused within 5 s', (_, text) => {
  const start = performance.now();
  expect(readYaml('x.yaml', text).problems.map(({ message }) => message)).toContain('nested too deeply');
  expect(performance.now() - start).toBeLessThan(5000);
});

describe('places', () => {
  const { source } = readYaml('x.yaml', 'a:\n  b:\n    - { c: 1 }\n    - d: two\n      e:\n        f: 3\n');
  test.each([
    ['a value', ['a', 'b', 1, 'd'], '4:10'],
    ['a value in braces', ['a', 'b', 0, 'c'], '3:12'],
    ['a group: its key', ['a', 'b', 1, 'e'], '5:7'],
    ['an item of a list', ['a', 'b', 1], '4:7'],
    ['a missing key: what is around it', ['a', 'b', 1, 'e', 'gone'], '5:7'],
    ['a missing item: its list', ['a', 'b', 7], '2:3'],
    ['the whole file', [], '1:1'],
  ])('%s', (_, path, expected) => {
    const at = source?.position(path);
    expect(`${at?.line}:${at?.column}`).toBe(expected);
  });

  test('a key itself', () => {
    expect(source?.keyPosition(['a', 'b', 1, 'e'], 'f')).toEqual({ line: 6, column: 9 });
  });
});

test('places are those of the text, however late and often they are asked for', () => {
  const source = readYaml('x.yaml', 'a:\n  - b: 1\n    c: [2, 3]\n').source!;
  for (let i = 0; i < 2; i++) {
    expect(source.position(['a', 0, 'c', 1])).toEqual({ line: 3, column: 12 });
    expect(source.keyPosition(['a', 0], 'c')).toEqual({ line: 3, column: 5 });
    expect(source.position(['a', 5, 'd'])).toEqual({ line: 1, column: 1 });
    giveBack();
  }
});
