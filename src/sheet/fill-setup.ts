import type { SetupCompound, SetupData } from '../core/fill/setup.ts';
import { compoundDensity, hotDensity } from '../core/shot/compound-density.ts';
import { handPressure } from '../core/mold/clamp.ts';
import { wholeShots } from '../core/shot/injector-fit.ts';
import type { Band } from '../core/quantity/band.ts';
import type { Entry, Plastisol } from '../schema/collections.ts';
import type { Case } from './case.ts';
import { calibrated, shortShotsOf } from './fill-calibration.ts';
import { cavityFeeds } from './fill-feed.ts';
import { compoundInputs, fillSetting, meltEffusivity } from './fill-inputs.ts';
import type { HeatStudy } from './heat-study.ts';
import { pourBand } from './pour.ts';
import type { Sheet } from './sheet.ts';
import { FILL_TIME, GAP_TOLERANCE, HAND_FORCE, TRANSFER_LOSS } from './practice.ts';

/** What a set-up is answered from, but the grid, which the filling model holds. */
export type SetupFacts = Omit<SetupData, 'grid' | 'plan' | 'table' | 'labels'>;

const plain = ({ value, low, high }: Band): Band => ({ value, low, high });

function compoundOf(entry: Entry<Plastisol>): SetupCompound {
  const plastisol = calibrated(entry);
  const hot = hotDensity(plastisol.density ?? compoundDensity(plastisol.recipe)).value;
  const { low, nominal, high } = pourBand(plastisol);
  return {
    id: entry.id,
    name: entry.name,
    bands: compoundInputs(plastisol),
    shortShots: shortShotsOf(plastisol),
    effusivity: meltEffusivity(plastisol, hot),
    pour: { low, nominal, high },
  };
}

/** What a customer's own set-up is answered from. */
export function setupFacts(given: Case, heat: HeatStudy): SetupFacts {
  const { catalogue, shot, mold, plastisol, pushedWith } = given;
  const { volume, effusivity } = fillSetting(given);
  return {
    title: mold.name,
    feed: cavityFeeds(given).worst,
    volume,
    moldEffusivity: effusivity.mold,
    compounds: catalogue.plastisols.map(compoundOf),
    injectors: [...catalogue.injectors]
      .sort((a, b) => a.capacity - b.capacity)
      .map(({ id, name, piston, capacity }) => ({
        ...{ id, name },
        pressure: handPressure(piston, HAND_FORCE),
        holds: wholeShots(shot.total, capacity) >= 1,
      })),
    bands: { gap: plain(GAP_TOLERANCE), push: plain(FILL_TIME), loss: plain(TRANSFER_LOSS) },
    cycle: heat.cycle,
    own: {
      ...{ compound: plastisol.id, injector: pushedWith.id },
      ...(mold.warmTo !== undefined && { mold: mold.warmTo }),
    },
  };
}

/** Outlines are thinned to this before they go into a file [m]. */
const COARSE = 1e-4;

const rounded = (metres: number, step: number) => Number((Math.round(metres / step) * step).toFixed(6));

/** Everything that a set-up of a mold is answered from. */
export function setupData({
  filling,
  features,
  geometry,
}: Pick<Sheet, 'filling' | 'features' | 'geometry'>): SetupData {
  const { grid, table } = filling.model;
  const { map, gate } = grid;
  const micrometres = (values: Float64Array) => Array.from(values, (metres) => Math.round(metres * 1e6));
  const { nx, ny, x0, y0, cell } = map;
  const labelOf = (name: string) => features.find((feature) => feature.name === name)?.label ?? name;
  return {
    ...filling.setup,
    ...{ table, labels: table.parts.map(({ name }) => labelOf(name)) },
    grid: {
      ...{ nx, ny, x0, y0, cell, gate },
      height: micrometres(map.height),
      thickness: micrometres(map.thickness ?? new Float64Array(map.height.length)),
    },
    plan: geometry.plan.map((ring) => {
      const points = ring.map(([x, y]) => [rounded(x, COARSE), rounded(y, COARSE)] as const);
      return points.filter(([x, y], n) => n === 0 || x !== points[n - 1]![0] || y !== points[n - 1]![1]);
    }),
  };
}
