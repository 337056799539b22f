import { forcingFrequency } from '../core/action/beat.ts';
import { cauchyNumber } from '../core/action/bending.ts';
import { MANNERS, ONSET_SOURCES } from '../core/action/onset.ts';
import { band, quadrature, type Band } from '../core/quantity/band.ts';
import { figure, figureInput, type Figure, type FigureInput } from '../core/quantity/figure.ts';
import type { Case } from './case.ts';
import {
  actionStudy,
  chanceOf,
  compoundTrials,
  leastChance,
  type ActionStudy,
  type CompoundTrial,
} from './action-study.ts';
import { HARDNESS_SOURCES } from '../core/hardness/compound-hardness.ts';
import { GAP_TOLERANCE, RETRIEVES } from './practice.ts';
import type { FeatureAction, RetrieveName, SheetAction } from './sheet.ts';
import { SOURCES } from './sources.ts';
import { testedOnset, type TestedOnset, type TrialStudy } from './trial-study.ts';
import { featureLabel, listed } from './words.ts';

const NAMES = Object.keys(RETRIEVES) as RetrieveName[];

function inputsOf({ feature, modulus, mover }: ActionStudy): FigureInput[] {
  return [
    figureInput('Young’s modulus E', modulus, 'kPa'),
    figureInput('thickness at the root', band(feature.rootThickness), 'mm'),
    figureInput('thickness at the tip', band(feature.tipThickness), 'mm'),
    figureInput('cutting tolerance on the gap', GAP_TOLERANCE, 'mm'),
    figureInput('length', band(feature.length), 'mm'),
    figureInput('body in front of it', band(mover.body), 'mm'),
  ];
}

const MANNER_WORDS = {
  curl: 'A curl has to fold back and to shake: at half the speed at which a flat strip would flutter, a quarter to the whole of it.',
  across:
    'It stands across the stream: it has to fold and to be pushed by eddies at half its own beat or faster.',
  trailing: 'It trails: it moves once it flutters like a flag.',
  shaken: 'It trails and is too stiff to flutter there: eddies off the body shake it.',
} as const;

function mannerOf({ feature, onset }: ActionStudy): string {
  const { across, flutterShare } = MANNERS[feature.kind];
  if (across) return flutterShare ? MANNER_WORDS.curl : MANNER_WORDS.across;
  return onset.shaken && onset.from.value === onset.shaken.from.value
    ? MANNER_WORDS.shaken
    : MANNER_WORDS.trailing;
}

const keyOf = (study: ActionStudy, what: string) => `action.${study.feature.name}.${what}`;

function onsetFigure(study: ActionStudy, other = false): Figure {
  const label = featureLabel(study.feature);
  const compound = study.plastisol.name.toLowerCase();
  return figure(
    {
      key: keyOf(study, other ? `onset.${study.plastisol.id}` : 'onset'),
      label: `Speed from which the ${label} moves, ${compound}`,
      unit: 'cm/s',
      basis: `${mannerOf(study)} The band is wide: stiffness goes with E·t³, and the rule itself is rough. Ratios between shapes hold far better. A water test beats it.`,
      formula: 'onset ∝ √(E·t³)',
      inputs: inputsOf(study),
      sources: [...ONSET_SOURCES, ...HARDNESS_SOURCES.slice(0, 1), GAP_TOLERANCE.source],
    },
    study.onset.from,
  );
}

/** A result that goes with a power of E·t³, banded by modulus and cutting tolerance. */
function byStiffness({ modulus, tolerance }: ActionStudy, power: number, nominal: number): Band {
  if (nominal === 0) return band(0);
  const { value, low, high } = quadrature(({ e, t }) => nominal * ((e / modulus.value) * t ** 3) ** power, {
    e: modulus,
    t: tolerance,
  });
  return band(value, low, high);
}

