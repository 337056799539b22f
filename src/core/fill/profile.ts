import { ellipseEigenvalue } from '../heat/cooling-time.ts';
import { positive } from '../quantity/guard.ts';
import { interpolate } from '../numeric/root.ts';
import type { FeatureMeasure } from '../section/geometry.ts';
import { ellipseSection, slotSection } from './channel-flow.ts';

/** One station of a thin part, from its root (s = 0) to its tip [m]. */
export interface ProfileStation {
  readonly s: number;
  /** Smaller measure of the section. */
  readonly thickness: number;
  /** Larger measure of the section. */
  readonly width: number;
}

/** Section between its measures: flat with square edges, or an oval. */
export type SectionForm = 'slot' | 'oval';

/** A stretch of a thin part, ready for marching. */
export interface Stretch {
  /** Melt that fills it [m³]. */
  readonly volume: number;
  /** Resistance when open, a pascal second of viscosity [1/m³]. */
  readonly drag: number;
  /** Half the thickness, squared [m²]. */
  readonly halfSquared: number;
  /** 0 closes like a slot, 1 like a round channel [1]. */
  readonly roundness: number;
}

/**
 * How round an oval closes, by its rate of cooling.
 *
 * @param flatness - small over large axis [1], above 0 up to 1
 * @returns 0 for a flat one to 1 for a circle [1]
 * @throws {RangeError} when `flatness` is not in (0, 1]
 *
 * Valid: between the two limits an interpolation (estimate).
 * Cost: constant.
 * Source: first eigenvalue as `ellipseEigenvalue`.
 */
export function ovalRoundness(flatness: number): number {
  const [flat, round, own] = [Math.PI ** 2 / 4, ellipseEigenvalue(1), ellipseEigenvalue(flatness)];
  return (1 / flat - 1 / own) / (1 / flat - 1 / round);
}

function stretchAt(station: ProfileStation, length: number, form: SectionForm): Stretch {
  const thickness = positive('profile: thickness', Math.min(station.thickness, station.width));
  const width = positive('profile: width', Math.max(station.thickness, station.width));
  const section = form === 'slot' ? slotSection(width, thickness) : ellipseSection(width / 2, thickness / 2);
  const roundness = form === 'slot' ? 0 : ovalRoundness(thickness / width);
  return {
    volume: section.area * length,
    drag: section.drag * length,
    halfSquared: thickness ** 2 / 4,
    roundness,
  };
}

/**
 * Cuts a thin part into equal stretches, measured in the middle of each.
 *
 * @param stations - two or more, `s` rising [m]
 * @param form - section between thickness and width
 * @param count - how many stretches [1]
 * @returns stretches from root to tip: volume [m³], drag [1/m³]
 * @throws {RangeError} when there are fewer than two stations or a measure is not positive
 *
 * Valid: thickness and width change slowly along the part.
 * Cost: linear in `count`.
 * Source: lubrication approximation; sections as `slotSection`, `ellipseSection`.
 */
export function profileStretches(
  stations: readonly ProfileStation[],
  form: SectionForm,
  count: number,
): Stretch[] {
  const places = stations.map(({ s }) => s);
  const length = positive('profile: length', (places.at(-1) ?? 0) - (places[0] ?? 0));
  const thicknesses = stations.map(({ thickness }) => thickness);
  const widths = stations.map(({ width }) => width);
  return Array.from({ length: count }, (_, i) => {
    const s = (places[0] as number) + ((i + 0.5) / count) * length;
    const thickness = interpolate(places, thicknesses, s);
    return stretchAt({ s, thickness, width: interpolate(places, widths, s) }, length / count, form);
  });
}

/**
 * Stations of a measured feature without the rounding of its very end, which would count as infinitely thin.
 *
 * @param feature - as measured on the solid [m]
 * @returns stations of the same length; nowhere thinner than the feature's thinnest part
 *
 * Cost: linear.
 * Source: definition.
 */
export function featureProfile(feature: Pick<FeatureMeasure, 'stations' | 'thinnest'>): ProfileStation[] {
  const least = feature.thinnest.thickness;
  return feature.stations.map(({ s, thickness, width }) => ({
    s,
    thickness: Math.max(thickness, least),
    width: Math.max(width, least),
  }));
}
