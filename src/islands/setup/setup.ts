import { setupAnswer, type SetupAnswer, type SetupChoice, type SetupData } from '../../core/fill/setup.ts';
import type { UnitSystem } from '../../core/quantity/print.ts';
import { el, quantity } from '../planner/dom.ts';
import { startWorker } from '../worker.ts';
import { bothTemperatures } from './degrees.ts';
import type { FillOrder, FillReport } from './fill-worker.ts';
import { setupForm } from './form.ts';
import workerAddress from './fill-worker.ts?worker&url';
import { mapPicture } from './map.ts';

const WORDS = {
  fills: 'Fills, even with stiff plastic and a light push.',
  'may come short':
    'Fills with the usual plastic and push; with stiff plastic or a light push it may come short.',
  'comes short': 'Comes short.',
} as const;
const TONES = { fills: 'good', 'may come short': 'doubt', 'comes short': 'bad' } as const;

/** Rest after the last change before the filling is run [ms]. */
const REST = 150;

/** What the compound's own limits say against a pour; empty when nothing does. */
function limitWords(data: SetupData, { compound, pour }: SetupChoice, first: UnitSystem): string {
  const limits = data.compounds.find(({ id }) => id === compound)?.pour;
  if (!limits) return '';
  if (pour > limits.high + 0.3) {
    return `Too hot: never over ${bothTemperatures(limits.high, first)}. It may break down and give off hydrogen chloride.`;
  }
  if (pour < limits.low - 0.3)
    return `Too cool: under ${bothTemperatures(limits.low, first)} it is not fused.`;
  return '';
}

function answerRows(answer: SetupAnswer, first: UnitSystem): HTMLElement {
  const rows = answer.parts.map(({ label, reserve }) => {
    const { value, low, high } = reserve;
    return el(
      'tr',
      {},
      el('th', { scope: 'row' }, label),
      el('td', {}, quantity({ value, low, high, unit: '1' }, first)),
    );
  });
  const head = el('tr', {}, el('th', { scope: 'col' }, 'Part'), el('th', { scope: 'col' }, 'Reserve'));
  return el('table', { class: 'compact' }, el('thead', {}, head), el('tbody', {}, ...rows));
}

/** Runs fillings beside the page, the latest asked for first. */
function fillings(data: SetupData, show: (report: FillReport) => void) {
  const worker = startWorker(workerAddress);
  let turn = 0;
  let timer = 0;
  worker.addEventListener('message', ({ data: report }: MessageEvent<FillReport>) => {
    if (report.turn === turn) show(report);
  });
  return (choice: SetupChoice): void => {
    turn++;
    clearTimeout(timer);
    const order: FillOrder = { data, choice, turn };
    timer = window.setTimeout(() => worker.postMessage(order), REST);
  };
}

/**
 * Puts "your set-up" into its place.
 *
 * @param host - the element
 * @param data - what it is answered from
 */
export function showSetup(host: HTMLElement, data: SetupData): void {
  const first: UnitSystem = host.dataset['first'] === 'metric' ? 'metric' : 'us';
  const status = el('p', { class: 'plan-status', role: 'status' });
  const details = el('div', { class: 'setup-parts' });
  const picture = el('figure', { class: 'setup-figure' });
  const run = fillings(data, ({ map }) => {
    if (!map) {
      picture.replaceChildren();
      return;
    }
    const short = map.short.includes(1);
    const caption = short
      ? `Stops after ${map.end.toFixed(1)} s; what is left short is hatched.`
      : `Full after ${map.end.toFixed(1)} s; the stronger the shade, the later.`;
    picture.replaceChildren(
      mapPicture(map, data),
      el('figcaption', {}, `${caption} Usual plastic and push.`),
    );
  });
  const update = (): void => {
    const { choice } = form.read();
    const limit = choice && limitWords(data, choice, first);
    if (!choice || limit) {
      status.replaceChildren(
        limit ? el('strong', { class: 'word bad' }, limit) : 'Something in the form needs a look.',
      );
      details.replaceChildren();
      picture.replaceChildren();
      return;
    }
    const answer = setupAnswer(data, choice);
    const held = data.injectors.find(({ id }) => id === choice.injector)?.holds;
    const small = held === false ? ' This injector does not hold a whole shot.' : '';
    status.replaceChildren(
      el('strong', { class: `word ${TONES[answer.verdict]}` }, answer.verdict),
      ` ${WORDS[answer.verdict]} Mold at ${bothTemperatures(answer.mold.value, first)}.${small}`,
    );
    details.replaceChildren(answerRows(answer, first));
    run(choice);
  };
  const form = setupForm(data, first, update);
  host.replaceChildren(el('h3', {}, 'Your set-up'), form.root, status, details, picture);
  update();
}
