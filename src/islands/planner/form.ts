import {
  OWN_INJECTOR,
  PRICE_UNITS,
  SOFTENER,
  type Field,
  type PlanData,
  type PlanState,
} from '../../core/plan/plan-state.ts';
import { UNITS } from '../../core/quantity/units.ts';
import { el } from './dom.ts';

type Choice = readonly [value: string, name: string];

/** The form: reads the plan as typed, and shows what is wrong beside its field. */
export interface PlannerForm {
  readonly root: HTMLFormElement;
  readonly read: () => PlanState;
  readonly show: (problems: Readonly<Record<string, string>>) => void;
}

interface Labelled {
  readonly row: HTMLElement;
  readonly input: HTMLInputElement | HTMLSelectElement;
  readonly problem: HTMLElement;
}

/** A control with its label, a hint, and room for what is wrong with it. */
function labelled(id: string, label: string, input: Labelled['input'], hint = ''): Labelled {
  const problem = el('span', { class: 'problem', id: `plan-${id}-problem` });
  input.id = `plan-${id}`;
  input.setAttribute('aria-describedby', `plan-${id}-hint plan-${id}-problem`);
  const row = el(
    'div',
    { class: 'plan-field' },
    el('label', { for: input.id }, label),
    input,
    el('span', { class: 'hint', id: `plan-${id}-hint` }, hint),
    problem,
  );
  return { row, input, problem };
}

const typed = (value: string, mode: 'numeric' | 'decimal' | 'text' = 'text') =>
  el('input', { type: 'text', inputmode: mode, autocomplete: 'off', maxlength: '40', value });

const chosen = (value: string, choices: readonly Choice[]) =>
  el(
    'select',
    {},
    ...choices.map(([one, name]) => el('option', { value: one, selected: one === value }, name)),
  );

const signs = (codes: readonly (keyof typeof UNITS)[]): Choice[] =>
  codes.map((code) => [UNITS[code].sign, `a ${UNITS[code].sign}`]);

function fieldsOf(data: PlanData, { fields }: PlanState): Record<Field, Labelled> {
  const compounds: Choice[] = data.compounds.map(({ id, name }) => [id, name]);
  const injectors: Choice[] = [
    ...data.injectors.map(({ id, name }): Choice => [id, name]),
    [OWN_INJECTOR, 'Another one'],
  ];
  const blends: Choice[] = [['', 'Nothing'], ...compounds, [SOFTENER, 'Softener (plain plasticiser)']];
  const text = (field: Field, label: string, hint = '') => labelled(field, label, typed(fields[field]), hint);
  const number = (field: Field, label: string, hint = '') =>
    labelled(field, label, typed(fields[field], 'decimal'), hint);
  const choice = (field: Field, label: string, choices: readonly Choice[]) =>
    labelled(field, label, chosen(fields[field], choices));
  return {
    compound: choice('compound', 'Compound', compounds),
    injector: choice('injector', 'Injector you own', injectors),
    capacity: text('capacity', 'Its volume', 'like 5 fl oz or 150 mL'),
    shelf: text('shelf', 'Compound on the shelf', 'like 1 qt, 0.5 gal or 2 L; may stay empty'),
    heel: text('heel', 'Left in the cup at the end', 'what no draw reaches'),
    old: number('old', 'Old sprues melted in, %', '0 to 50'),
    salt: number('salt', 'Salt, % by mass', '0 to 40'),
    glass: number('glass', 'Hollow glass, % by mass', '0 to 10'),
    blend: choice('blend', 'Blend in', blends),
    hardness: number('hardness', 'to reach Shore 00', 'between the two'),
    price: number('price', 'Price of compound', 'any currency; may stay empty'),
    per: choice('per', 'for', signs(PRICE_UNITS.compound)),
    saltPrice: number('saltPrice', 'Price of salt', ''),
    saltPer: choice('saltPer', 'for', signs(PRICE_UNITS.salt)),
  };
}

const group = (name: string, ...rows: readonly Node[]) => el('fieldset', {}, el('legend', {}, name), ...rows);

/** Rows for the baits of each mold, and the control that adds one. */
function baitRows(data: PlanData, state: PlanState, changed: () => void) {
  const rows = new Map<string, Labelled>();
  const list = el('div', { class: 'baits' });
  const add = (id: string, count: string) => {
    const mold = data.molds.find((one) => one.id === id);
    if (!mold || rows.has(id)) return rows.get(id);
    const made = labelled(id, mold.name, typed(count, 'numeric'), `baits; ${mold.cavities} at a time`);
    rows.set(id, made);
    list.append(made.row);
    return made;
  };
  for (const [id, count] of Object.entries(state.baits)) add(id, count);
  if (data.molds.length === 1) add(data.molds[0]?.id ?? '', '');
  const pick = chosen(
    '',
    data.molds.map(({ id, name }) => [id, name]),
  );
  const button = el('button', { type: 'button', class: 'button quiet' }, 'Add this mold');
  button.addEventListener('click', () => {
    add(pick.value, '50')?.input.focus();
    changed();
  });
  const adder = labelled('mold', 'Mold', pick);
  const several = data.molds.length > 1 ? [adder.row, button] : [];
  return { rows, root: group('How many baits', list, ...several) };
}

/**
 * The planner's form, filled with a plan.
 *
 * @param data - what there is to choose from
 * @param state - the plan to begin with
 * @param changed - called at every change
 */
export function plannerForm(data: PlanData, state: PlanState, changed: () => void): PlannerForm {
  const baits = baitRows(data, state, changed);
  const fields = fieldsOf(data, state);
  const row = (...names: readonly Field[]) => names.map((name) => fields[name].row);
  const more = ['salt', 'glass', 'blend', 'hardness', 'price', 'saltPrice'] as const;
  const used = more.some((name) => !['', '0'].includes(state.fields[name]));
  const root = el(
    'form',
    { class: 'plan-form' },
    baits.root,
    group('What you have', ...row('compound', 'injector', 'capacity', 'shelf', 'heel', 'old')),
    el(
      'details',
      { class: 'plan-more', open: used },
      el('summary', {}, 'Salt, hardness, price'),
      group('Stirred in', ...row('salt', 'glass')),
      group('Harder or softer', ...row('blend', 'hardness')),
      group('Cost', ...row('price', 'per', 'saltPrice', 'saltPer')),
    ),
  );
  const hideOwn = () => {
    fields.capacity.row.hidden = fields.injector.input.value !== OWN_INJECTOR;
  };
  hideOwn();
  root.addEventListener('submit', (event) => event.preventDefault());
  root.addEventListener('input', () => {
    hideOwn();
    changed();
  });
  return {
    root,
    read: () => ({
      baits: Object.fromEntries([...baits.rows].map(([id, { input }]) => [id, input.value])),
      fields: Object.fromEntries(
        Object.entries(fields).map(([name, { input }]) => [name, input.value]),
      ) as Record<Field, string>,
    }),
    show: (problems) => {
      for (const [name, { input, problem }] of [...baits.rows, ...Object.entries(fields)]) {
        const wrong = problems[name] ?? '';
        if (problem.textContent === wrong) continue;
        problem.textContent = wrong;
        input.setAttribute('aria-invalid', String(wrong !== ''));
      }
    },
  };
}
