import { pushTimes } from '../core/fill/grid/push-times.ts';
import {
  fillReserve,
  type PartDrive,
  type ReserveTable,
  type ShotConditions,
} from '../core/fill/grid/reserve-table.ts';
import {
  reserveSpread,
  shotConditions,
  type ReserveInputs,
  type ReserveSetting,
  type ReserveValues,
} from '../core/fill/grid/reserve-band.ts';
import { shotFill } from '../core/fill/grid/shot-fill.ts';
import { freezeScale, tabulatedReserve } from '../core/fill/grid/tabulated-reserve.ts';
import { bisect } from '../core/numeric/root.ts';
import { band, type Band, type Spread } from '../core/quantity/band.ts';
import type { BaitGeometry, FeatureMeasure } from '../core/section/geometry.ts';
import type { Case } from './case.ts';
import { cavityFeeds, type Feeds } from './fill-feed.ts';
import {
  cavityGrid,
  fillPicture,
  shapedCavity,
  WHOLE,
  type CavityGrid,
  type FillPicture,
} from './fill-grid.ts';
import { fillInputs, fillSetting } from './fill-inputs.ts';
import { firstMold } from './first-shot.ts';
import { COLD_MOLD, WARM_MOLD } from './practice.ts';
import type { Remember } from './tools.ts';
import type { WallStudy } from './wall-study.ts';
import { featureLabel } from './words.ts';

/** What the filling model tells of one cavity of a mold. */
export interface FillModel {
  readonly grid: CavityGrid;
  readonly table: ReserveTable;
  /** Until a cold cavity is full, or stops, over the time of the push [s]. */
  readonly time: Band;
  readonly cold: FillPicture;
  readonly warm: FillPicture;
  /** At the adverse end of the cold reserve; null when every part fills there. */
  readonly adverse: FillPicture | null;
}

/** One thin part's reserve: how many times longer it could be and still fill [1]. */
export interface FillStudy {
  readonly name: string;
  readonly label: string;
  /** Null for the whole of a bait without thin parts. */
  readonly feature: FeatureMeasure | null;
  /** That it has to be filled along [m]. */
  readonly length: number;
  readonly part: PartDrive;
  readonly cold: Spread;
  readonly warm: Spread;
  /** In the block that customers are told to shoot the first time into. */
  readonly first: Spread;
  /** Mold temperature [K] from which the favourable, the nominal and the adverse reserve is 1; Infinity when none does. */
  readonly neededFavourable: number;
  readonly neededNominal: number;
  readonly neededAdverse: number;
}

/** Hottest block that is considered: above it a bait no longer sets in reasonable time [K]. */
export const HOTTEST_MOLD = 80 + 273.15;

/** Nominal value of every input. */
export function nominalValues(inputs: ReserveInputs): ReserveValues {
  return Object.fromEntries(
    Object.entries(inputs).map(([name, { value }]) => [name, value]),
  ) as ReserveValues;
}

interface ModelInputs {
  readonly geometry: Pick<BaitGeometry, 'mesh' | 'projectedArea' | 'features'>;
  /** Largest balls inside the bait, as `WallStudy` has them. */
  readonly balls: Float64Array;
  readonly gate: Parameters<typeof cavityGrid>[1];
  readonly feeds: Feeds;
  readonly cold: ReserveInputs;
  readonly warm: ReserveInputs;
  readonly setting: ReserveSetting;
}

/** Least reserve at the adverse end, of all parts. */
function adverseReserve({ cold, setting }: ModelInputs, table: ReserveTable): number {
  const spreads = table.parts.map((part) => reserveSpread(table, part, cold, setting));
  const least = [...spreads].sort((a, b) => a.low - b.low)[0]!;
  return least.low < 1 ? least.low / least.value : 1;
}

