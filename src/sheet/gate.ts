import type { EntryProblem, Path } from '../schema/problem.ts';
import type { Catalogue, Entry, Mold, Trial } from '../schema/collections.ts';
import { band } from '../core/quantity/band.ts';
import { figureInput } from '../core/quantity/figure.ts';
import { printed, printedBoth, type UnitSystem } from '../core/quantity/print.ts';
import { fromSI } from '../core/quantity/units.ts';
import { WARMED_TOLERANCE } from './practice.ts';
import { lastTrial } from './trial-study.ts';
import type { Sheet } from './sheet.ts';
import { listed } from './words.ts';

type Refuse = (path: Path, message: string, remedy: string) => EntryProblem;

const refusal =
  (id: string): Refuse =>
  (path, message, remedy) => ({ collection: 'molds', id, path, message, remedy });

/** What an entry may tell customers to warm a mold to, in round °F inside the limits of its schema. */
const [COOLEST_TOLD, HOTTEST_TOLD] = [90, 165] as const;

function mixedCavities({ cavities }: Mold, refuse: Refuse): EntryProblem[] {
  const first = cavities[0]?.revision ?? '';
  const odd = cavities.findIndex(({ revision }) => revision !== first);
  if (odd < 0) return [];
  return [
    refuse(
      ['cavities', odd, 'revision'],
      `a final mold carries one revision: cavity 1 has ${first}, cavity ${odd + 1} has ${cavities[odd]?.revision ?? ''}`,
      'recut that cavity, or set status: development until it is',
    ),
  ];
}

function untested(mold: Mold, trials: readonly Entry<Trial>[], refuse: Refuse): EntryProblem[] {
  const own = trials.filter(({ bait }) => bait === mold.bait);
  const revisions = [...new Set(mold.cavities.map(({ revision }) => revision))];
  return revisions.flatMap((revision) => {
    const at = mold.cavities.findIndex((cavity) => cavity.revision === revision);
    const last = lastTrial(own, revision);
    if (last?.passed) return [];
    return [
      last
        ? refuse(
            ['cavities', at, 'revision'],
            `the last water test of revision ${revision}, ${last.id} of ${last.date}, failed`,
            'change the bait and test the new revision, or swim this one again and record that it passed',
          )
        : refuse(
            ['cavities', at, 'revision'],
            `revision ${revision} of ${mold.bait} has no water test`,
            'swim it and record the test in trials/, or set status: proof until then',
          ),
    ];
  });
}

const degrees = (kelvin: number, units: UnitSystem) =>
  printedBoth(figureInput('', band(kelvin), 'Cel'), units);

/** A round temperature that fills with a little to spare, as an entry writes it; null above what an entry may say. */
function advisedWarmTo(needed: number): string | null {
  const fahrenheit = 5 * Math.ceil(fromSI(needed + WARMED_TOLERANCE.high, '[degF]') / 5);
  const told = Math.max(fahrenheit, COOLEST_TOLD);
  return told <= HOTTEST_TOLD ? `${told} °F` : null;
}

/** The verdict at nominal in the very block that the sheet tells customers to shoot into. */
function short({ filling: { first }, verdicts, shop, plastisol }: Sheet, refuse: Refuse): EntryProblem[] {
  if (first.short.length === 0) return [];
  const parts = listed(first.short);
  const comes = parts.endsWith('s') || parts.includes(' and ') ? 'come' : 'comes';
  const where = first.warmed ? ['warmTo'] : ['status'];
  const thicken = 'thicken or shorten it in a new revision, move the gate nearer, or set status: development';
  const advised = Number.isFinite(first.needed) ? advisedWarmTo(first.needed) : null;
  if (advised === null) {
    return [
      refuse(
        where,
        `a thin part comes short at nominal, in a cold mold and in the warmest that still sets baits: ${verdicts.cold.sentence}`,
        thicken,
      ),
    ];
  }
  const state = first.warmed
    ? `in a mold at ${degrees(first.mold.value, shop.units)}, as \`warmTo\` tells customers`
    : 'in a cold mold, and the entry tells customers of no other';
  return [
    refuse(
      where,
      `the ${parts} ${comes} short at nominal ${state}`,
      `write \`warmTo: ${advised}\` if you shoot it so warm yourself (it fills from ${degrees(first.needed, shop.units)} in ${plastisol.name.toLowerCase()}; the sheet then says to warm it first); else ${thicken}`,
    ),
  ];
}