function flutterFigure(study: ActionStudy): Figure {
  return figure(
    {
      key: keyOf(study, 'flutter'),
      label: 'Flutter speed of a flat strip like it',
      unit: 'cm/s',
      basis:
        'Straight, flat and long, held at its root, the water running along it. A curl or a paddle moves well below this.',
      formula: 'U = (u/L)·√(EI/mₐ), u the least speed at which the strip’s own waves grow',
      inputs: inputsOf(study),
      sources: [...ONSET_SOURCES.slice(1, 2)],
    },
    byStiffness(study, 0.5, study.onset.speeds.flutter),
  );
}

function beatFigure(study: ActionStudy): Figure {
  return figure(
    {
      key: keyOf(study, 'beat'),
      label: 'Own beat in water',
      unit: 'Hz',
      basis:
        'First mode of the part held at its root, as thick and as wide as it is from root to tip, with the water that swings along. Band: modulus and cutting tolerance.',
      formula: '(2πf)² = ∫EIy″²ds/∫(m + ρπH²/4)y²ds',
      inputs: inputsOf(study),
      sources: [SOURCES.beat],
    },
    byStiffness(study, 0.5, study.onset.speeds.frequency),
  );
}

function cauchyFigure(study: ActionStudy, name: RetrieveName): Figure {
  const { limpness, modulus, mover } = study;
  const nominal = cauchyNumber(
    { limpness, modulus: modulus.value, water: mover.water },
    RETRIEVES[name].value,
  );
  return figure(
    {
      key: keyOf(study, `cauchy.${name}`),
      label: `Cauchy number, ${name} retrieve`,
      unit: '1',
      basis:
        'Drag over bending stiffness if it stood across the stream: below 1 it stays stiff, above 10 it folds back. E·t³ is taken from root to tip. Band: modulus and cutting tolerance.',
      formula: 'Ca = 8·δ/L, δ = ∫(L − s)·M/EI ds, M = ½ρU²C·∫b(x)(x − s)dx',
      inputs: [figureInput('retrieve', RETRIEVES[name], 'cm/s'), ...inputsOf(study)],
      sources: [...ONSET_SOURCES.slice(0, 1), RETRIEVES[name].source],
    },
    byStiffness(study, -1, nominal),
  );
}

function stepFigure(study: ActionStudy, name: RetrieveName): Figure {
  const { onset, mover } = study;
  const size = (0.2 * onset.speeds.inStep) / onset.speeds.frequency;
  const nominal = forcingFrequency(RETRIEVES[name].value, size) / onset.speeds.frequency;
  return figure(
    {
      key: keyOf(study, `step.${name}`),
      label: `Eddies over its own beat, ${name} retrieve`,
      unit: '1',
      basis:
        'How often eddies push it, over how often it swings by itself: between about ½ and 2 it is shaken with ease. Band: that of its own beat.',
      formula: 'St·U/d over f, St = 0.2',
      inputs: [
        figureInput('retrieve', RETRIEVES[name], 'cm/s'),
        figureInput('size d that sheds them', band(size), 'mm'),
        figureInput('water', band(mover.water), 'g/cm3'),
      ],
      sources: [SOURCES.strouhal, RETRIEVES[name].source],
    },
    byStiffness(study, -0.5, nominal),
  );
}

function featureAction(
  study: ActionStudy,
  others: readonly ActionStudy[],
  test: TestedOnset | null,
): FeatureAction {
  return {
    feature: study.feature,
    label: featureLabel(study.feature),
    manner: mannerOf(study),
    onset: onsetFigure(study),
    tested: testedFigure(study, test),
    flutter: flutterFigure(study),
    beat: beatFigure(study),
    retrieves: NAMES.map((name) => ({
      name,
      speed: RETRIEVES[name].value,
      chance: chanceOf(study, RETRIEVES[name].value),
      cauchy: cauchyFigure(study, name),
      step: stepFigure(study, name),
    })),
    compounds: others.map((other) => ({
      plastisol: other.plastisol,
      onset: other.plastisol.id === study.plastisol.id ? onsetFigure(study) : onsetFigure(other, true),
      chances: NAMES.map((name) => chanceOf(other, RETRIEVES[name].value)),
    })),
  };
}

