import type { Chance } from '../core/action/onset.ts';
import type { BaitGeometry } from '../core/section/geometry.ts';
import type { Revision } from '../schema/bait.ts';
import type { Bait, Entry, Plastisol, Trial } from '../schema/collections.ts';
import type { CaliperReading } from './calipers.ts';
import { actionStudy, chanceOf } from './action-study.ts';
import { featureLabel, listed } from './words.ts';

/** A revision of a bait, and what a caliper read on it. */
export interface ShownRevision {
  readonly revision: Revision;
  readonly readings: readonly CaliperReading[];
}

/** A revision of a bait with its measured solid. */
export interface MeasuredRevision extends ShownRevision {
  readonly geometry: BaitGeometry;
}

/** How a water test and the rule go together for one thin part. */
export type Agreement = 'agrees' | 'inside the band' | 'contradicts';

/** What one thin part did, beside what was expected. */
export interface TestedFeature {
  readonly name: string;
  readonly label: string;
  readonly moved: Trial['features'][number]['moved'];
  readonly chance: Chance;
  readonly agreement: Agreement;
  /** Speed of the test over the nominal onset there [1]. */
  readonly ratio: number;
}

/** One water test beside the prediction. */
export interface TestedTrial {
  readonly trial: Entry<Trial>;
  readonly plastisol: Entry<Plastisol> | null;
  readonly features: readonly TestedFeature[];
  /** For a failed test: the revision that was drawn next. */
  readonly after: Revision | null;
}

/** The water tests of a bait, oldest first, and how often the rule was right. */
export interface TrialStudy {
  readonly trials: readonly TestedTrial[];
  readonly agreement: Readonly<Record<Agreement, number>>;
  /** One sentence that counts. */
  readonly counted: string;
  readonly colours: readonly string[];
}

const MOVES: Readonly<Record<TestedFeature['moved'], boolean>> = {
  moved: true,
  'stopped below a speed': true,
  'moved only fast': false,
  'did not move': false,
};

/** Whether a test bears the rule out; inside its band the rule takes no side. */
function agreementOf(moved: TestedFeature['moved'], expected: boolean, chance: Chance): Agreement {
  if (MOVES[moved] === expected) return 'agrees';
  return chance === 'marginal' ? 'inside the band' : 'contradicts';
}

function testedFeatures(
  trial: Trial,
  plastisol: Entry<Plastisol>,
  { geometry }: MeasuredRevision,
): TestedFeature[] {
  return trial.features.flatMap(({ name, moved }) => {
    const feature = geometry.features.find((one) => one.name === name);
    if (!feature) return [];
    const study = actionStudy(geometry, feature, plastisol);
    const chance = chanceOf(study, trial.retrieve);
    const expected = study.onset.from.value <= trial.retrieve;
    return [
      {
        name,
        label: featureLabel(feature),
        moved,
        chance,
        agreement: agreementOf(moved, expected, chance),
        ratio: trial.retrieve / study.onset.from.value,
      },
    ];
  });
}

const before = (a: Entry<Trial>, b: Entry<Trial>) =>
  a.date === b.date ? (a.id < b.id ? -1 : 1) : a.date < b.date ? -1 : 1;

/** The last water test of a revision, by date. */
export function lastTrial(trials: readonly Entry<Trial>[], revision: string): Entry<Trial> | null {
  return (
    trials
      .filter((trial) => trial.revision === revision)
      .sort(before)
      .at(-1) ?? null
  );
}

function tested(
  trial: Entry<Trial>,
  plastisols: readonly Entry<Plastisol>[],
  family: readonly MeasuredRevision[],
): TestedTrial {
  const plastisol = plastisols.find(({ id }) => id === trial.plastisol) ?? null;
  const index = family.findIndex(({ revision }) => revision.id === trial.revision);
  const own = family[index];
  return {
    trial,
    plastisol,
    features: plastisol && own ? testedFeatures(trial, plastisol, own) : [],
    after: trial.passed ? null : (family[index + 1]?.revision ?? null),
  };
}

const WATERS: readonly Trial['clarity'][] = ['clear', 'stained', 'muddy'];

