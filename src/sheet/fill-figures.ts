import { band, type Share } from '../core/quantity/band.ts';
import { figure, figureInput, type Figure, type FigureInput, type Source } from '../core/quantity/figure.ts';
import type { UnitCode } from '../core/quantity/units.ts';
import type { Case } from './case.ts';
import { FILL_INPUT_WORDS, fillInputs } from './fill-inputs.ts';
import { coolestPours, gains, STEPS, type Gain } from './fill-outlook.ts';
import { HOTTEST_MOLD, type FillModel, type FillStudy } from './fill-study.ts';
import {
  COLD_MOLD,
  FILL_TIME,
  GAP_TOLERANCE,
  HAND_FORCE,
  TRANSFER_LOSS,
  WARM_MOLD,
  type Assumption,
} from './practice.ts';
import type { FeatureFill } from './sheet.ts';
import { SOURCES } from './sources.ts';
import { listed } from './words.ts';

type Input = keyof typeof FILL_INPUT_WORDS;

const UNITS: Readonly<Record<Input, UnitCode>> = {
  pressure: 'kPa',
  viscosity: 'Pa.s',
  activation: 'kJ/mol',
  diffusivity: 'mm2/s',
  noFlow: 'Cel',
  melt: 'Cel',
  mold: 'Cel',
  gap: 'mm',
  closing: '1',
  push: 's',
};

function inputsOf(given: Case, mold: Assumption): FigureInput[] {
  const inputs = { ...fillInputs(given, mold), viscosity: given.plastisol.viscosity };
  return (Object.keys(UNITS) as Input[])
    .filter((name) => name !== 'closing')
    .map((name) => figureInput(FILL_INPUT_WORDS[name], inputs[name], UNITS[name]));
}

/** "most of the band comes from viscosity at 175 °C and hand pressure". */
function dominated(shares: readonly Share[]): string {
  const names = shares.slice(0, 2).map(({ name }) => FILL_INPUT_WORDS[name as Input]);
  return `Most of the band comes from ${listed(names)}.`;
}

function sourcesOf({ plastisol }: Case, mold: Assumption): Source[] {
  const { viscosity, diffusivity, noFlow, activation } = plastisol;
  return [
    SOURCES.filling,
    SOURCES.closing,
    viscosity.source,
    activation.source,
    diffusivity.source,
    noFlow.source,
    HAND_FORCE.source,
    FILL_TIME.source,
    TRANSFER_LOSS.source,
    GAP_TOLERANCE.source,
    mold.source,
  ];
}

/** Of a figure that goes back to the reserves of the parts, whose inputs are listed there. */
const moldInput = (warm: boolean) => [
  figureInput(FILL_INPUT_WORDS.mold, warm ? WARM_MOLD : COLD_MOLD, UNITS.mold),
];

const heat = (warm: boolean) => (warm ? 'warm' : 'cold');

function reserve(given: Case, study: FillStudy, warm: boolean): Figure {
  const mold = warm ? WARM_MOLD : COLD_MOLD;
  const spread = warm ? study.warm : study.cold;
  const { label, name } = study;
  return figure(
    {
      key: `fill.reserve.${heat(warm)}.${name}`,
      label: `Fill reserve of the ${label}, ${heat(warm)} mold`,
      unit: '1',
      basis: `How many times longer the way to fill the ${label} could be and still fill, in the cavity that is hardest to reach: above 1 it fills. From the filling model run with stiffer and stiffer plastic until the ${label} comes short. ${dominated(spread.shares)}`,
      formula: 'reserve = √(μ*/μ), μ* the stiffest melt that still fills it',
      inputs: inputsOf(given, mold),
      sources: sourcesOf(given, mold),
    },
    spread,
  );
}

function reach(given: Case, study: FillStudy, warm: boolean): Figure {
  const mold = warm ? WARM_MOLD : COLD_MOLD;
  const spread = warm ? study.warm : study.cold;
  const { length, name, label } = study;
  return figure(
    {
      key: `fill.reach.${heat(warm)}.${name}`,
      label: `Reach in the ${label}, ${heat(warm)} mold`,
      unit: 'mm',
      basis: `How long the ${label} could be, everything stretched alike, before it comes short; it needs its length. ${dominated(spread.shares)}`,
      formula: 'reach = reserve × length',
      inputs: [figureInput('length', band(length), 'mm'), ...inputsOf(given, mold)],
      sources: sourcesOf(given, mold),
    },
    band(spread.value * length, spread.low * length, spread.high * length),
  );
}

/** Each thin part with its four figures; the body where a bait has none. */
export function featureFills(given: Case, studies: readonly FillStudy[]): FeatureFill[] {
  return studies.map((study) => ({
    name: study.name,
    label: study.label,
    reachCold: reach(given, study, false),
    reachWarm: reach(given, study, true),
    reserveCold: reserve(given, study, false),
    reserveWarm: reserve(given, study, true),
  }));
}

function least(given: Case, studies: readonly FillStudy[], warm: boolean): Figure[] {
  const [study] = [...studies].sort((a, b) => (warm ? a.warm.low - b.warm.low : a.cold.low - b.cold.low));
  if (!study) return [];
  const basis = `The least of the reserves of all parts, at the low end: that of the ${study.label}.`;
  const words = {
    key: `fill.reserve.${heat(warm)}`,
    label: `Least fill reserve, ${heat(warm)} mold`,
    basis,
    formula: 'least of all parts',
    inputs: moldInput(warm),
  };
  return [{ ...reserve(given, study, warm), ...words }];
}

