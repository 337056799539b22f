import { z } from 'zod';
import { spellings, type Dimension } from '../core/quantity/units.ts';
import { CHAPTERS } from './field-reference.ts';

interface Facts {
  description?: string;
  dimension?: Dimension;
  limits?: string;
  example?: string;
  references?: string;
}

/** What fields say about themselves beyond the words of JSON Schema. */
const OWN_WORDS = ['dimension', 'limits', 'example', 'references', 'file'];

/** JSON Schema of every collection, for editors, by file name. */
export function jsonSchemas(): Map<string, string> {
  return new Map(
    CHAPTERS.map(({ name, about, schema }) => {
      const made = z.toJSONSchema(schema, {
        io: 'input',
        unrepresentable: 'any',
        reused: 'inline',
        override: explain,
      });
      const titled = { ...made, title: name, description: about };
      return [`${name}.json`, `${JSON.stringify(titled, undefined, 2)}\n`];
    }),
  );
}

/** Turns what the fields say about themselves into words and patterns that an editor shows. */
function explain({ jsonSchema }: { jsonSchema: z.core.JSONSchema.BaseSchema }): void {
  const { description, dimension, limits, example, references } = jsonSchema as Facts;
  const said = [
    description?.replace(/\.$/u, ''),
    limits && `Limits: ${limits}`,
    references && `An id in ${references}`,
  ].filter(Boolean);
  if (said.length > 0) jsonSchema.description = `${said.join('. ')}.`;
  if (example !== undefined) jsonSchema.examples = [example];
  if (dimension && jsonSchema.type === 'string') jsonSchema.pattern = quantityPattern(dimension);
  for (const name of OWN_WORDS) Reflect.deleteProperty(jsonSchema, name);
}

function quantityPattern(dimension: Dimension): string {
  const units = spellings(dimension).map(({ spelling }) => spelling.replace(/[\\^$.*+?()[\]{}|/]/gu, '\\$&'));
  return `^\\s*[+-]?(\\d+(\\.\\d+)?|\\.\\d+)([eE][+-]?\\d{1,3})?\\s*(${units.join('|')})\\s*$`;
}