function modelOf(inputs: ModelInputs): FillModel {
  const { geometry, balls, gate, feeds, setting } = inputs;
  const grid = cavityGrid(geometry, gate, balls);
  const scale = freezeScale();
  const shot = (at: ReserveInputs, changes: Partial<ReserveValues> = {}) =>
    shotConditions({ ...nominalValues(at), ...changes }, setting, scale);
  const shaped = shapedCavity(grid, geometry.features, feeds.worst);
  const easiest = feeds.uneven ? feeds.best : undefined;
  const table = tabulatedReserve({ ...shaped, easiest }, shot(inputs.cold));
  const run = (conditions: ShotConditions) => shotFill(shaped.cavity, feeds.worst, conditions);
  const usual = { feed: feeds.worst, shot: shot(inputs.cold), fill: run(shot(inputs.cold)) };
  const { low, high } = inputs.cold.push;
  const pushed = [low, high].map((push) => shot(inputs.cold, { push }));
  const times = [usual.fill.time, ...pushTimes(usual, pushed)];
  const adverse = adverseReserve(inputs, table);
  // Reserve goes with the root of the viscosity.
  const stiff = { viscosity: inputs.cold.viscosity.value / adverse ** 2 };
  return {
    ...{ grid, table, time: band(usual.fill.time, Math.min(...times), Math.max(...times)) },
    cold: fillPicture(usual.fill),
    warm: fillPicture(run(shot(inputs.warm))),
    adverse: adverse < 1 ? fillPicture(run(shot(inputs.cold, stiff))) : null,
  };
}

/** Runs the filling model of a mold: one cavity, the one that is hardest to reach. */
export function fillModel(
  given: Case,
  { balls }: Pick<WallStudy, 'balls'>,
  remember: Remember,
): Promise<FillModel> {
  const { mesh, projectedArea, features } = given.geometry;
  const inputs: ModelInputs = {
    geometry: { mesh, projectedArea, features: features.filter(({ kind }) => kind !== 'rib') },
    balls,
    gate: given.mold.gate,
    feeds: cavityFeeds(given),
    cold: fillInputs(given, COLD_MOLD),
    warm: fillInputs(given, WARM_MOLD),
    setting: fillSetting(given),
  };
  return remember('fill-study', inputs, () => modelOf(inputs));
}

/** Reserve of one part at nominal values but for some. */
export function nominalReserve(given: Case, table: ReserveTable) {
  const values = nominalValues(fillInputs(given, COLD_MOLD));
  const setting = fillSetting(given);
  return (part: PartDrive, changes: Partial<ReserveValues>): number =>
    fillReserve(table, part, shotConditions({ ...values, ...changes }, setting, table.scale));
}

function moldNeeded(reserveAt: (mold: number) => number, least: number): number {
  if (reserveAt(COLD_MOLD.value) >= least) return COLD_MOLD.value;
  if (reserveAt(HOTTEST_MOLD) < least) return Infinity;
  return bisect((mold) => reserveAt(mold) - least, COLD_MOLD.value, HOTTEST_MOLD, 20);
}

function studyOf(given: Case, { table }: FillModel, part: PartDrive): FillStudy {
  const setting = fillSetting(given);
  const cold = reserveSpread(table, part, fillInputs(given, COLD_MOLD), setting);
  const warm = reserveSpread(table, part, fillInputs(given, WARM_MOLD), setting);
  const feature = given.geometry.features.find(({ name }) => name === part.name) ?? null;
  const { min, max } = given.geometry.box;
  const reserve = nominalReserve(given, table);
  const reserveAt = (mold: number) => reserve(part, { mold });
  return {
    ...{ name: part.name, feature, part, cold, warm },
    first:
      given.mold.warmTo === undefined
        ? cold
        : reserveSpread(table, part, fillInputs(given, firstMold(given.mold)), setting),
    label: feature ? featureLabel(feature) : WHOLE,
    length: feature ? feature.length : max[0] - min[0],
    neededFavourable: moldNeeded(reserveAt, cold.value / cold.high),
    neededNominal: moldNeeded(reserveAt, 1),
    neededAdverse: moldNeeded(reserveAt, cold.value / cold.low),
  };
}

/** Fill study of every thin part, the least first: ribs stand on the body and fill with it. */
export function fillStudies(given: Case, model: FillModel): FillStudy[] {
  return model.table.parts
    .map((part) => studyOf(given, model, part))
    .sort((a, b) => a.cold.value - b.cold.value);
}
