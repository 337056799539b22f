import { readdir, readFile } from 'node:fs/promises';
import { Ajv2020 } from 'ajv/dist/2020.js';
import { expect, test } from 'vitest';
import { CHAPTERS, fieldReference } from '../../src/commands/field-reference.ts';
import { jsonSchemas } from '../../src/commands/json-schemas.ts';
import { readCatalogue } from '../../src/io/catalogue.ts';
import { fieldsOf } from '../../src/schema/outline.ts';
import { TINY } from '../support/temporary.ts';

test('content/README.md is fresh: run "npm run docs" after a change of a schema', async () => {
  expect(fieldReference()).toBe(await readFile('content/README.md', 'utf8'));
});

test('public/schema/ is fresh: run "npm run docs" after a change of a schema', async () => {
  const made = jsonSchemas();
  expect((await readdir('public/schema')).sort()).toEqual([...made.keys()].sort());
  for (const [name, text] of made) expect(await readFile(`public/schema/${name}`, 'utf8')).toBe(text);
});

test('the reference has a row for every field', () => {
  const text = fieldReference();
  for (const { schema } of CHAPTERS) {
    for (const { path } of fieldsOf(schema))
      if (!path.endsWith('[]')) expect(text).toContain(`| \`${path}\` |`);
  }
});

test('the JSON Schemas take what the reader takes, and refuse a missing unit and an unknown key', async () => {
  const reading = await readCatalogue(TINY);
  if ('problems' in reading) throw new Error('the tiny catalogue has mistakes');
  const ajv = new Ajv2020({ strict: false, validateFormats: false });
  for (const { collection, data } of reading.written) {
    const check = ajv.compile(JSON.parse(jsonSchemas().get(`${collection}.json`) ?? '{}') as object);
    expect([collection, check(data), check.errors]).toEqual([collection, true, null]);
    expect(check({ ...(data as object), surprise: 1 })).toBe(false);
  }
  const injector = ajv.compile(JSON.parse(jsonSchemas().get('injectors.json') ?? '{}') as object);
  const written = reading.written.find(({ collection }) => collection === 'injectors')?.data as object;
  expect(injector({ ...written, capacity: '4' })).toBe(false);
  expect(injector({ ...written, capacity: 4 })).toBe(false);
});
