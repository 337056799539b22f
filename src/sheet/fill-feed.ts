import { coneDrag, rectangleSection, roundSection } from '../core/fill/channel-flow.ts';
import type { GridFeed } from '../core/fill/grid/feed.ts';
import { runnerPaths, type RunnerStretch } from '../core/solid/runner-path.ts';
import { parallelResistance, tierResistance } from '../core/vent/tiers.ts';
import type { Case } from './case.ts';
import { COLD_MOLD } from './practice.ts';

/** The channels before one cavity. */
export type CavityFeed = Pick<GridFeed, 'stretches' | 'airResistance'>;

/** A cavity's way in, and the one that is easiest. */
export interface Feeds {
  /** Of the cavity that is hardest to reach: reserves are worked out for it. */
  readonly worst: CavityFeed;
  readonly best: CavityFeed;
  /** Number of the hardest cavity as it is counted in the listing. */
  readonly cavity: number;
  /** True when some cavities lie farther from the sprue than others. */
  readonly uneven: boolean;
}

type Vents = Case['mold']['vents'];

/** Resistance of the air's way out of a cavity: rows of a tier side by side, tiers in series; 0 without vents [Pa·s/m³]. */
export function airResistance(vents: Vents, temperature: number, wear = 0): number {
  const tiers = [...new Set(vents.map(({ tier }) => tier))].map((tier) =>
    vents
      .filter((row) => row.tier === tier)
      .map((row) =>
        tierResistance({ ...row, depth: Math.max(row.depth / 2, row.depth + wear) }, temperature),
      ),
  );
  return tiers.reduce((sum, rows) => sum + parallelResistance(rows), 0);
}

/** Air in a vent: half-way between melt and mold [K]. */
export function airTemperature({ gateTemperature }: Pick<Case, 'gateTemperature'>): number {
  return (gateTemperature.value + COLD_MOLD.value) / 2;
}

const dragOf = ({ stretches }: CavityFeed) => stretches.reduce((sum, { drag }) => sum + drag, 0);

function feedOf(given: Case, path: readonly RunnerStretch[], scale: number): CavityFeed {
  const { mold } = given;
  const { sprue, runner, gate } = mold;
  const [mouth, end] = [sprue.mouth / 2, sprue.end / 2];
  const n = mold.cavities.length;
  const across = runner ? roundSection(runner.diameter / 2).drag : 0;
  return {
    airResistance: airResistance(mold.vents, airTemperature(given)),
    stretches: [
      {
        drag: coneDrag(mouth, end, sprue.length) * n,
        thickness: Math.min(sprue.mouth, sprue.end),
        round: true,
      },
      ...path.map(({ length, shared }) => ({
        drag: across * length * scale * shared,
        thickness: runner?.diameter ?? sprue.end,
        round: true,
      })),
      {
        drag: rectangleSection(gate.width, gate.depth).drag * gate.length,
        thickness: Math.min(gate.width, gate.depth),
        round: false,
      },
    ],
  };
}

/** The ways into the cavities of a mold, through the runner tree as it lies. */
export function cavityFeeds(given: Case): Feeds {
  const { layout, runner } = given;
  const scale = runner && layout.runnerLength > 0 ? runner.length / layout.runnerLength : 1;
  const feeds = runnerPaths(layout).map((path) => feedOf(given, path, scale));
  const drags = feeds.map(dragOf);
  const [least, most] = [Math.min(...drags), Math.max(...drags)];
  const worst = drags.indexOf(most);
  return {
    worst: feeds[worst]!,
    best: feeds[drags.indexOf(least)]!,
    cavity: worst + 1,
    uneven: most > 1.01 * least,
  };
}