function weighedOff({ figures, mold }: Sheet, refuse: Refuse): EntryProblem[] {
  const scale = mold.measured?.mass;
  const mass = figures['bait.mass'];
  if (scale === undefined || !mass) return [];
  const grams = scale * 1000;
  if (grams >= mass.low && grams <= mass.high) return [];
  const weighed = printed({ value: grams, low: grams, high: grams, unit: 'g' }, 'metric').text;
  return [
    refuse(
      ['measured', 'mass'],
      `one bait weighs ${weighed}, outside the computed ${printed(mass, 'metric').text}`,
      'weigh again, check compound and revision, or correct the drawing; a sheet whose mass is off is not published',
    ),
  ];
}

/** A caution, and when the figures call for it. */
interface Call {
  readonly caution: string;
  readonly because: string;
  readonly when: (sheet: Sheet) => boolean;
}

const always = () => true;

/** Kept apart from the cautions themselves: what one forgets the other misses. */
const CALLS: readonly Call[] = [
  { caution: 'no-water', because: 'plastisol is heated above the boiling point of water', when: always },
  { caution: 'data-sheet-first', because: 'a compound is heated', when: always },
  {
    caution: 'hot-plastisol',
    because: 'it is poured hotter than skin can bear',
    when: ({ figures }) => (figures['pour.high']?.high ?? Infinity) > 60,
  },
  {
    caution: 'overheating',
    because: 'the compound breaks down above the hottest pour',
    when: ({ figures }) => figures['pour.degradation'] !== undefined,
  },
  {
    caution: 'fire',
    because: 'the plasticiser has a flash point',
    when: ({ figures }) => figures['pour.flashPoint'] !== undefined,
  },
  {
    caution: 'clamp-first',
    because: 'the push parts the halves',
    when: ({ figures }) => (figures['mold.partingForce']?.high ?? Infinity) > 0,
  },
  {
    caution: 'wait-to-open',
    because: 'the middle is liquid when the mold is full',
    when: ({ figures }) => (figures['heat.demoldTime']?.high ?? Infinity) > 0,
  },
  {
    caution: 'hot-block',
    because: 'the block gets hotter than a minute’s touch allows',
    when: ({ figures }) =>
      Math.max(figures['heat.blockSteady']?.high ?? Infinity, figures['fill.mold.first']?.high ?? 0) >=
      (figures['burn.minuteLimit']?.low ?? 0),
  },
  { caution: 'leave-vents', because: 'it has vents', when: ({ mold }) => mold.vents.length > 0 },
];

function uncautioned(sheet: Sheet, refuse: Refuse): EntryProblem[] {
  const given = new Set(sheet.cautions.map(({ key }) => key));
  return CALLS.filter(({ caution, when }) => when(sheet) && !given.has(caution)).map(({ caution, because }) =>
    refuse(
      ['status'],
      `the sheet lacks the caution "${caution}", and ${because}`,
      'bring the caution back; no sheet is published without it',
    ),
  );
}

/** Why molds that are called final may not be published as they stand. */
export function gateProblems(catalogue: Catalogue, sheets: readonly Sheet[]): EntryProblem[] {
  return catalogue.molds
    .filter(({ status }) => status === 'final')
    .flatMap((mold) => {
      const refuse = refusal(mold.id);
      const sheet = sheets.find(({ id }) => id === mold.id);
      return [
        ...mixedCavities(mold, refuse),
        ...untested(mold, catalogue.trials, refuse),
        ...(sheet
          ? [...short(sheet, refuse), ...weighedOff(sheet, refuse), ...uncautioned(sheet, refuse)]
          : []),
      ];
    });
}

/** Retired molds that point on to one that cannot be bought. */
export function successorProblems({ molds }: Catalogue): EntryProblem[] {
  return molds.flatMap(({ id, status, replacedBy }) => {
    const next = molds.find((mold) => mold.id === replacedBy);
    if (status !== 'retired' || !next || next.status === 'final') return [];
    return [
      refusal(id)(
        ['replacedBy'],
        `a retired mold points on to one that can be bought, and ${next.id} is ${next.status}`,
        'name a final mold, or leave `replacedBy` out until it is final',
      ),
    ];
  });
}
