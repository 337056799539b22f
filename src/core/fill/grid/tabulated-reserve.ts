import { freezeConstant, freezeConstantUniform } from '../freeze-constant.ts';
import { arrheniusViscosity, GAS_CONSTANT } from '../viscosity.ts';
import { recutCavity, type Cavity } from './cavity.ts';
import { coarseCavity } from './coarsened.ts';
import {
  closerCritical,
  knownCritical,
  shiftedCritical,
  soughtCritical,
  type KnownCritical,
  type Trials,
} from './critical-search.ts';
import { viscosityTrials } from './critical-viscosity.ts';
import type { FeatureCells } from './feature-cells.ts';
import type { GridFeed } from './feed.ts';
import { LONG_STEPS } from './fill-cavity.ts';
import type { CavityMap } from './plan-width.ts';
import {
  freezeSquare,
  shotTheta,
  stiffening,
  type FreezeScale,
  type PartDrive,
  type ReserveTable,
  type ShotConditions,
} from './reserve-table.ts';
import type { GridMelt } from './state.ts';

/** A cavity, its parts and the channels before it. */
export interface Shaped {
  readonly cavity: Cavity;
  readonly partsOf: (cavity: Cavity) => FeatureCells[];
  /** Channels and air; pressure and flow come with the shot. */
  readonly feed: Pick<GridFeed, 'stretches' | 'airResistance'>;
  /** Channels of the cavity that is easiest to reach; left out where all are alike. */
  readonly easiest?: Pick<GridFeed, 'stretches' | 'airResistance'> | undefined;
}

const [COLD_END, WARM_END] = [0.8, 0.25];
/** Cuts that are worked out: 0.03 mm too shallow and 0.1 mm too deep [m]. */
const GAPS = [-3e-5, 1e-4] as const;
const LEAST_GAP = 5e-5;
const SCALE_STEP = 0.05;

let scale: FreezeScale | undefined;

/**
 * Freeze-off constant of a slot over θ.
 *
 * @returns ln K² from θ = 0.02 to 0.97 [1]
 *
 * Cost: 21 calls of `freezeConstant`, some 30 ms; nothing from the second time on.
 * Source: as `freezeConstant`.
 */
export function freezeScale(): FreezeScale {
  const thetas = [0.02, ...Array.from({ length: 18 }, (_, k) => (k + 1) * SCALE_STEP), 0.94, 0.97];
  scale ??= { thetas, squares: thetas.map((theta) => 2 * Math.log(freezeConstant('slot', theta))) };
  return scale;
}

/**
 * The same cavity, cut deeper or shallower all over.
 *
 * @param map - cavity heights [m]
 * @param gap - added to height and thickness [m]
 * @returns the map [m]; no gap below 0.05 mm
 *
 * Cost: linear in the map.
 * Source: definition.
 */
export function deepened(map: CavityMap, gap: number): CavityMap {
  const more = (values: Float64Array) =>
    values.map((value) => (value > 0 ? Math.max(LEAST_GAP, value + gap) : 0));
  const { thickness } = map;
  return { ...map, height: more(map.height), ...(thickness && { thickness: more(thickness) }) };
}

/** Melt of given θ and stiffening: walls, melt and viscosity at the gate stay, the no-flow temperature follows. */
function meltAt(shot: ShotConditions, theta: number, stiff: number): GridMelt {
  const noFlow = shot.wall + theta * (shot.melt - shot.wall);
  const activation = stiff > 0 ? (stiff * GAS_CONSTANT) / (1 / noFlow - 1 / shot.melt) : 1;
  const reference = arrheniusViscosity(shot.viscosity, shot.melt);
  return {
    ...{ temperature: shot.melt, wall: shot.wall, noFlow, diffusivity: shot.diffusivity },
    ...{ viscosity: { reference, at: shot.melt, activation }, closing: 'own age', cools: stiff > 0 },
  };
}

interface Bench {
  readonly shaped: Shaped;
  readonly shot: ShotConditions;
  readonly theta: number;
  readonly stiff: number;
  readonly cavity: Cavity;
  readonly parts: readonly FeatureCells[];
}

function benchOf(shaped: Shaped, shot: ShotConditions, wanted?: ReadonlySet<string>): Bench {
  const { cavity } = shaped;
  const theta = Math.min(0.68, Math.max(0.35, shotTheta(shot)));
  const parts = shaped.partsOf(cavity).filter(({ name }) => wanted?.has(name) ?? true);
  return { shaped, shot, theta, stiff: stiffening(shot), cavity, parts };
}

/** What is tried in place of the nominal conditions. */
interface Variant {
  readonly theta?: number;
  readonly stiff?: number;
  /** Times the flow. */
  readonly flow?: number;
  readonly gap?: number;
  readonly closing?: GridMelt['closing'];
  readonly air?: number;
  readonly feed?: Shaped['easiest'];
}

function feedOf({ shaped, shot }: Bench, { flow = 1, air, feed = shaped.feed }: Variant): GridFeed {
  const airResistance = air ?? feed.airResistance ?? 0;
  return {
    ...{ ...feed, airResistance },
    ...{ pressure: shot.pressure, flowLimit: shot.flow * flow },
  };
}

