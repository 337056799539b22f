import { positive } from '../quantity/guard.ts';
import { bisect } from '../numeric/root.ts';
import { closing, openFraction, type Closing } from './open-fraction.ts';
import { profileStretches, type ProfileStation, type SectionForm, type Stretch } from './profile.ts';

/**
 * How old a wetted stretch is taken to be: `own age` from when the front passed it (nominal), `gate age` as old as
 * the root (low end), `fresh core` from when the front passed it but with a core that stays hot (high end).
 */
export type Ageing = 'own age' | 'gate age' | 'fresh core';

/** A thin part to be filled from its root. */
export interface ThinPart {
  readonly stations: readonly ProfileStation[];
  readonly form: SectionForm;
  readonly ageing: Ageing;
  /** Dimensionless no-flow temperature [1]; below 0.005 it is taken as 0.005, above 0.985 nothing flows. */
  readonly theta: number;
}

/** What pushes the melt in. */
export interface RootFeed {
  /** At the feed, constant [Pa]. */
  readonly pressure: number;
  /** Of the melt [Pa·s]. */
  readonly viscosity: number;
  /** α [m²/s]. */
  readonly diffusivity: number;
  /** Most the hand delivers [m³/s]; no limit when left out. */
  readonly flowLimit?: number;
  /** Resistance between feed and root, a pascal second of viscosity [1/m³]; none when left out. */
  readonly feedDrag?: number;
}

/** Where a front got to. */
export interface FrontStop {
  readonly filled: boolean;
  /** From the root [m]. */
  readonly distance: number;
  /** Until it was full; when it stops, until the front entered the stretch it stopped in [s]. */
  readonly time: number;
  /** Pressure at the feed at that moment [Pa]. */
  readonly pressure: number;
}

const LEAST_THETA = 0.005;
const MOST_THETA = 0.985;

interface March {
  readonly stretches: readonly Stretch[];
  readonly slot: Closing;
  readonly round: Closing;
  readonly gateAge: boolean;
}

/** Open share of a stretch after a time, times its share of roundness; both laws on their own clock. */
function stretchResistance(march: March, stretch: Stretch, thermalAge: number): number {
  const { roundness, halfSquared, drag } = stretch;
  if (thermalAge <= 0) return drag;
  if (roundness === 0) {
    const open = openFraction(march.slot, thermalAge / halfSquared);
    return drag / (open * open * open);
  }
  const clock = (1 - roundness) * march.slot.shut + roundness * march.round.shut;
  const spent = thermalAge / halfSquared / clock;
  const flat = openFraction(march.slot, spent * march.slot.shut);
  const open = flat + (openFraction(march.round, spent * march.round.shut) - flat) * roundness;
  return drag / open ** (3 + roundness);
}

function prepared(part: ThinPart, cells: number): March {
  const theta = Math.max(LEAST_THETA, Math.min(MOST_THETA, part.theta));
  const stretches = profileStretches(part.stations, part.form, cells);
  const slot = closing(part.ageing === 'fresh core' ? 'fresh core' : 'slot', theta);
  const round = part.form === 'slot' ? slot : closing('round', theta);
  return { stretches, slot, round, gateAge: part.ageing === 'gate age' };
}

/** Marches the front in the clock α·t [m²] under a drive P/(μα) [1/m²]; flow limit as Q/α [m]. */
function marched(march: March, drive: number, flowLimit: number, feedDrag: number) {
  const { stretches, gateAge } = march;
  const entered: number[] = [];
  const resistance = (front: number, clock: number): number => {
    let sum = feedDrag + 0.5 * (stretches[front] as Stretch).drag;
    for (let i = 0; i < front; i++) {
      const age = gateAge ? clock : clock - (entered[i] as number);
      sum += stretchResistance(march, stretches[i] as Stretch, age);
    }
    return sum;
  };
  const flowAt = (front: number, clock: number) => Math.min(flowLimit, drive / resistance(front, clock));
  let clock = 0;
  for (let front = 0; front < stretches.length; front++) {
    const { volume } = stretches[front] as Stretch;
    const early = flowAt(front, clock);
    const middle = clock + (0.5 * volume) / early;
    const flow = early > 0 ? flowAt(front, middle) : 0;
    if (!(flow > 0)) return { reached: front, clock, push: drive };
    entered.push(middle);
    clock += volume / flow;
  }
  const last = stretches.length - 1;
  const full = resistance(last, clock) + 0.5 * (stretches[last] as Stretch).drag;
  return { reached: stretches.length, clock, push: Math.min(drive, flowLimit * full) };
}

/**
 * Marches a front from the root of a thin part towards its tip, every wetted stretch closing as it cools.
 *
 * @param part - stations [m], section form, ageing, θ [1]
 * @param feed - pressure [Pa], viscosity [Pa·s], diffusivity [m²/s], flow limit [m³/s], feed drag [1/m³]
 * @param cells - stretches marched over [1]
 * @returns whether it fills, distance [m], time [s] and feed pressure [Pa]
 * @throws {RangeError} when a measure or property is not positive
 *
 * Valid: lubrication flow at one viscosity; pressure at the feed constant unless the flow limit governs.
 * Cost: `cells`² look-ups: about 1 ms at 300; distance is exact to one stretch, second order in time.
 * Source: own derivation from plane and elliptic Poiseuille flow with conduction, Carslaw & Jaeger (1959), 3.3.
 */
