import { freezeConstant, freezeConstantUniform } from '../freeze-constant.ts';
import { arrheniusViscosity, GAS_CONSTANT } from '../viscosity.ts';
import { cutCavity, type Cavity } from './cavity.ts';
import {
  criticalViscosities,
  knownCritical,
  shiftedCritical,
  viscosityTrials,
  type KnownCritical,
  type Trials,
} from './critical-viscosity.ts';
import type { FeatureCells } from './feature-cells.ts';
import type { GridFeed } from './feed.ts';
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
  readonly map: CavityMap;
  /** Entries of the map that the gate opens into. */
  readonly gate: readonly number[];
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
  const { shaped, shot, cavity } = bench;
  const own = variant.gap ? cutCavity(deepened(shaped.map, variant.gap), shaped.gate) : cavity;
  const features = variant.gap ? shaped.partsOf(own) : bench.parts;
  const melt = meltAt(shot, variant.theta ?? bench.theta, variant.stiff ?? bench.stiff);
  const closing = variant.closing ?? 'own age';
  return viscosityTrials(own, { ...melt, closing }, feedOf(bench, variant), { features });
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
    const { at, slope } = known[n]!;
    return shiftedCritical(trials, n, cells.length, { at: at + guess(n), slope }) - at;
  });
}

/** ln of every part's stiffest melt at the gate, relative to the shot's own. */
function nominal(bench: Bench): KnownCritical[] {
  const { cavity, shot, theta, stiff, parts: features } = bench;
  const melt = meltAt(shot, theta, stiff);
  const stiffest = criticalViscosities(cavity, melt, feedOf(bench, {}), { features, tolerance: 0.03 });
  const trials = trialsOf(bench, {});
  return stiffest.map((viscosity, n) => {
    const at = Math.log(viscosity / melt.viscosity.reference);
    return knownCritical(trials, n, features[n]!.cells.length, at);
  });
}

function drivesOf(bench: Bench, thetas: readonly number[], scale: FreezeScale): PartDrive[] {
  const { shot, theta, stiff, parts, cavity } = bench;
  const known = nominal(bench);
  const vary = (variant: Variant, guess: (part: number) => number = () => 0) =>
    changes(bench, known, variant, guess);
  const square = (at: number) => freezeSquare(scale, at);
  const [cold, warm] = [COLD_END, WARM_END].map((end) =>
    vary({ theta: end }, () => square(end) - square(theta)),
  ) as [number[], number[]];
  const hot = vary({ stiff: 0 }, () => 0.25 * stiff);
  const [slow, quick] = [0.5, 2].map((flow) => vary({ flow })) as [number[], number[]];
  const [shallow, deep] = GAPS.map((gap) =>
    vary({ gap }, (n) => 3 * Math.log(1 + gap / middleGap(cavity, parts[n]!.cells))),
  ) as [number[], number[]];
  const core = vary({ closing: 'fresh core' }, () => 0.1);
  const air = bench.shaped.feed.airResistance ? vary({ air: 0 }) : parts.map(() => 0);
  const { easiest } = bench.shaped;
  const easier = easiest ? vary({ feed: easiest }) : parts.map(() => 0);
  const group = Math.log((arrheniusViscosity(shot.viscosity, shot.melt) * shot.diffusivity) / shot.pressure);
  return parts.map(({ name }, n) => {
    const base = known[n]!.at + group;
    const at = (end: number, change: number) => base + change - square(end);
    return {
      name,
      drive: thetas.map((node) =>
        node === COLD_END ? at(node, cold[n]!) : node === WARM_END ? at(node, warm[n]!) : at(node, 0),
      ),
      cooling: stiff > 0 ? Math.max(0, hot[n]! / stiff) : 0,
      flow: [Math.min(0, slow[n]!), Math.max(0, quick[n]!)],
      gap: [Math.min(0, shallow[n]!), Math.max(0, deep[n]!)],
      core: Math.max(0, core[n]!),
      air: Math.max(0, air[n]!),
      easier: Math.max(0, easier[n]!),
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
 * Valid: as `fillCavity`; see `fillReserve` for its error.
 * Cost: some 20 filling runs a part: 1 to 4 s of one core.
 * Source: own derivation, see `fillReserve`.
 */
export function tabulatedReserve(shaped: Shaped, shot: ShotConditions): ReserveTable {
  const scale = freezeScale();
  const theta = Math.min(0.68, Math.max(0.35, shotTheta(shot)));
  const cavity = cutCavity(shaped.map, shaped.gate);
  const stiff = stiffening(shot);
  const bench: Bench = { shaped, shot, theta, stiff, cavity, parts: shaped.partsOf(cavity) };
  const thetas = [WARM_END, theta, COLD_END];
  const uniform = freezeConstantUniform('slot', theta) / freezeConstant('slot', theta);
  return {
    ...{ thetas, scale, stiffening: stiff, flow: shot.flow / shot.diffusivity, gaps: GAPS },
    gateAge: 2 * Math.log(uniform),
    parts: drivesOf(bench, thetas, scale),
  };
}