function trialsOf(bench: Bench, variant: Variant): Trials {
  const { shot, cavity, parts: features } = bench;
  const own = variant.gap ? recutCavity(cavity, deepened(cavity.map, variant.gap)) : cavity;
  const melt = meltAt(shot, variant.theta ?? bench.theta, variant.stiff ?? bench.stiff);
  const closing = variant.closing ?? 'own age';
  const search = { features, settings: LONG_STEPS };
  return viscosityTrials(own, { ...melt, closing }, feedOf(bench, variant), search);
}

/** Middle gap of some cells [m]. */
function middleGap({ gap }: Cavity, cells: readonly number[]): number {
  const sorted = cells.map((cell) => gap[cell]!).sort((a, b) => a - b);
  return sorted[sorted.length >> 1] ?? 1e-3;
}

/** Change of every part's stiffest melt under a variant, in ln; `guess` is what is expected. */
function changes(
  bench: Bench,
  known: readonly KnownCritical[],
  variant: Variant,
  guess: (part: number) => number,
): number[] {
  const trials = trialsOf(bench, variant);
  return bench.parts.map(({ cells }, n) => {
    return shiftedCritical(trials, n, cells.length, known[n]!, guess(n)) - known[n]!.at;
  });
}

/** How closely stiffest melts are sought, in ln. */
const CLOSE = 0.015;

/** ln of every part's stiffest melt at the gate, relative to the shot's own; `trials` are of `whole`, which has all of them. */
function nominal(bench: Bench, whole = bench, trials = trialsOf(whole, {})): KnownCritical[] {
  const features = bench.parts.map((part) => whole.parts.indexOf(part));
  const found = bench.parts.map(({ cells }, n) => soughtCritical(trials, features[n]!, cells.length, CLOSE));
  return found.map((at, n) => knownCritical(trials, features[n]!, bench.parts[n]!.cells.length, at));
}

/** Changes of one part's stiffest melt, in ln, by what is changed. */
interface Changes {
  readonly cold: number;
  readonly warm: number;
  readonly hot: number;
  readonly flow: readonly [slow: number, quick: number];
  readonly gap: readonly [shallow: number, deep: number];
  readonly core: number;
  readonly air: number;
  readonly easier: number;
}

const dragOf = ({ stretches }: Shaped['feed']) => stretches.reduce((sum, { drag }) => sum + drag, 0);

/** What changes are expected of a part that stops in itself, share 1, and of one that stops for the channels, share 0, in ln. */
function expected({ stiff, shaped }: Bench) {
  const { feed, easiest = feed } = shaped;
  const ways = feed.stretches.length > 0 ? Math.log(dragOf(feed) / dragOf(easiest)) : 0;
  return {
    hot: (own: number) => 0.25 * stiff * own,
    core: (own: number) => 0.22 - 0.1 * own,
    easier: (own: number) => 0.75 * ways * (1 - own),
  };
}

function changesOf(bench: Bench, known: readonly KnownCritical[], scale: FreezeScale): Changes[] {
  const { theta, parts, cavity, shaped } = bench;
  const vary = (variant: Variant, guess: (part: number) => number) => changes(bench, known, variant, guess);
  const none = () => 0;
  const [cold, warm] = [COLD_END, WARM_END].map((end) =>
    vary({ theta: end }, () => freezeSquare(scale, end) - freezeSquare(scale, theta)),
  ) as [number[], number[]];
  const [shallowCut, deepCut] = GAPS;
  const byGap = (gap: number, n: number) => 3 * Math.log(1 + gap / middleGap(cavity, parts[n]!.cells));
  const deep = vary({ gap: deepCut }, (n) => byGap(deepCut, n));
  // How much of what a deeper cut should bring comes about: as much of the part's end is its own.
  const own = deep.map((change, n) => Math.min(1, Math.max(0, change / byGap(deepCut, n))));
  const shallow = vary({ gap: shallowCut }, (n) => own[n]! * byGap(shallowCut, n));
  const guess = expected(bench);
  const hot = vary({ stiff: 0 }, (n) => guess.hot(own[n]!));
  const [slow, quick] = [0.5, 2].map((flow) => vary({ flow }, none)) as [number[], number[]];
  const core = vary({ closing: 'fresh core' }, (n) => guess.core(own[n]!));
  const air = shaped.feed.airResistance ? vary({ air: 0 }, none) : parts.map(none);
  const easier = shaped.easiest
    ? vary({ feed: shaped.easiest }, (n) => guess.easier(own[n]!))
    : parts.map(none);
  return parts.map((_, n) => ({
    ...{ cold: cold[n]!, warm: warm[n]!, hot: hot[n]!, flow: [slow[n]!, quick[n]!] },
    ...{ gap: [shallow[n]!, deep[n]!], core: core[n]!, air: air[n]!, easier: easier[n]! },
  }));
}

/** What the coarse grid tells of a part. */
interface Rough {
  readonly known: KnownCritical;
  readonly changes: Changes;
}

/** Parts with at least so many cells are looked at on the coarse grid: six or more of its own. */
const ENOUGH_CELLS = 24;