/** Common practice, no source: what stands out to the eye in which water. */
const USUAL: Readonly<Record<Trial['clarity'], string>> = {
  clear: 'any colour can be watched',
  stained: 'a bright or a dark solid colour is easier to watch than a natural one',
  muddy: 'only white, chartreuse or black can be watched, and only near the surface',
};

function colourAdvice(trials: readonly Entry<Trial>[]): string[] {
  return WATERS.flatMap((clarity) => {
    const there = trials.filter((trial) => trial.clarity === clarity);
    if (there.length === 0) return [];
    const colours = (seen: Trial['seen']) => [
      ...new Set(there.filter((trial) => trial.seen === seen).map(({ colour }) => colour)),
    ];
    const [well, hardly, not] = [colours('well'), colours('hardly'), colours('not')];
    const bad = [...hardly, ...not];
    const facts = [
      well.length > 0 && `${listed(well)} could be seen well`,
      bad.length > 0 && `${listed(bad)} could hardly be seen`,
    ].filter((fact) => fact !== false);
    const next = well.length > 0 ? `test the next one in ${well.at(-1) ?? ''}` : USUAL[clarity];
    return [`In ${clarity} water ${[...facts, next].join('; ')}.`];
  });
}

function countedWords(agreement: TrialStudy['agreement']): string {
  const total = agreement.agrees + agreement['inside the band'] + agreement.contradicts;
  if (total === 0) return 'No water test says yet how a thin part moves.';
  const rest = [
    agreement['inside the band'] > 0 && `${agreement['inside the band']} within its band`,
    agreement.contradicts > 0 && `${agreement.contradicts} against it`,
  ].filter((part) => part !== false);
  const tail = rest.length > 0 ? `; ${listed(rest)}` : '';
  return `The rule was right for ${agreement.agrees} of ${total} tested parts${tail}. Where they differ, the water is right.`;
}

/** What water tests say of one part's onset: factors on the rule's nominal speed. */
export interface TestedOnset {
  /** It did not move at this factor, if any test says so. */
  readonly above: number | null;
  /** It moved at this factor, if any test says so. */
  readonly below: number | null;
  /** The rule's nominal, put right as far as the tests ask. */
  readonly factor: number;
}

/** The onset of a part as its own revision was tested; by the ratio law from other revisions while it was not. */
export function testedOnset(
  { trials }: Pick<TrialStudy, 'trials'>,
  revision: string,
  part: string,
): TestedOnset | null {
  const all = trials.flatMap(({ trial, features }) =>
    features
      .filter(({ name }) => name === part)
      .map(({ moved, ratio }) => ({ revision: trial.revision, moved, ratio })),
  );
  const own = all.filter((test) => test.revision === revision);
  const tests = own.length > 0 ? own : all;
  if (tests.length === 0) return null;
  const still = tests.filter(({ moved }) => !MOVES[moved]).map(({ ratio }) => ratio);
  const moving = tests.filter(({ moved }) => MOVES[moved]).map(({ ratio }) => ratio);
  const above = still.length > 0 ? Math.max(...still) : null;
  const below = moving.length > 0 ? Math.min(...moving) : null;
  if (above !== null && below !== null && above > below)
    return { above, below, factor: Math.sqrt(above * below) };
  return { above, below, factor: Math.min(below ?? Infinity, Math.max(above ?? 0, 1)) };
}

/** The water tests of a bait beside what the rule expects of each revision. */
export function trialStudy(
  bait: Entry<Bait>,
  all: readonly Entry<Trial>[],
  plastisols: readonly Entry<Plastisol>[],
  family: readonly MeasuredRevision[],
): TrialStudy {
  const known = new Set(family.map(({ revision }) => revision.id));
  const own = all.filter(({ bait: id, revision }) => id === bait.id && known.has(revision)).sort(before);
  const trials = own.map((trial) => tested(trial, plastisols, family));
  const agreement = { agrees: 0, 'inside the band': 0, contradicts: 0 };
  for (const { features } of trials) for (const feature of features) agreement[feature.agreement]++;
  return { trials, agreement, counted: countedWords(agreement), colours: colourAdvice(own) };
}
