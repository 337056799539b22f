import { printedTemperature, typedTemperature } from './degrees.ts';
import type { SetupChoice, SetupData } from '../../core/fill/setup.ts';
import type { UnitSystem } from '../../core/quantity/print.ts';
import { el } from '../planner/dom.ts';

/** What is in the form: a choice, or what is wrong beside its field. */
export interface SetupReading {
  readonly choice: SetupChoice | null;
  readonly problems: Readonly<Record<string, string>>;
}

/** The form, and how to read it. */
export interface SetupForm {
  readonly root: HTMLFormElement;
  readonly read: () => SetupReading;
}

/** Blocks that make sense [K]. */
const [COLDEST, HOTTEST] = [273.15, 363.15];
const MOST_SHOTS = 500;

function field(id: string, label: string, input: HTMLInputElement | HTMLSelectElement, hint = '') {
  input.id = `setup-${id}`;
  input.setAttribute('aria-describedby', `setup-${id}-hint setup-${id}-problem`);
  const problem = el('span', { class: 'problem', id: `setup-${id}-problem` });
  const row = el(
    'div',
    { class: 'plan-field' },
    el('label', { for: input.id }, label),
    input,
    el('span', { class: 'hint', id: `setup-${id}-hint` }, hint),
    problem,
  );
  return { row, problem, input };
}

const choices = (listed: readonly { readonly id: string; readonly name: string }[], own: string) =>
  el('select', {}, ...listed.map(({ id, name }) => el('option', { value: id, selected: id === own }, name)));

const typed = (value: string, mode: 'text' | 'numeric') =>
  el('input', { type: 'text', inputmode: mode, autocomplete: 'off', maxlength: '12', value });

function moldOf(text: string, shots: string): SetupChoice['mold'] | string {
  if (text.trim() === '') {
    const count = shots.trim() === '' ? 0 : Number(shots);
    const whole = Number.isInteger(count) && count >= 0 && count <= MOST_SHOTS;
    return whole ? { shots: count } : `wants a whole number up to ${MOST_SHOTS}`;
  }
  const temperature = typedTemperature(text);
  if (temperature === null) return 'write it like 130 °F or 55 °C';
  return temperature >= COLDEST && temperature <= HOTTEST
    ? { temperature }
    : 'wants 32 to 194 °F, 0 to 90 °C';
}

/**
 * The form of a set-up.
 *
 * @param data - compounds and injectors to choose from
 * @param first - units to show first
 * @param changed - called after every change
 */
export function setupForm(data: SetupData, first: UnitSystem, changed: () => void): SetupForm {
  const compound = field('compound', 'Compound', choices(data.compounds, data.own.compound));
  const injector = field('injector', 'Injector', choices(data.injectors, data.own.injector));
  const start = data.compounds.find(({ id }) => id === data.own.compound)?.pour.nominal ?? 440;
  const pour = field(
    'pour',
    'Plastic in the cup',
    typed(printedTemperature(start, first), 'text'),
    'like 330 °F',
  );
  const shots = field('shots', 'Shots so far, from a cold block', typed('0', 'numeric'));
  const mold = field(
    'mold',
    'or the mold as measured',
    typed(data.own.mold === undefined ? '' : printedTemperature(data.own.mold, first), 'text'),
    'like 120 °F; may stay empty',
  );
  const rows = { compound, injector, pour, shots, mold };
  const root = el(
    'form',
    { class: 'plan-form' },
    el('fieldset', {}, ...Object.values(rows).map(({ row }) => row)),
  );
  root.addEventListener('input', changed);
  root.addEventListener('submit', (event) => event.preventDefault());
  const read = (): SetupReading => {
    const at = typedTemperature(pour.input.value);
    const block = moldOf(mold.input.value, shots.input.value);
    const problems: Record<string, string> = {};
    if (at === null) problems['pour'] = 'write it like 330 °F or 165 °C';
    if (typeof block === 'string') problems[mold.input.value.trim() === '' ? 'shots' : 'mold'] = block;
    for (const [name, { problem, input }] of Object.entries(rows)) {
      problem.textContent = problems[name] ?? '';
      input.toggleAttribute('aria-invalid', false);
      if (problems[name]) input.setAttribute('aria-invalid', 'true');
    }
    if (at === null || typeof block === 'string') return { choice: null, problems };
    const { value: chosen } = compound.input;
    return { choice: { compound: chosen, injector: injector.input.value, pour: at, mold: block }, problems };
  };
  return { root, read };
}
