import { afterPaint } from '../after-paint.ts';
import { planAnswer } from '../../core/plan/answer.ts';
import { linkOfPlan, planFromLink, type PlanData, type PlanState } from '../../core/plan/plan-state.ts';
import type { UnitSystem } from '../../core/quantity/print.ts';
import { benchCard, headline } from './card.ts';
import { el } from './dom.ts';
import { plannerForm } from './form.ts';

/** Parameters of the address that belong to the page and not to the plan. */
const KEPT = ['u'];

/** The address of a page with the whole plan in it. */
function addressOf(base: string, state: PlanState, data: PlanData): URL {
  const address = new URL(base, location.href);
  const kept = KEPT.flatMap((name) => {
    const value = new URLSearchParams(location.search).get(name);
    return value === null ? [] : [[name, value]];
  });
  address.search = new URLSearchParams([...kept, ...linkOfPlan(state, data)]).toString();
  return address;
}

function actions(host: HTMLElement, page: string | undefined) {
  const print = el('button', { type: 'button', class: 'button' }, 'Print the bench card');
  print.addEventListener('click', () => window.print());
  const elsewhere = el('a', {}, 'Open it on a page of its own, to print it or to add molds');
  host.append(el('p', { class: 'plan-actions' }, page === undefined ? print : elsewhere));
  return { print, elsewhere };
}

/**
 * Puts the planner into its place.
 *
 * @param host - the element; `data-page` names the planner's own page where this is not it
 * @param data - molds, compounds and injectors to choose from
 */
export function showPlanner(host: HTMLElement, data: PlanData): void {
  const first: UnitSystem = host.dataset['first'] === 'metric' ? 'metric' : 'us';
  const page = host.dataset['page'];
  const state = planFromLink((name) => new URLSearchParams(location.search).get(name), data);
  const status = el('p', { class: 'plan-status', role: 'status' });
  const card = el('div', { class: 'plan-card' });
  // A letter shows before the plan that it changes.
  const form = plannerForm(
    data,
    state,
    afterPaint(() => update(true)),
  );
  host.replaceChildren(form.root, status, card);
  const { print, elsewhere } = actions(host, page);
  const update = (typed: boolean): void => {
    const now = form.read();
    const answer = planAnswer(now, data);
    form.show(answer.problems);
    if (page !== undefined) elsewhere.href = addressOf(page, now, data).href;
    if (typed) history.replaceState(history.state, '', addressOf(location.href, now, data));
    const { plan } = answer;
    print.hidden = plan === null;
    if (!plan) {
      const wrong = Object.keys(answer.problems).length > 0;
      status.textContent = wrong ? 'Something in the form needs a look.' : 'Say how many baits you want.';
      card.replaceChildren();
      return;
    }
    const facts = { data, state: now, answer: { ...answer, plan }, first };
    status.textContent = headline(facts);
    card.replaceChildren(benchCard(facts));
  };
  update(false);
}
