import { beforeShotTemperature, type BlockCycle } from '../heat/block-warming.ts';
import { band, type Band, type Spread } from '../quantity/band.ts';
import type { GridFeed } from './grid/feed.ts';
import type { CavityMap } from './grid/plan-width.ts';
import {
  reserveSpread,
  shotConditions,
  type ReserveInputs,
  type ReserveSetting,
  type ReserveValues,
  type ShortShot,
} from './grid/reserve-band.ts';
import type { ReserveTable, ShotConditions } from './grid/reserve-table.ts';

/** A compound to choose. */
export interface SetupCompound {
  readonly id: string;
  readonly name: string;
  readonly bands: Pick<ReserveInputs, 'viscosity' | 'activation' | 'diffusivity' | 'noFlow'>;
  readonly shortShots: readonly ShortShot[];
  /** √(kρc) of its melt [W·√s/(m²·K)]. */
  readonly effusivity: number;
  /** [K]. */
  readonly pour: { readonly low: number; readonly nominal: number; readonly high: number };
}

/** Everything that a set-up of one mold is answered from, as plain data. */
export interface SetupData {
  readonly title: string;
  readonly table: ReserveTable;
  /** What each part of the table is called. */
  readonly labels: readonly string[];
  /** Cavity heights and local thickness [µm], in the frame of the bait [m]. */
  readonly grid: Pick<CavityMap, 'nx' | 'ny' | 'x0' | 'y0' | 'cell'> & {
    readonly height: readonly number[];
    readonly thickness: readonly number[];
    readonly gate: readonly number[];
  };
  /** Silhouette of the bait [m]. */
  readonly plan: readonly (readonly (readonly [number, number])[])[];
  readonly feed: Pick<GridFeed, 'stretches' | 'airResistance'>;
  /** Melt that one cavity takes [m³]. */
  readonly volume: number;
  /** √(kρc) of the mold [W·√s/(m²·K)]. */
  readonly moldEffusivity: number;
  readonly compounds: readonly SetupCompound[];
  readonly injectors: readonly {
    readonly id: string;
    readonly name: string;
    readonly pressure: Band;
    readonly holds: boolean;
  }[];
  /** Cutting tolerance [m], time of a push [s], what the melt loses on its way to the gate [K]. */
  readonly bands: { readonly gap: Band; readonly push: Band; readonly loss: Band };
  /** The block, shot again and again from cold. */
  readonly cycle: BlockCycle;
  /** What the sheet is worked out for. */
  /** As the sheet has it; the block only where customers are told to warm it [K]. */
  readonly own: { readonly compound: string; readonly injector: string; readonly mold?: number };
}

/** What someone is about to do. */
export interface SetupChoice {
  readonly compound: string;
  readonly injector: string;
  /** In the cup [K]. */
  readonly pour: number;
  /** Mold temperature [K], or shots that have gone into a cold block. */
  readonly mold: { readonly temperature: number } | { readonly shots: number };
}

/** How sure it is that every part fills. */
export type SetupVerdict = 'fills' | 'may come short' | 'comes short';

/** What comes of a set-up. */
export interface SetupAnswer {
  /** [K]. */
  readonly mold: Band;
  /** Reserves of the parts, the least first. */
  readonly parts: readonly { readonly label: string; readonly reserve: Spread }[];
  readonly verdict: SetupVerdict;
}

/** How far a thermometer held to the block, and the block worked out from its shots, may be off [K]: estimates. */
const [READING, RECKONING] = [3, 5];

const named = <Kind extends { readonly id: string }>(all: readonly Kind[], id: string): Kind => {
  const found = all.find((one) => one.id === id);
  if (!found) throw new RangeError(`setup: wants one of ${all.map((one) => one.id).join(', ')}, got ${id}`);
  return found;
};

/** Temperature of the block before the next shot. */
function moldBand({ cycle }: SetupData, mold: SetupChoice['mold']): Band {
  const [at, off] =
    'shots' in mold ? [beforeShotTemperature(cycle, mold.shots), RECKONING] : [mold.temperature, READING];
  return band(at, at - off, at + off);
}

function partsOfSetup(data: SetupData, choice: SetupChoice) {
  const compound = named(data.compounds, choice.compound);
  const { pressure } = named(data.injectors, choice.injector);
  const { gap, push, loss } = data.bands;
  const melt = band(choice.pour - loss.value, choice.pour - loss.high, choice.pour - loss.low);
  const inputs: ReserveInputs = {
    ...compound.bands,
    ...{ pressure, melt, mold: moldBand(data, choice.mold), gap, push, closing: band(0, -1, 1) },
  };
  const setting: ReserveSetting = {
    volume: data.volume,
    effusivity: { melt: compound.effusivity, mold: data.moldEffusivity },
    shortShots: compound.shortShots,
  };
  return { inputs, setting };
}

/**
 * Fill reserves of a mold under someone's own set-up.
 *
 * @param data - of the mold [SI]
 * @param choice - compound, injector, pour [K], mold [K] or shots so far
 * @returns mold temperature [K], reserves [1] and a verdict at their adverse end
 * @throws {RangeError} when compound or injector is not listed, or a temperature makes no sense
 *
 * Valid: as `fillReserve`; pours within the compound's own limits.
 * Cost: 21 look-ups a part.
 * Source: as `reserveSpread`, `beforeShotTemperature`.
 */
export function setupAnswer(data: SetupData, choice: SetupChoice): SetupAnswer {
  const { inputs, setting } = partsOfSetup(data, choice);
  const parts = data.table.parts
    .map((part, n) => ({
      label: data.labels[n] ?? part.name,
      reserve: reserveSpread(data.table, part, inputs, setting),
    }))
    .sort((a, b) => a.reserve.low - b.reserve.low);
  const all = (pick: (reserve: Spread) => number) => parts.every(({ reserve }) => pick(reserve) >= 1);
  const verdict = all(({ low }) => low)
    ? 'fills'
    : all(({ value }) => value)
      ? 'may come short'
      : 'comes short';
  return { mold: inputs.mold, parts, verdict };
}

/**
 * Conditions under which the filling of a set-up is run.
 *
 * @param data - of the mold [SI]
 * @param choice - compound, injector, pour [K], mold [K] or shots so far
 * @returns nominal conditions [SI]
 * @throws {RangeError} as `setupAnswer`
 *
 * Cost: constant.
 * Source: definition.
 */
export function setupShot(data: SetupData, choice: SetupChoice): ShotConditions {
  const { inputs, setting } = partsOfSetup(data, choice);
  const values = Object.fromEntries(
    Object.entries(inputs).map(([name, { value }]) => [name, value]),
  ) as ReserveValues;
  return shotConditions(values, setting, data.table.scale);
}

/**
 * The cavity of a set-up as the filling model takes it.
 *
 * @param data - of the mold
 * @returns heights and local thickness [m]
 *
 * Cost: linear in the map.
 * Source: definition.
 */
export function setupMap({ grid }: SetupData): CavityMap {
  const { nx, ny, x0, y0, cell } = grid;
  const metres = (values: readonly number[]) =>
    Float64Array.from(values, (micrometres) => micrometres * 1e-6);
  return { nx, ny, x0, y0, cell, height: metres(grid.height), thickness: metres(grid.thickness) };
}
