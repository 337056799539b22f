import type { z } from 'zod';
import { UNITS, spellings, type Dimension } from '../core/quantity/units.ts';
import { COLLECTIONS, guideSchema, shopSchema } from '../schema/collections.ts';
import { fieldsOf, type Field } from '../schema/outline.ts';
import { meshLimitsText } from './mesh-limits.ts';

/** A collection as the reference presents it. */
export interface Chapter {
  readonly name: string;
  readonly where: string;
  readonly about: string;
  readonly schema: z.ZodType;
}

/** Every collection in the order in which a maker meets it. */
export const CHAPTERS: readonly Chapter[] = [
  { name: 'shop', where: 'shop.yaml', about: 'Who you are. One file.', schema: shopSchema },
  {
    name: 'baits',
    where: 'baits/ID.yaml',
    about: 'A design and all its revisions, the oldest first.',
    schema: COLLECTIONS.baits,
  },
  { name: 'molds', where: 'molds/ID.yaml', about: 'A mold and its listing.', schema: COLLECTIONS.molds },
  { name: 'plastisols', where: 'plastisols/ID.yaml', about: 'A compound.', schema: COLLECTIONS.plastisols },
  {
    name: 'hooks',
    where: 'hooks/ID.yaml',
    about: 'A hook pattern and its sizes.',
    schema: COLLECTIONS.hooks,
  },
  { name: 'injectors', where: 'injectors/ID.yaml', about: 'A hand injector.', schema: COLLECTIONS.injectors },
  {
    name: 'trials',
    where: 'trials/ID.yaml',
    about: 'A water test of one revision.',
    schema: COLLECTIONS.trials,
  },
  {
    name: 'guides',
    where: 'guides/ID.mdx',
    about:
      'A page of prose. The fields stand at the top of the file, between two lines `---`. A guide that a catalogue does not have is taken from `content/guides/` of the project.',
    schema: guideSchema,
  },
];

const INTRODUCTION = `# What goes into a catalogue

This page is made from the schemas by \`npm run docs\`; do not edit it.

A catalogue is a folder of YAML files, one file a thing. The name of a file without its ending is the **id** of the
thing: lower-case letters, digits and dashes. Ids are how one file names another: \`bait: peg\` means \`baits/peg.yaml\`.
Meshes and pictures may lie anywhere below the folder; a path to one starts at the folder.

- \`npm run check\` reads everything and prints every mistake with file, line and column, and what to do.
- \`CONTENT_DIR=path npm run check\` checks another folder.
- Editors that know YAML complete and check fields with the JSON Schemas in \`public/schema/\`. Put this line at the top
  of a file: \`# yaml-language-server: $schema=../../public/schema/molds.json\`.

## How to write

- **Quantity**: a number with its unit, as you say it: \`5.25 in\`, \`1.5 thou\`, \`330 °F\`, \`4 fl oz\`, \`38 mm\`. A quantity
  without a unit is a mistake. The units are in the last chapter.
- **Banded quantity**: a group with \`nominal\`, \`source\` and, where you know them, \`low\` and \`high\`; left out, low and high
  are the nominal. A source has a \`title\` (author, title, year; or who measured it and how), a \`kind\` (\`published\`,
  \`common practice\`, \`estimate\`, \`measured\`, \`stated\` or \`invented for the demo\`) and, if need be, a \`note\`.
- **Point**: a list of three lengths: along the bait from the nose, across, and up out of the parting plane.
- **Number**: a plain decimal number: \`4\`, \`0.35\`.
- **Date**: \`'2026-03-14'\`, in quotes.
- \`name[]\` is a list; \`name[].key\` is a key of each thing in the list.
`;

/** The reference of every field, as Markdown. */
export function fieldReference(): string {
  return [INTRODUCTION, ...CHAPTERS.map(chapterText), meshLimitsText(), unitsText()].join('\n');
}

function chapterText({ name, where, about, schema }: Chapter): string {
  const fields = fieldsOf(schema);
  const rows = fields
    .filter(({ path }) => !path.endsWith('[]'))
    .map((field) =>
      rowText(
        field,
        fields.find(({ path }) => path === `${field.path}[]`),
      ),
    );
  return [
    `## ${name}: \`${where}\``,
    '',
    about,
    '',
    '| field | write | meaning | limits | needed | example |',
    '| --- | --- | --- | --- | --- | --- |',
    ...rows,
    '',
  ].join('\n');
}

/** One row; a list of plain things takes its limits from them. */
function rowText(field: Field, item: Field | undefined): string {
  const { choices, limits } = item ?? field;
  const cells = [
    `\`${field.path}\``,
    item ? `list: ${written(item)}` : written(field),
    field.description,
    choices ? choices.map((choice) => `\`${choice}\``).join(', ') : (limits ?? ''),
    needed(field),
    field.example === undefined ? '' : `\`${field.example}\``,
  ];
  return `| ${cells.map((cell) => cell.replaceAll('|', '\\|')).join(' | ')} |`;
}

function written({ kind, dimension, references, file }: Field): string {
  if (dimension) return `${kind}: ${dimension}`;
  if (references) return `id in \`${references}\``;
  return file ? 'path of a file' : kind;
}

function needed(field: Field): string {
  if (field.required) return 'yes';
  return field.default === undefined || typeof field.default === 'object'
    ? 'no'
    : `no; \`${String(field.default)}\``;
}

function unitsText(): string {
  const used = CHAPTERS.flatMap(({ schema }) => fieldsOf(schema)).map(({ dimension }) => dimension);
  const all = Object.values(UNITS).map(({ dimension }) => dimension);
  const dimensions = [...new Set<Dimension>(all)].filter((dimension) => used.includes(dimension));
  const rows = dimensions.map((dimension) => {
    const known = spellings(dimension).map(({ spelling }) => `\`${spelling}\``);
    return `| ${dimension} | ${known.join(', ')} |`;
  });
  return ['## Units', '', '| measures | write |', '| --- | --- |', ...rows, ''].join('\n');
}
