import { band, quadrature, type Spread } from '../core/quantity/band.ts';
import { criticalDrive, type Ageing } from '../core/fill/reach.ts';
import { featureProfile, type ProfileStation } from '../core/fill/profile.ts';
import { arrheniusViscosity } from '../core/fill/viscosity.ts';
import { noFlowFraction } from '../core/heat/solidification.ts';
import { bisect } from '../core/numeric/root.ts';
import type { FeatureMeasure } from '../core/section/geometry.ts';
import type { Case } from './case.ts';
import type { Remember } from './tools.ts';
import { COLD_MOLD, GAP_TOLERANCE, WARM_MOLD, type Assumption } from './practice.ts';

/** Temperature at which a compound's viscosity is stated [K]. */
export const VISCOSITY_AT = 175 + 273.15;

/** One thin feature's reserve: how many times longer it could be and still fill [1]. */
export interface FillStudy {
  readonly feature: FeatureMeasure;
  readonly cold: Spread;
  readonly warm: Spread;
  /** Mold temperature [K] from which the nominal, and the adverse, reserve is 1; Infinity when none does. */
  readonly neededNominal: number;
  readonly neededAdverse: number;
}

const AGEING: readonly Ageing[] = ['gate age', 'own age', 'fresh core'];
const FLAT = new Set(['curl-tail', 'ribbon-tail', 'paddle', 'fin']);
const LEAST_GAP = 0.00005;
/** Hottest block that is considered: above it a bait no longer sets in reasonable time [K]. */
const HOTTEST_MOLD = 80 + 273.15;

type Names =
  'pressure' | 'viscosity' | 'activation' | 'diffusivity' | 'noFlow' | 'melt' | 'mold' | 'gap' | 'closing';

/** Inputs of a fill study in words, in the order of `Names`. */
export const FILL_INPUT_WORDS: Readonly<Record<Names, string>> = {
  pressure: 'hand pressure',
  viscosity: 'viscosity at 175 °C',
  activation: 'activation energy of the viscosity',
  diffusivity: 'thermal diffusivity',
  noFlow: 'no-flow temperature',
  melt: 'melt at the gate',
  mold: 'mold temperature',
  gap: 'cutting tolerance',
  closing: 'how the walls close',
};

/** Bands of everything that decides whether a thin feature fills [SI]. */
export function fillInputs(given: Case, mold: Assumption) {
  const { plastisol, pressure, gateTemperature } = given;
  const { viscosity, activation, diffusivity, noFlow } = plastisol;
  const melt = band(gateTemperature.value, gateTemperature.low, gateTemperature.high);
  return {
    pressure,
    viscosity,
    activation,
    diffusivity,
    noFlow,
    melt,
    mold,
    gap: GAP_TOLERANCE,
    closing: band(0, -1, 1),
  };
}

type FillInputs = ReturnType<typeof fillInputs>;
type Values = Record<Names, number>;

/** Reserve of one feature as a function of the inputs; the costly part is kept for equal shapes and temperatures. */
function reserveOf(feature: FeatureMeasure): (values: Values) => number {
  const stations = featureProfile(feature);
  const kept = new Map<string, number>();
  return (values) => {
    const theta = noFlowFraction(values.noFlow, values.mold, values.melt);
    const key = `${theta}|${values.gap}|${values.closing}`;
    const needed =
      kept.get(key) ??
      criticalDrive(
        { ...shape(feature, stations, values.gap), theta, ageing: AGEING[values.closing + 1] ?? 'own age' },
        100,
      );
    kept.set(key, needed);
    const viscosity = arrheniusViscosity(
      { reference: values.viscosity, at: VISCOSITY_AT, activation: values.activation },
      values.melt,
    );
    return Math.sqrt(values.pressure / (viscosity * values.diffusivity) / needed);
  };
}

function shape(feature: FeatureMeasure, stations: readonly ProfileStation[], gap: number) {
  const form: 'slot' | 'oval' = FLAT.has(feature.kind) ? 'slot' : 'oval';
  return {
    form,
    stations: stations.map((station) => ({
      ...station,
      thickness: Math.max(LEAST_GAP, station.thickness + gap),
    })),
  };
}

function moldNeeded(reserveAt: (mold: number) => number, least: number): number {
  if (reserveAt(COLD_MOLD.value) >= least) return COLD_MOLD.value;
  if (reserveAt(HOTTEST_MOLD) < least) return Infinity;
  return bisect((mold) => reserveAt(mold) - least, COLD_MOLD.value, HOTTEST_MOLD, 10);
}

function studyOf(feature: FeatureMeasure, coldInputs: FillInputs, warmInputs: FillInputs): FillStudy {
  const reserve = reserveOf(feature);
  const cold = quadrature(reserve, coldInputs);
  const warm = quadrature(reserve, warmInputs);
  const nominal = Object.fromEntries(
    Object.entries(coldInputs).map(([name, { value }]) => [name, value]),
  ) as Values;
  const reserveAt = (mold: number) => reserve({ ...nominal, mold });
  return {
    feature,
    cold,
    warm,
    neededNominal: moldNeeded(reserveAt, 1),
    neededAdverse: moldNeeded(reserveAt, cold.value / cold.low),
  };
}

/** Fill study of every thin feature: ribs stand on the body and fill with it. */
export async function fillStudies(given: Case, remember: Remember): Promise<FillStudy[]> {
  const [cold, warm] = [fillInputs(given, COLD_MOLD), fillInputs(given, WARM_MOLD)];
  const studies = given.geometry.features
    .filter(({ kind }) => kind !== 'rib')
    .map((feature) => remember('fill-study', { feature, cold, warm }, () => studyOf(feature, cold, warm)));
  return (await Promise.all(studies)).sort((a, b) => a.cold.value - b.cold.value);
}
