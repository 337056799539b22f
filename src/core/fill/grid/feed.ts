import { ATMOSPHERE } from '../../vent/tiers.ts';
import { openFraction, type Closing } from '../open-fraction.ts';

/** One stretch of channel between injector and cavity. */
export interface FeedStretch {
  /** Resistance when open, a pascal second of viscosity [1/m³]. */
  readonly drag: number;
  /** Thickness or diameter, for its closing [m]. */
  readonly thickness: number;
  readonly round: boolean;
}

/** Hand, injector and channels before the gate. */
export interface GridFeed {
  /** Most that the hand gives at the injector [Pa]. */
  readonly pressure: number;
  /** Most that the hand delivers to this cavity [m³/s]; Infinity for none. */
  readonly flowLimit: number;
  /** Sprue, runner and gate, in series; a part shared by n alike cavities counts with n times its drag. */
  readonly stretches: readonly FeedStretch[];
  /** Of the way out for the air of this cavity [Pa·s/m³]; none when left out. */
  readonly airResistance?: number;
}

/**
 * Resistance of the channels before the gate, closing from the start of the shot.
 *
 * @param feed - stretches
 * @param closings - tables of slot and round channels
 * @param thermal - α·t since the start [m²]
 * @param viscosity - of the melt [Pa·s]
 * @returns [Pa·s/m³]; Infinity once a stretch is shut
 *
 * Valid: as `closing`.
 * Cost: one look-up a stretch.
 * Source: Poiseuille flow in series.
 */
export function feedResistance(
  feed: GridFeed,
  closings: { readonly slot: Closing; readonly round: Closing },
  thermal: number,
  viscosity: number,
): number {
  return feed.stretches.reduce((sum, { drag, thickness, round }) => {
    const open = openFraction(round ? closings.round : closings.slot, (4 * thermal) / thickness ** 2);
    return sum + (drag * viscosity) / open ** (round ? 4 : 3);
  }, 0);
}

/**
 * Flow that hand, channels, cavity and air let through.
 *
 * @param feed - limits of the hand and the way out for air
 * @param resistance - channels and cavity up to the front [Pa·s/m³]
 * @returns flow [m³/s]; 0 when all is shut
 *
 * Valid: quasi-steady.
 * Cost: constant.
 * Source: pressures in series; `backPressure` put in and solved for the flow.
 */
export function gateFlow(feed: GridFeed, resistance: number): number {
  const air = feed.airResistance ?? 0;
  const most = Math.min(feed.flowLimit, feed.pressure / resistance);
  if (!(most > 0)) return 0;
  if (air === 0) return most;
  const driven = feed.pressure + ATMOSPHERE;
  const half = driven * (resistance + air);
  const rest = resistance * (resistance + 2 * air) * feed.pressure * (feed.pressure + 2 * ATMOSPHERE);
  const flow = (feed.pressure * (feed.pressure + 2 * ATMOSPHERE)) / (half + Math.sqrt(half * half - rest));
  return Math.min(feed.flowLimit, flow);
}
