import type { Vec3 } from '../mesh/mesh.ts';
import type { FeatureMeasure } from '../section/geometry.ts';

/** One size of a thin part in two revisions [m]. */
export interface Change {
  readonly from: number;
  readonly to: number;
}

/** A thin part that two revisions share, matched by name [m]. */
export interface FeatureDifference {
  readonly name: string;
  readonly kind: FeatureMeasure['kind'];
  readonly sizes: Readonly<Record<FeatureSize, Change>>;
  /** How far its root has moved. */
  readonly moved: Vec3;
}

/** What is compared: thickness at root and tip, the thinnest place, length, and the widest section. */
export type FeatureSize = 'root' | 'tip' | 'thinnest' | 'length' | 'width';

/** What differs between the thin parts of two revisions. */
export interface FeatureDifferences {
  readonly both: readonly FeatureDifference[];
  /** Only in the later one. */
  readonly added: readonly FeatureMeasure[];
  /** Only in the earlier one. */
  readonly removed: readonly FeatureMeasure[];
}

/**
 * One size of a thin part.
 *
 * @param feature - as measured on the solid [m]
 * @param size - which one
 * @returns size [m]; the width is that of the widest station
 *
 * Cost: linear in the stations.
 * Source: definition.
 */
export function featureSize(feature: FeatureMeasure, size: FeatureSize): number {
  switch (size) {
    case 'root':
      return feature.rootThickness;
    case 'tip':
      return feature.tipThickness;
    case 'thinnest':
      return feature.thinnest.thickness;
    case 'length':
      return feature.length;
    case 'width':
      return Math.max(...feature.stations.map(({ width }) => width));
  }
}

const SIZES: readonly FeatureSize[] = ['root', 'tip', 'thinnest', 'length', 'width'];

function difference(before: FeatureMeasure, after: FeatureMeasure): FeatureDifference {
  const change = (size: FeatureSize) => ({ from: featureSize(before, size), to: featureSize(after, size) });
  const [from, to] = [before, after].map(({ stations }) => stations[0]?.at ?? [0, 0, 0]) as [Vec3, Vec3];
  return {
    name: after.name,
    kind: after.kind,
    sizes: Object.fromEntries(SIZES.map((size) => [size, change(size)])) as FeatureDifference['sizes'],
    moved: [to[0] - from[0], to[1] - from[1], to[2] - from[2]],
  };
}

/**
 * What differs between the thin parts of two revisions, each measured on its own solid.
 *
 * @param before - parts of the earlier one [m]
 * @param after - parts of the later one [m]
 * @returns parts that both have, with both sizes [m], in the order of the later one; and those that only one has
 *
 * Valid: parts keep their names from revision to revision.
 * Cost: linear in the stations.
 * Source: definition.
 */
export function featureDifferences(
  before: readonly FeatureMeasure[],
  after: readonly FeatureMeasure[],
): FeatureDifferences {
  const partner = (parts: readonly FeatureMeasure[], name: string) =>
    parts.find((part) => part.name === name);
  return {
    both: after.flatMap((part) => {
      const earlier = partner(before, part.name);
      return earlier ? [difference(earlier, part)] : [];
    }),
    added: after.filter(({ name }) => !partner(before, name)),
    removed: before.filter(({ name }) => !partner(after, name)),
  };
}
