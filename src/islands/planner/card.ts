import type { PlanAnswer } from '../../core/plan/answer.ts';
import type { PlanData, PlanState } from '../../core/plan/plan-state.ts';
import type { MoldPlan, SessionPlan } from '../../core/plan/session-parts.ts';
import { band, type Band } from '../../core/quantity/band.ts';
import { printedBoth, type UnitSystem } from '../../core/quantity/print.ts';
import type { UnitCode } from '../../core/quantity/units.ts';
import { el, quantity, shown } from './dom.ts';

/** What a bench card is printed from. */
export interface CardFacts {
  readonly data: PlanData;
  readonly state: PlanState;
  readonly answer: PlanAnswer & { readonly plan: SessionPlan };
  readonly first: UnitSystem;
}

type Row = readonly [name: string, amount: Node | string, note?: string];

function table(name: string, rows: readonly Row[]): HTMLElement {
  return el(
    'section',
    { class: 'card-part' },
    el('h3', {}, name),
    el(
      'table',
      { class: 'compact' },
      el(
        'tbody',
        {},
        ...rows.map(([label, amount, note]) =>
          el(
            'tr',
            {},
            el('th', { scope: 'row' }, label, note ? el('small', {}, note) : null),
            el('td', {}, amount),
          ),
        ),
      ),
    ),
  );
}

const nameOf = (listed: readonly { id: string; name: string }[], id: string) =>
  listed.find((one) => one.id === id)?.name ?? '';

const plural = (count: number, one: string, many = `${one}s`) => `${count} ${count === 1 ? one : many}`;

function cupRows({ data, state, answer, first }: CardFacts): Row[] {
  const { measured, balance } = answer.plan;
  const amount = (si: Band, unit: UnitCode) => quantity(shown(si, unit), first);
  const { blend } = answer;
  const liquids: Row[] = blend
    ? [
        [nameOf(data.compounds, state.fields.compound), amount(blend.own, 'mL')],
        [
          blend.name,
          amount(blend.other, 'mL'),
          `${Math.round(100 * blend.share.value)} % of the liquid; try a little first`,
        ],
      ]
    : [];
  const stirred: Row[] = [
    ['Salt', amount(measured.salt, 'g')],
    ['Hollow glass', amount(measured.microballoons, 'g'), 'Wear a dust mask: it floats in the air'],
    ['Old sprues, clean and dry', amount(balance.remelted, 'g')],
  ];
  const used = [measured.salt, measured.microballoons, balance.remelted];
  return [
    ['Liquid compound, in all', amount(measured.liquid, 'mL')],
    ...liquids,
    ...stirred.filter((_, index) => (used[index]?.value ?? 0) > 0),
    ['Glitter, if you like', amount(measured.glitter, 'mL'), 'half to two teaspoons a cup'],
    ['Liquid colour, if you like', amount(measured.colour, 'mL'), 'a fifth of a teaspoon to one a cup'],
  ];
}

function heatRows({ data, state, first }: CardFacts): Row[] {
  const pour = data.compounds.find(({ id }) => id === state.fields.compound)?.pour;
  if (!pour) return [];
  const at = (kelvin: number) => quantity(shown(band(kelvin), 'Cel'), first);
  return [
    ['Pour at', at(pour.nominal)],
    ['Never over', at(pour.high)],
    ['Not fused under', at(pour.low)],
  ];
}

function moldNote(plan: MoldPlan, preheat: boolean, colours: string): string {
  const plate = preheat ? 'Warm the block first, on a hot plate: its thin parts want it. ' : '';
  const warm = plan.warmUps > 0 ? `${plural(plan.warmUps, 'warm-up shot')} first, then ` : '';
  const held =
    plan.perFilling >= 1
      ? `One filling holds ${plural(plan.perFilling, 'shot')}; fill for each.`
      : `The injector does not hold one shot: fill fewer cavities, or use ${plan.fillings / (plan.shots + plan.warmUps)} injectors in step. A second filling behind the first leaves a cold seam.`;
  return `${plate}${warm}${plural(plan.shots, 'shot')}. ${held}${colours}`;
}

