import { needPositive } from '../quantity/guard.ts';
import type { FeatureMeasure } from '../section/geometry.ts';
import { bodyBow, type SideBody } from './side-body.ts';
import type { HookForm } from './hook-form.ts';

/** What keeps a rigged bait from lying straight. */
export type Kink =
  /** The body's own middle line bows away from the shank by this much [m]. */
  | { readonly cause: 'bow'; readonly size: number }
  /** The eye sits this far from where the nose wants it [m]. */
  | { readonly cause: 'step'; readonly size: number }
  /** A feature's root lies where shank or point goes through the skin, at this station from the nose [m]. */
  | { readonly cause: 'root'; readonly feature: string; readonly at: number }
  /** The bend lies in the tail, which begins at this station from the nose [m]. */
  | { readonly cause: 'tail'; readonly feature: string; readonly at: number };

/** A bow or a step of more than this share of the body height is worth a word: estimate. */
const WORTH_SAYING = 0.15;

const TAILS: ReadonlySet<FeatureMeasure['kind']> = new Set(['curl-tail', 'ribbon-tail', 'paddle']);
const LIMBS: ReadonlySet<FeatureMeasure['kind']> = new Set(['arm', 'claw', 'leg', 'fin']);

type Rooted = Pick<FeatureMeasure, 'name' | 'kind' | 'stations'>;

const rootOf = ({ stations }: Rooted, nose: number): number => (stations[0]?.at[0] ?? nose) - nose;

/**
 * Where the tail of a bait begins.
 *
 * @param features - named thin parts, measured
 * @param nose - foremost station of the bait [m]
 * @returns the foremost root of a curl tail, ribbon tail or paddle, from the nose [m]; undefined without one
 *
 * Cost: linear in the features.
 * Source: definition.
 */
export function tailRootStation(features: readonly Rooted[], nose: number): number | undefined {
  const roots = features.filter(({ kind }) => TAILS.has(kind)).map((feature) => rootOf(feature, nose));
  return roots.length > 0 ? Math.min(...roots) : undefined;
}

/** What is asked about a rigged bait [m]. */
export interface Rigged {
  readonly body: SideBody;
  readonly form: HookForm;
  readonly gape: number;
  /** Stations from the nose: entry, point, end of the bend. */
  readonly entry: number;
  readonly point: number;
  readonly reach: number;
  readonly features: readonly Rooted[];
}

/**
 * What forces a kink into a rigged bait.
 *
 * @param rigged - body, hook as it lies, stations from the nose [m], thin parts
 * @returns causes, the gravest first; none when the bait lies straight by itself
 * @throws {RangeError} when the gape is not positive
 *
 * Valid: hooks that lie along the body; one through the nose kinks nothing.
 * Cost: some twenty stations of the body.
 * Source: common practice: a bait that is not straight spins; the limit of 15 % of the height is an estimate.
 */
export function kinks(rigged: Rigged): Kink[] {
  const { body, form, gape, entry, point, reach, features } = rigged;
  needPositive('kinks', { gape });
  if (form.lie === 'through the nose') return [];
  const nose = body.nose[0];
  const at = Math.min(point, body.length);
  const height = body.backAt(nose + at) - body.bellyAt(nose + at);
  // A threaded hook bends outside the body: only its point must keep clear of the tail.
  const far = form.lie === 'threaded' ? point : reach;
  const found: Kink[] = [];
  for (const feature of features) {
    const root = rootOf(feature, nose);
    if (TAILS.has(feature.kind) && far > root) found.push({ cause: 'tail', feature: feature.name, at: root });
    if (LIMBS.has(feature.kind) && Math.abs(root - point) < gape / 2) {
      found.push({ cause: 'root', feature: feature.name, at: root });
    }
  }
  if (form.strain > WORTH_SAYING * height) found.push({ cause: 'step', size: form.strain });
  const bow = at > entry ? bodyBow(body, entry, at) : 0;
  if (bow > WORTH_SAYING * height) found.push({ cause: 'bow', size: bow });
  return found;
}
