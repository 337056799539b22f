import type { Brief } from '../../sheet/brief.ts';
import { figureOf } from '../figure/homes.ts';

/** One thing that can be chosen. */
export interface Choice {
  readonly value: string;
  readonly label: string;
}

/** A way to narrow the catalogue: a sheet stays when one of its values is the chosen one. */
export interface Filter {
  readonly name: string;
  readonly label: string;
  readonly choices: readonly Choice[];
  readonly valuesOf: (sheet: Brief) => readonly string[];
}

const slug = (text: string) =>
  text
    .toLowerCase()
    .replace(/[^a-z0-9]+/gu, '-')
    .replace(/^-|-$/gu, '');

const choicesOf = (words: readonly string[]): Choice[] =>
  [...new Set(words)].map((label) => ({ value: slug(label), label }));

const sorted = (words: readonly string[]) => [...words].sort((a, b) => (a < b ? -1 : 1));

/** Limits between short, middling and long baits [mm]: 3 and 4.5 in. */
const LENGTHS = [
  { value: 'short', most: 76.2 },
  { value: 'middle', most: 114.3 },
  { value: 'long', most: Infinity },
] as const;

function lengthFilter(units: Brief['shop']['units']): Filter {
  const at = (mm: number) =>
    units === 'us' ? `${mm / 25.4} in (${Math.round(mm)} mm)` : `${Math.round(mm)} mm (${mm / 25.4} in)`;
  return {
    name: 'length',
    label: 'Bait length',
    choices: [
      { value: 'short', label: `up to ${at(76.2)}` },
      { value: 'middle', label: `up to ${at(114.3)}` },
      { value: 'long', label: `over ${at(114.3)}` },
    ],
    valuesOf: (sheet) => {
      const length = figureOf(sheet, 'bait.length').value;
      return [LENGTHS.find(({ most }) => length <= most)?.value ?? 'long'];
    },
  };
}

const CAVITIES = [
  { value: 'one', label: '1', most: 1 },
  { value: 'two', label: '2', most: 2 },
  { value: 'some', label: '3 or 4', most: 4 },
  { value: 'many', label: '5 or more', most: Infinity },
] as const;

const COLD = [
  { value: 'cold', label: 'yes, surely', codes: ['fills cold'] },
  { value: 'likely', label: 'yes or likely', codes: ['fills cold', 'likely fills cold'] },
  { value: 'warm', label: 'wants a warm mold', codes: ['warm it first', 'needs a warm mold', 'too thin'] },
] as const;

/** Every filter of a catalogue; those with nothing to choose are left out. */
export function filtersOf(sheets: readonly Brief[]): Filter[] {
  const units = sheets[0]?.shop.units ?? 'us';
  const injectors = sheets[0]?.injectors.map(({ injector }) => injector) ?? [];
  const filters: Filter[] = [
    lengthFilter(units),
    {
      name: 'family',
      label: 'Family',
      choices: choicesOf(sorted(sheets.map(({ bait }) => bait.family))),
      valuesOf: ({ bait }) => [slug(bait.family)],
    },
    {
      name: 'rig',
      label: 'Rig',
      choices: choicesOf(sorted(sheets.flatMap(({ rigNames }) => rigNames))),
      valuesOf: ({ rigNames }) => rigNames.map(slug),
    },
    {
      name: 'hook',
      label: 'Hook I have',
      choices: hookChoices(sheets),
      valuesOf: (sheet) => usableHooks(sheet).map(slug),
    },
    {
      name: 'injector',
      label: 'Injector I own',
      choices: injectors.map(({ id, name }) => ({ value: slug(id), label: name })),
      valuesOf: (sheet) =>
        sheet.injectors.filter(({ holds }) => holds).map(({ injector }) => slug(injector.id)),
    },
    {
      name: 'cold',
      label: 'Fills cold',
      choices: COLD.map(({ value, label }) => ({ value, label })),
      valuesOf: ({ verdicts }) =>
        COLD.filter(({ codes }) => (codes as readonly string[]).includes(verdicts.cold.code)).map(
          ({ value }) => value,
        ),
    },
    {
      name: 'cavities',
      label: 'Cavities',
      choices: CAVITIES.map(({ value, label }) => ({ value, label })),
      valuesOf: ({ mold }) => [CAVITIES.find(({ most }) => mold.cavities.length <= most)?.value ?? 'many'],
    },
  ];
  return filters.filter(({ choices }) => choices.length > 1);
}

const hookName = ({ size, hook }: Brief['hooks'][number]) => `${size} ${hook.pattern}`;

const usableHooks = (sheet: Brief) =>
  sheet.hooks.filter(({ verdict }) => verdict === 'best' || verdict === 'fits').map(hookName);

/** Hooks that fit some bait of the catalogue, patterns together and sizes from small to large. */
function hookChoices(sheets: readonly Brief[]): Choice[] {
  const inOrder = (sheets[0]?.hooks ?? []).map(hookName);
  const used = new Set(sheets.flatMap(usableHooks));
  const known = [...new Set([...inOrder, ...sheets.flatMap(({ hooks }) => hooks.map(hookName))])];
  return choicesOf(
    known
      .filter((name) => used.has(name))
      .sort((a, b) => (pattern(a) < pattern(b) ? -1 : pattern(a) > pattern(b) ? 1 : 0)),
  );
}

const pattern = (name: string) => name.slice(name.indexOf(' ') + 1);

/** An order of the catalogue. */
export interface Order extends Choice {
  readonly by: (sheet: Brief) => number;
}

/** Orders besides that of the names, which the page is written in. */
export const ORDERS: readonly Order[] = [
  { value: 'shortest', label: 'shortest bait first', by: (sheet) => figureOf(sheet, 'bait.length').value },
  { value: 'longest', label: 'longest bait first', by: (sheet) => -figureOf(sheet, 'bait.length').value },
  { value: 'shot', label: 'smallest shot first', by: (sheet) => figureOf(sheet, 'shot.total').value },
  { value: 'cavities', label: 'most cavities first', by: ({ mold }) => -mold.cavities.length },
  { value: 'newest', label: 'newest first', by: (sheet) => -dayOf(sheet) },
];

const dayOf = ({ mold, revision }: Brief) => Number((mold.released ?? revision.date).replaceAll('-', ''));

/** What the filters know of a sheet, as attributes of its place in the list. */
export function filterMarks(sheet: Brief, filters: readonly Filter[]): Record<string, string> {
  return Object.fromEntries(
    filters.map(({ name, valuesOf }) => [`data-${name}`, [...new Set(valuesOf(sheet))].join(' ')]),
  );
}
