import { caliperDisagrees, withCalipers, type Caliper } from '../core/revision/caliper.ts';
import { featureSize } from '../core/revision/difference.ts';
import { band } from '../core/quantity/band.ts';
import { figureInput, type FigureInput } from '../core/quantity/figure.ts';
import { printedBoth } from '../core/quantity/print.ts';
import type { BaitGeometry, FeatureMeasure } from '../core/section/geometry.ts';
import type { CaliperEntry, Revision } from '../schema/bait.ts';
import { CALIPER_TOLERANCE, GAP_TOLERANCE } from './practice.ts';
import { featureLabel } from './words.ts';

/** A caliper reading beside the solid. */
export interface CaliperReading {
  readonly label: string;
  readonly read: FigureInput;
  readonly solid: FigureInput;
  readonly agrees: boolean;
  /** True when the figures take the reading. */
  readonly used: boolean;
}

const PLACES: Readonly<Record<CaliperEntry['at'], string>> = {
  root: 'thickness at the root',
  tip: 'thickness at the tip',
  length: 'length',
  width: 'widest width',
};

function caliperOf({ at, value, tolerance = CALIPER_TOLERANCE.high }: CaliperEntry): Caliper {
  return { at, value, tolerance };
}

function readingOf(feature: FeatureMeasure, entry: CaliperEntry): CaliperReading {
  const caliper = caliperOf(entry);
  const { value, tolerance } = caliper;
  const solid = featureSize(feature, entry.at);
  const cut = band(solid, solid + GAP_TOLERANCE.low, solid + GAP_TOLERANCE.high);
  return {
    label: `${featureLabel(feature)}, ${PLACES[entry.at]}`,
    read: figureInput('caliper', band(value, value - tolerance, value + tolerance), '[mil_i]'),
    solid: figureInput('solid', cut, '[mil_i]'),
    agrees: !caliperDisagrees(feature, caliper, GAP_TOLERANCE),
    used: entry.use,
  };
}

/** Every caliper reading of a revision beside its solid. */
export function caliperReadings(solid: BaitGeometry, { measured }: Revision): CaliperReading[] {
  return measured.flatMap((entry) => {
    const feature = solid.features.find(({ name }) => name === entry.feature);
    return feature ? [readingOf(feature, entry)] : [];
  });
}

/** For the maker: readings that the solid contradicts. */
export function caliperWarnings(readings: readonly CaliperReading[]): string[] {
  return readings
    .filter(({ agrees }) => !agrees)
    .map(
      ({ label, read, solid }) =>
        `the caliper reads ${printedBoth(read, 'us')} on the ${label}, the solid has ${printedBoth(solid, 'us')}: measure again, or correct the drawing`,
    );
}

/** A geometry whose thin parts take the readings that are marked for use. */
export function calipered(solid: BaitGeometry, { measured }: Revision): BaitGeometry {
  if (!measured.some(({ use }) => use)) return solid;
  const features = solid.features.map((feature) =>
    withCalipers(
      feature,
      measured.filter(({ use, feature: name }) => use && name === feature.name).map(caliperOf),
    ),
  );
  return { ...solid, features };
}