function moldRows({ data, answer, first }: CardFacts): Row[] {
  return answer.plan.rotation.order.flatMap((id, index): Row[] => {
    const plan = answer.plan.molds.find((one) => one.id === id);
    const mold = data.molds.find((one) => one.id === id);
    if (!plan || !mold) return [];
    const both = plan.colours?.map((one) => printedBoth(shown(one, 'mL'), first));
    const colours = both ? ` Two colours: ${both[0]} for the nose part, ${both[1]} for the tail part.` : '';
    return [
      [
        `${index + 1}. ${mold.name}: ${plural(plan.baits, 'bait')}`,
        quantity(shown(plan.shot, 'mL'), first),
        moldNote(plan, mold.preheat, colours),
      ],
    ];
  });
}

function timeRows({ answer, first }: CardFacts): Row[] {
  const { time, rotation } = answer.plan;
  const minutes = (seconds: Band) => quantity(shown(seconds, 'min'), first);
  const several = rotation.order.length > 1;
  return [
    ['From the first draw to the last bait', minutes(time), 'Heating the compound comes before it'],
    ['Hands idle, of that', minutes(band(rotation.waiting))],
    ...(several ? [['Without taking turns', minutes(band(rotation.apart))] as const] : []),
  ];
}

function balanceRows({ answer, first }: CardFacts): Row[] {
  const { balance } = answer.plan;
  const rows: readonly (readonly [string, Band])[] = [
    ['Heated', balance.heated],
    ['In the baits', balance.baits],
    ['In sprues and runners, to melt again', balance.sprues],
    ['In warm-up shots, to melt again', balance.scrap],
    ['On cup and injector', balance.clinging],
    ['Left in the cup', balance.heel],
  ];
  return rows
    .filter(([, amount]) => amount.value > 0)
    .map(([name, amount]) => [name, quantity(shown(amount, 'g'), first)]);
}

const SHELF = {
  enough: 'What is on the shelf is enough.',
  barely: 'What is on the shelf is enough at the nominal figures, with nothing to spare.',
  short: 'What is on the shelf is not enough.',
} as const;

function costRows({ answer }: CardFacts): Row[] {
  const { cost } = answer;
  if (!cost) return [];
  const money = ({ value, low, high }: Band) =>
    `${value.toFixed(2)} (${low.toFixed(2)} to ${high.toFixed(2)})`;
  return [
    ['Materials', money(cost.whole), 'Compound and salt, in the currency of your price'],
    ['Each bait', money(cost.each)],
  ];
}

/** What the plan comes to in one sentence. */
export function headline({ answer, first }: CardFacts): string {
  const { baits, shots, measured, shelf } = answer.plan;
  const liquid = printedBoth(shown(measured.liquid, 'mL'), first);
  const stock = shelf === null ? '' : ` ${SHELF[shelf]}`;
  return `${plural(baits, 'bait')} in ${plural(shots, 'shot')}: measure out ${liquid} of liquid compound.${stock}`;
}

/** Compound and injector that the plan is for. */
function withWords({ data, state: { fields } }: CardFacts): string {
  const injector = nameOf(data.injectors, fields.injector) || `injector of ${fields.capacity}`;
  return `${nameOf(data.compounds, fields.compound)}, ${injector}.`;
}

/** The plan as a card for the bench. */
export function benchCard(facts: CardFacts): HTMLElement {
  const several = facts.answer.plan.rotation.order.length > 1;
  const cost = costRows(facts);
  return el(
    'article',
    { class: 'bench-card' },
    el('h2', {}, 'Bench card'),
    el('p', { class: 'lead' }, headline(facts)),
    el(
      'p',
      { class: 'card-caution' },
      el('strong', {}, 'Hot plastisol burns and its fumes harm. '),
      'Face shield, long gloves, moving air, nothing wet near it. The safety data sheet of your compound comes first.',
    ),
    el('p', { class: 'card-with' }, withWords(facts)),
    table('Into the cup', cupRows(facts)),
    table('Heat', heatRows(facts)),
    table(several ? 'Shoot in turn, one shot each, round and round' : 'Shoot', moldRows(facts)),
    table('Time', timeRows(facts)),
    table('Where it goes', balanceRows(facts)),
    ...(cost.length > 0 ? [table('Cost', cost)] : []),
  );
}