export function frontReach(part: ThinPart, feed: RootFeed, cells = 300): FrontStop {
  const pressure = positive('frontReach: pressure', feed.pressure);
  const diffusivity = positive('frontReach: diffusivity', feed.diffusivity);
  const scale = positive('frontReach: viscosity', feed.viscosity) * diffusivity;
  const length = (part.stations.at(-1)?.s ?? 0) - (part.stations[0]?.s ?? 0);
  if (part.theta > MOST_THETA) return { filled: false, distance: 0, time: 0, pressure };
  const limit = (feed.flowLimit ?? Infinity) / diffusivity;
  const result = marched(prepared(part, cells), pressure / scale, limit, feed.feedDrag ?? 0);
  return {
    filled: result.reached === cells,
    distance: (result.reached / cells) * length,
    time: result.clock / diffusivity,
    pressure: result.push * scale,
  };
}

function leastDrive(march: March): number {
  const fills = (log: number) =>
    marched(march, Math.exp(log), Infinity, 0).reached === march.stretches.length ? 1 : -1;
  let high = Math.log(1e10);
  while (fills(high) < 0) high += 4;
  let low = high - 4;
  while (fills(low) > 0) low -= 4;
  return Math.exp(bisect(fills, low, low + 4, 14));
}

/**
 * Least drive P/(μα) at the root with which a thin part just fills: a property of its shape and of θ alone.
 *
 * @param part - stations [m], section form, ageing, θ [1]
 * @param cells - stretches marched over [1]
 * @returns P/(μα) [1/m²]; Infinity when nothing flows at this θ
 * @throws {RangeError} when a measure is not positive
 *
 * Valid: constant pressure at the root. Reserve follows as √(P/(μα)/result), so bands over pressure, viscosity and
 * diffusivity need it only once.
 * Cost: about 40 marches, 12 ms at 160 cells; within 0.5 % (first order in the cells, extrapolated from two counts).
 * Source: own derivation: the marching equations hold only P/(μα), θ and the shape.
 */
export function criticalDrive(part: ThinPart, cells = 160): number {
  if (part.theta > MOST_THETA) return Infinity;
  const fine = 1 / Math.sqrt(leastDrive(prepared(part, cells)));
  const coarse = 1 / Math.sqrt(leastDrive(prepared(part, Math.round(cells / 2))));
  return 1 / (2 * fine - coarse) ** 2;
}

/**
 * Fill reserve of a thin part at constant root pressure: how many times longer it could be, its taper stretched
 * alike, and still fill.
 *
 * @param part - stations [m], section form, ageing, θ [1]
 * @param feed - pressure [Pa], viscosity [Pa·s], diffusivity [m²/s]
 * @param cells - stretches marched over [1]
 * @returns reach over length [1]: above 1 it fills; times the length it is the reach
 * @throws {RangeError} when a measure or property is not positive
 *
 * Valid: no flow limit. Stretching by λ multiplies every resistance and every volume by λ, which acts like λ² less
 * pressure; hence the square root.
 * Cost: as `criticalDrive`.
 * Source: own derivation.
 */
export function fillReserve(
  part: ThinPart,
  feed: Pick<RootFeed, 'pressure' | 'viscosity' | 'diffusivity'>,
  cells = 160,
): number {
  positive('fillReserve: pressure', feed.pressure);
  positive('fillReserve: viscosity', feed.viscosity);
  const drive = feed.pressure / (feed.viscosity * positive('fillReserve: diffusivity', feed.diffusivity));
  return Math.sqrt(drive / criticalDrive(part, cells));
}

/**
 * Fill reserve of a thin part when the feed is limited in flow or has a resistance of its own.
 *
 * @param part - stations [m], section form, ageing, θ [1]
 * @param feed - pressure [Pa], viscosity [Pa·s], diffusivity [m²/s], flow limit [m³/s], feed drag [1/m³]
 * @param cells - stretches marched over [1]
 * @returns the largest stretch of the part's length that still fills [1], between 0.001 and 1000
 * @throws {RangeError} when a measure or property is not positive
 *
 * Valid: as `frontReach`; longer never fills easier.
 * Cost: about 40 marches; within 0.5 % (extrapolated from two counts of cells).
 * Source: own derivation, root found by halving.
 */
export function limitedFillReserve(part: ThinPart, feed: RootFeed, cells = 160): number {
  const fine = longestStretch(part, feed, cells);
  const coarse = longestStretch(part, feed, Math.round(cells / 2));
  return Math.min(1e3, Math.max(1e-3, 2 * fine - coarse));
}

function longestStretch(part: ThinPart, feed: RootFeed, cells: number): number {
  const fills = (log: number) => {
    const stretch = Math.exp(log);
    const stations = part.stations.map((station) => ({ ...station, s: station.s * stretch }));
    return frontReach({ ...part, stations }, feed, cells).filled ? 1 : -1;
  };
  const [low, high] = [Math.log(1e-3), Math.log(1e3)];
  if (fills(low) < 0) return 1e-3;
  return fills(high) > 0 ? 1e3 : Math.exp(bisect(fills, low, high, 18));
}
