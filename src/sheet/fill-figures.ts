import { band, type Share } from '../core/quantity/band.ts';
import { figure, figureInput, type Figure, type FigureInput, type Source } from '../core/quantity/figure.ts';
import type { UnitCode } from '../core/quantity/units.ts';
import type { Case } from './case.ts';
import { FILL_INPUT_WORDS, fillInputs, type FillStudy } from './fill-study.ts';
import {
  COLD_MOLD,
  GAP_TOLERANCE,
  HAND_FORCE,
  TRANSFER_LOSS,
  WARM_MOLD,
  type Assumption,
} from './practice.ts';
import type { FeatureFill } from './sheet.ts';
import { SOURCES } from './sources.ts';
import { featureLabel, listed } from './words.ts';

const UNITS: Readonly<Record<keyof typeof FILL_INPUT_WORDS, UnitCode>> = {
  pressure: 'kPa',
  viscosity: 'Pa.s',
  activation: 'kJ/mol',
  diffusivity: 'mm2/s',
  noFlow: 'Cel',
  melt: 'Cel',
  mold: 'Cel',
  gap: 'mm',
  closing: '1',
};

function inputsOf(given: Case, mold: Assumption): FigureInput[] {
  const inputs = fillInputs(given, mold);
  return (Object.keys(UNITS) as (keyof typeof UNITS)[])
    .filter((name) => name !== 'closing')
    .map((name) => figureInput(FILL_INPUT_WORDS[name], inputs[name], UNITS[name]));
}

/** "most of the band comes from viscosity at 175 °C and hand pressure". */
function dominated(shares: readonly Share[]): string {
  const names = shares.slice(0, 2).map(({ name }) => FILL_INPUT_WORDS[name as keyof typeof FILL_INPUT_WORDS]);
  return `Most of the band comes from ${listed(names)}.`;
}

function sourcesOf({ plastisol }: Case, mold: Assumption): Source[] {
  const { viscosity, diffusivity, noFlow } = plastisol;
  return [
    SOURCES.reach,
    viscosity.source,
    diffusivity.source,
    noFlow.source,
    HAND_FORCE.source,
    TRANSFER_LOSS.source,
    GAP_TOLERANCE.source,
    mold.source,
  ];
}

function reserve(given: Case, study: FillStudy, warm: boolean): Figure {
  const mold = warm ? WARM_MOLD : COLD_MOLD;
  const spread = warm ? study.warm : study.cold;
  const label = featureLabel(study.feature);
  return figure(
    {
      key: `fill.reserve.${warm ? 'warm' : 'cold'}.${study.feature.name}`,
      label: `Fill reserve of the ${label}, ${warm ? 'warm' : 'cold'} mold`,
      unit: '1',
      basis: `How many times longer the ${label} could be, its taper stretched alike, and still fill: above 1 it fills. ${dominated(spread.shares)}`,
      formula: 'reserve = √((P/(μα)) / (P/(μα) that just fills its measured taper))',
      inputs: inputsOf(given, mold),
      sources: sourcesOf(given, mold),
    },
    spread,
  );
}

function reach(given: Case, study: FillStudy, warm: boolean): Figure {
  const mold = warm ? WARM_MOLD : COLD_MOLD;
  const spread = warm ? study.warm : study.cold;
  const { length, name } = study.feature;
  return figure(
    {
      key: `fill.reach.${warm ? 'warm' : 'cold'}.${name}`,
      label: `Reach in the ${featureLabel(study.feature)}, ${warm ? 'warm' : 'cold'} mold`,
      unit: 'mm',
      basis: `How far plastisol runs in a part of this taper before it freezes; the ${featureLabel(study.feature)} needs its length. ${dominated(spread.shares)}`,
      formula: 'reach = reserve × length',
      inputs: [figureInput('length', band(length), 'mm'), ...inputsOf(given, mold)],
      sources: sourcesOf(given, mold),
    },
    band(spread.value * length, spread.low * length, spread.high * length),
  );
}

/** Each thin feature with its four figures. */
export function featureFills(given: Case, studies: readonly FillStudy[]): FeatureFill[] {
  return studies.map((study) => ({
    feature: study.feature,
    label: featureLabel(study.feature),
    reachCold: reach(given, study, false),
    reachWarm: reach(given, study, true),
    reserveCold: reserve(given, study, false),
    reserveWarm: reserve(given, study, true),
  }));
}

function least(given: Case, studies: readonly FillStudy[], warm: boolean): Figure[] {
  const [study] = [...studies].sort((a, b) => (warm ? a.warm.low - b.warm.low : a.cold.low - b.cold.low));
  if (!study) return [];
  const figureOf = reserve(given, study, warm);
  const key = `fill.reserve.${warm ? 'warm' : 'cold'}`;
  return [{ ...figureOf, key, label: `Least fill reserve, ${warm ? 'warm' : 'cold'} mold` }];
}

function needed(given: Case, studies: readonly FillStudy[]): Figure[] {
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
        basis: sure
          ? 'Mold temperature from which the least reserve is 1; high: at the adverse end of its band.'
          : 'Mold temperature from which the least reserve is 1. At the adverse end of the band no mold temperature is enough.',
        inputs: inputsOf(given, COLD_MOLD),
        sources: sourcesOf(given, COLD_MOLD),
      },
      band(nominal, nominal, sure ? adverse : nominal),
    ),
  ];
}

/** Figures of filling: those of each thin feature, the least of them, and the mold temperature they need. */
export function fillFigures(given: Case, studies: readonly FillStudy[]): Figure[] {
  const each = featureFills(given, studies).flatMap((fill) => [
    fill.reachCold,
    fill.reachWarm,
    fill.reserveCold,
    fill.reserveWarm,
  ]);
  return [
    ...each,
    ...least(given, studies, false),
    ...least(given, studies, true),
    ...needed(given, studies),
  ];
}
