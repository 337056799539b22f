import type { Band } from '../quantity/band.ts';
import { needPositive } from '../quantity/guard.ts';
import type { FeatureMeasure } from '../section/geometry.ts';
import { featureSize } from './difference.ts';

/** A size of a thin part taken on a cured bait with a caliper [m]. */
export interface Caliper {
  readonly at: 'root' | 'tip' | 'length' | 'width';
  readonly value: number;
  /** Either way. */
  readonly tolerance: number;
}

/**
 * Whether a caliper and the solid disagree.
 *
 * @param feature - as measured on the solid [m]
 * @param caliper - as taken on the bait [m]
 * @param cutting - cutting tolerance of the cavity, either way [m]
 * @returns true when the two bands have nothing in common
 * @throws {RangeError} when the value is not positive
 *
 * Cost: linear in the stations.
 * Source: definition.
 */
export function caliperDisagrees(feature: FeatureMeasure, caliper: Caliper, cutting: Band): boolean {
  needPositive('caliperDisagrees', { value: caliper.value });
  const solid = featureSize(feature, caliper.at);
  return (
    caliper.value + caliper.tolerance < solid + cutting.low ||
    caliper.value - caliper.tolerance > solid + cutting.high
  );
}

/** Factors on thickness at root and tip, on length and on width. */
function factors(feature: FeatureMeasure, calipers: readonly Caliper[]) {
  const of = (at: Caliper['at']) => {
    const found = calipers.find((caliper) => caliper.at === at);
    return found ? found.value / featureSize(feature, at) : null;
  };
  const [root, tip] = [of('root'), of('tip')];
  return {
    root: root ?? tip ?? 1,
    tip: tip ?? root ?? 1,
    length: of('length') ?? 1,
    width: of('width') ?? 1,
  };
}

/**
 * A thin part with its sizes taken from calipers instead of the solid.
 *
 * Between root and tip the thickness is carried over in proportion; one thickness alone moves both ends alike.
 *
 * @param feature - as measured on the solid [m]
 * @param calipers - sizes that replace those of the solid [m]
 * @returns the part with its profile scaled [m]
 * @throws {RangeError} when a value is not positive
 *
 * Valid: a bait that came out evenly thinner or thicker than it was drawn.
 * Cost: linear in the stations.
 * Source: definition.
 */
export function withCalipers(feature: FeatureMeasure, calipers: readonly Caliper[]): FeatureMeasure {
  for (const { value } of calipers) needPositive('withCalipers', { value });
  if (calipers.length === 0) return feature;
  const factor = factors(feature, calipers);
  const thick = (s: number) => factor.root + ((factor.tip - factor.root) * s) / feature.length;
  const stations = feature.stations.map((station) => ({
    ...station,
    s: station.s * factor.length,
    thickness: station.thickness * thick(station.s),
    width: station.width * factor.width,
  }));
  const tip = {
    thickness: feature.tipThickness * factor.tip,
    at: feature.stations.at(-1)?.at ?? feature.thinnest.at,
  };
  const thinnest = [...stations, tip].reduce((least, one) => (one.thickness < least.thickness ? one : least));
  return {
    ...feature,
    length: feature.length * factor.length,
    stations,
    rootThickness: feature.rootThickness * factor.root,
    tipThickness: tip.thickness,
    thinnest: { thickness: thinnest.thickness, at: thinnest.at },
  };
}