/** The grids agree when their stiffest melts differ by no more than this, in ln. */
const AGREED = 0.3;

/** Parts that show on a grid of twice the pitch, worked out there at a tenth of the cost. */
function roughly({ shaped, shot, parts }: Bench, scale: FreezeScale): Map<string, Rough> {
  const cavity = coarseCavity(shaped.cavity);
  const wide = parts.filter(({ cells }) => cells.length >= ENOUGH_CELLS);
  if (!cavity || wide.length === 0) return new Map();
  const bench = benchOf({ ...shaped, cavity }, shot, new Set(wide.map(({ name }) => name)));
  const known = nominal(bench);
  const all = changesOf(bench, known, scale);
  return new Map(bench.parts.map(({ name }, n) => [name, { known: known[n]!, changes: all[n]! }]));
}

/** A part's stiffest melt, in ln, and its changes. */
interface Worked {
  readonly at: number;
  readonly changes: Changes;
}

/**
 * Parts that the coarse grid tells the changes of: they have enough cells, and both grids nearly agree on the stiffest melt.
 */
function settled(bench: Bench, trials: Trials, scale: FreezeScale): Map<string, Worked> {
  const found = new Map<string, Worked>();
  for (const [name, { known, changes: told }] of roughly(bench, scale)) {
    const part = bench.parts.findIndex((one) => one.name === name);
    const at = closerCritical(trials, part, bench.parts[part]!.cells.length, known);
    if (Math.abs(at - known.at) <= AGREED) found.set(name, { at, changes: told });
  }
  return found;
}

/** Every part: the narrow ones, which a coarse grid does not show, on the fine grid alone. */
function worked(bench: Bench, scale: FreezeScale): Worked[] {
  const trials = trialsOf(bench, {});
  const known = settled(bench, trials, scale);
  const narrow = { ...bench, parts: bench.parts.filter(({ name }) => !known.has(name)) };
  const criticals = nominal(narrow, bench, trials);
  const told = changesOf(narrow, criticals, scale);
  narrow.parts.forEach(({ name }, n) => known.set(name, { at: criticals[n]!.at, changes: told[n]! }));
  return bench.parts.map(({ name }) => known.get(name)!);
}

function drivesOf(bench: Bench, thetas: readonly number[], scale: FreezeScale): PartDrive[] {
  const { shot, stiff, parts } = bench;
  const square = (at: number) => freezeSquare(scale, at);
  const group = Math.log((arrheniusViscosity(shot.viscosity, shot.melt) * shot.diffusivity) / shot.pressure);
  return worked(bench, scale).map(({ at: critical, changes: change }, n) => {
    const at = (end: number, by: number) => critical + group + by - square(end);
    return {
      name: parts[n]!.name,
      drive: thetas.map((node) =>
        node === COLD_END ? at(node, change.cold) : node === WARM_END ? at(node, change.warm) : at(node, 0),
      ),
      cooling: stiff > 0 ? Math.max(0, change.hot / stiff) : 0,
      flow: [Math.min(0, change.flow[0]), Math.max(0, change.flow[1])],
      gap: [Math.min(0, change.gap[0]), Math.max(0, change.gap[1])],
      core: Math.max(0, change.core),
      air: Math.max(0, change.air),
      easier: Math.max(0, change.easier),
    };
  });
}

/**
 * Tabulates the reserves of a cavity's parts, so that bands, windows and other set-ups cost nothing.
 *
 * @param shaped - cavity, parts and channels
 * @param shot - nominal conditions [SI]; `gap` and `closing` are taken as 0
 * @returns table for `fillReserve`
 * @throws {RangeError} as `cutCavity` and `fillCavity`
 *
 * Each part's stiffest melt is settled on the grid itself. How it changes with the conditions is worked out on a grid of
 * twice the pitch, where a run costs a tenth, as long as that grid shows the part: it has 24 cells or more, and the
 * stiffest melts of both grids differ by no more than 0.3 in ln.
 *
 * Valid: as `fillCavity`; see `fillReserve` for its error. Changes from two grids and from one differ by 0.03 in ln at most
 * for thirteen parts of nine molds, 0.005 on the mean; by up to 0.15 for legs of 26 to 42 cells, which jump from short to full
 * within a bracket of 0.1 there.
 * Cost: 2 filling runs a part, and 15 to 25 on the coarse grid: 0.1 to 0.3 s of one core; up to 0.3 s more for each part that
 * only the fine grid shows.
 * Source: own derivation, see `fillReserve`.
 */
export function tabulatedReserve(shaped: Shaped, shot: ShotConditions): ReserveTable {
  const scale = freezeScale();
  const bench = benchOf(shaped, shot);
  const { theta, stiff } = bench;
  const thetas = [WARM_END, theta, COLD_END];
  const uniform = freezeConstantUniform('slot', theta) / freezeConstant('slot', theta);
  return {
    ...{ thetas, scale, stiffening: stiff, flow: shot.flow / shot.diffusivity, gaps: GAPS },
    gateAge: 2 * Math.log(uniform),
    parts: drivesOf(bench, thetas, scale),
  };
}