/** The onset as the water tests have it, for the compound of the sheet. */
function testedFigure(study: ActionStudy, test: TestedOnset | null): Figure | null {
  if (!test) return null;
  const { from } = study.onset;
  const value = from.value * test.factor;
  const low = test.above === null ? from.low : from.value * test.above;
  const high = test.below === null ? from.high : from.value * test.below;
  return figure(
    {
      key: keyOf(study, 'tested'),
      label: `Speed from which the ${featureLabel(study.feature)} moves, as tested`,
      unit: 'cm/s',
      basis:
        'The rule put right by the water tests: low where it was seen still, high where it was seen to move, the rule’s own band where no test says; carried to this compound, and from other revisions while its own was not tested, by the ratio √(E·t³).',
      formula: 'onset × (tested speed/onset in that test)',
      inputs: [figureInput('onset by the rule', study.onset.from, 'cm/s')],
      sources: [{ kind: 'measured', title: 'Water tests of this bait, below' }],
    },
    band(value, Math.min(value, low, high), Math.max(value, low, high)),
  );
}

const names = (those: readonly FeatureAction[]) => listed(those.map(({ label }) => label));

function firmestThatMoves(
  actions: readonly FeatureAction[],
  trials: readonly CompoundTrial[],
  moving: (study: ActionStudy) => boolean,
): SheetAction['compound'] {
  const softest = trials.at(-1);
  if (!softest || actions.length === 0) return null;
  const able = softest.studies.filter(moving).map(({ feature }) => feature.name);
  if (able.length === 0) {
    return {
      plastisol: softest.plastisol,
      moves: false,
      sentence: `No listed compound is expected to move the ${names(actions)} at the slow retrieve; ${softest.plastisol.name.toLowerCase()}, the softest, comes nearest.`,
    };
  }
  const firmest =
    trials.find(({ studies }) =>
      studies.every((study) => !able.includes(study.feature.name) || moving(study)),
    ) ?? softest;
  const still = actions.filter(({ feature }) => !able.includes(feature.name));
  const parts = actions.filter(({ feature }) => able.includes(feature.name));
  const rest = still.length > 0 ? ` The ${names(still)} would not in any of them.` : '';
  const tested = parts.some((part) => part.tested) ? ', going by the water tests' : '';
  const price = trials[0] === firmest ? '' : '; firmer ones last longer but need more speed';
  return {
    plastisol: firmest.plastisol,
    moves: true,
    sentence: `${firmest.plastisol.name}: the firmest listed in which the ${names(parts)} should still move at the slow retrieve${tested}${price}.${rest}`,
  };
}

/** What the thin parts of a bait do in the water. */
export function sheetAction(given: Case, { trials: tests }: Pick<TrialStudy, 'trials'>): SheetAction {
  const { geometry, plastisol, catalogue, revision } = given;
  const features = geometry.features.filter(({ kind }) => kind !== 'rib');
  const trials = compoundTrials(geometry, features, catalogue.plastisols);
  const testOf = (part: string) => testedOnset({ trials: tests }, revision.id, part);
  const actions = features.map((feature, i) =>
    featureAction(
      actionStudy(geometry, feature, plastisol),
      trials.flatMap(({ studies }) => studies[i] ?? []),
      testOf(feature.name),
    ),
  );
  const moving = ({ feature, onset }: ActionStudy) =>
    onset.from.value * (testOf(feature.name)?.factor ?? 1) <= RETRIEVES.slow.value * (1 + 1e-9);
  const least = NAMES.map((name, i) => ({
    name,
    chance: leastChance(actions.map(({ retrieves }) => retrieves[i]?.chance ?? 'likely')),
  }));
  return { features: actions, least, compound: firmestThatMoves(actions, trials, moving) };
}

/** The figures of the action, each once. */
export function actionFigures({ features }: SheetAction): Figure[] {
  const all = features.flatMap(({ onset, tested, flutter, beat, retrieves, compounds }) => [
    onset,
    ...(tested ? [tested] : []),
    flutter,
    beat,
    ...retrieves.flatMap(({ cauchy, step }) => [cauchy, step]),
    ...compounds.map((other) => other.onset),
  ]);
  return [...new Map(all.map((one) => [one.key, one])).values()];
}