function needed(studies: readonly FillStudy[]): Figure[] {
  const favourable = Math.max(...studies.map(({ neededFavourable }) => neededFavourable));
  const nominal = Math.max(...studies.map(({ neededNominal }) => neededNominal));
  const adverse = Math.max(...studies.map(({ neededAdverse }) => neededAdverse));
  if (studies.length === 0 || !Number.isFinite(nominal)) return [];
  const sure = Number.isFinite(adverse);
  return [
    figure(
      {
        key: 'fill.mold.needed',
        label: 'Mold that fills every part',
        unit: 'Cel',
        basis: `Mold temperature from which the least reserve is 1, no colder than a cold mold; low and high: at the two ends of the band.${sure ? '' : ' At the adverse end even the high, the hottest block that still sets baits, is not enough.'}`,
        inputs: moldInput(false),
        sources: [SOURCES.filling],
      },
      band(nominal, favourable, sure ? adverse : HOTTEST_MOLD),
    ),
  ];
}

function coolest(given: Case, model: FillModel, studies: readonly FillStudy[]): Figure[] {
  const pours = coolestPours(given, model, studies);
  return [false, true].flatMap((warm) => {
    const { favourable, nominal, adverse } = warm ? pours.warm : pours.cold;
    if (!Number.isFinite(nominal)) return [];
    const sure = Number.isFinite(adverse);
    return [
      figure(
        {
          key: `fill.pour.${heat(warm)}`,
          label: `Coolest pour that fills, ${heat(warm)} mold`,
          unit: 'Cel',
          basis: `Pour within the compound's own limits from which the least reserve is 1; the coolest of them where every pour fills. Low and high: at the two ends of the band.${sure ? '' : ' At the adverse end even the high, the hottest pour, is not enough.'}`,
          inputs: moldInput(warm),
          sources: [SOURCES.filling, TRANSFER_LOSS.source],
        },
        band(nominal, favourable, sure ? adverse : given.pour.high),
      ),
    ];
  });
}

function time({ time: taken, grid }: FillModel): Figure {
  return figure(
    {
      key: 'fill.time',
      label: 'Time to fill, cold mold',
      unit: 's',
      basis: `From the first drop at the gate until the cavity that is hardest to reach is full, or stops. Low and high: a quick and a slow push. Worked out on a grid of ${(1e3 * grid.map.cell).toFixed(2)} mm.`,
      formula: 'Hele-Shaw flow on the plan, walls closing as they cool',
      inputs: [...moldInput(false), figureInput(FILL_INPUT_WORDS.push, FILL_TIME, UNITS.push)],
      sources: [SOURCES.filling, SOURCES.closing, FILL_TIME.source],
    },
    taken,
  );
}

const GAIN_WORDS: Readonly<Record<Gain['key'], string>> = {
  pour: 'Reserve gained by plastic 10 °F (5.6 °C) hotter',
  mold: 'Reserve gained by a mold 10 °F (5.6 °C) warmer',
  gap: 'Reserve gained by parts 0.1 mm (0.004 in) thicker',
  push: 'Reserve gained by a push half as hard again',
};

function gained(all: readonly Gain[], weakest: FillStudy | undefined): Figure[] {
  return all.map(({ key, times }) =>
    figure(
      {
        key: `fill.gain.${key}`,
        label: GAIN_WORDS[key],
        unit: '%',
        basis: `How much larger the reserve of the ${weakest?.label ?? 'body'} becomes in a cold mold, all else as it was.`,
        formula: 'gain = reserve with the change/reserve without − 1',
        inputs: [
          figureInput('hotter or warmer by', band(STEPS.degrees), 'K'),
          figureInput('thicker by', band(STEPS.gap), 'mm'),
          ...moldInput(false),
        ],
        sources: [SOURCES.filling],
      },
      band(times - 1),
    ),
  );
}

/** What a way out without any resistance would add: why deeper vents buy no fill. */
function airGain(given: Case, weakest: FillStudy | undefined): Figure[] {
  if (!weakest || given.mold.vents.length === 0) return [];
  return [
    figure(
      {
        key: 'vent.gain',
        label: 'Reserve gained if no air were in the way',
        unit: '%',
        basis: `How much larger the reserve of the ${weakest.label} would be in a cold mold if its air left without any resistance at all: the most that any vent could buy.`,
        formula: 'gain = reserve without air/reserve − 1',
        inputs: moldInput(false),
        sources: [SOURCES.filling, SOURCES.vents],
      },
      band(Math.exp(weakest.part.air / 2) - 1),
    ),
  ];
}

/** Figures of filling: time, those of each part, the least of them, and what they need or gain. */
export function fillFigures(given: Case, model: FillModel, studies: readonly FillStudy[]): Figure[] {
  const each = featureFills(given, studies).flatMap((fill) => [
    fill.reachCold,
    fill.reachWarm,
    fill.reserveCold,
    fill.reserveWarm,
  ]);
  return [
    time(model),
    ...each,
    ...least(given, studies, false),
    ...least(given, studies, true),
    ...needed(studies),
    ...coolest(given, model, studies),
    ...gained(gains(given, model, studies), studies[0]),
    ...airGain(given, studies[0]),
  ];
}
