import type { Box, Vec3 } from '../mesh/mesh.ts';
import type { BoxTree } from './box-tree.ts';
import type { FeatureMeasure } from './geometry.ts';
import { apart, middleLineOf, type MiddleLine } from './middle-line.ts';
import { frameAcross, obliqueSection, pointOf } from './oblique.ts';
import { partAt, type SectionPart } from './part.ts';

/** A feature to measure along a middle line that is known. */
export interface LineRequest {
  readonly name: string;
  readonly kind: FeatureMeasure['kind'];
  /** From root to tip [m]. */
  readonly middleLine: readonly Vec3[];
  /** The part begins and ends where its middle enters and leaves this box [m]; left out, where the solid says. */
  readonly within?: Box | undefined;
}

/** A section across the middle line, measured when asked for [m, m²]. */
interface Across {
  readonly s: number;
  readonly part: SectionPart;
  readonly at: Vec3;
}

/** Stations of the first look along the line, and of the answer. */
const LOOKS = 48;
const STATIONS = 25;

/** The section at the line's beginning is taken this far along it: there, a plane may graze the body [1]. */
const FOOT = 1e-4;

/** A part whose √area grows faster than this along its line is no longer the feature but what it stands on [1]. */
const FLARE = 1.2;

/** And by this factor of its area from one look to the next, lest a short rib's own crown be taken for that [1]. */
const LEAP = 1.15;

/** At a pointed tip, this part of the length counts as the rounding of the end. */
const POINT = 1 / 200;

/** A part shorter than its own thickness is measured this far along at least, its middle at half of it [1]. */
const STUB = 0.8;

/**
 * A thin part measured on the solid along its middle line: sections across the line, in each the part that holds
 * the line, its thickness the largest circle in it.
 *
 * The root is where the part, seen from its tip, leaps into the body (√area grows by more than 1.2 m a metre) or enters its
 * box; the tip is where sections end. Stations run evenly from the root to half a local thickness short of the tip, where its rounding begins.
 *
 * @param tree - boxes over the closed mesh [m]
 * @param request - name, kind, and middle line from root to tip [m], inside the part
 * @returns lengths [m]; `s` counts from the root
 * @throws {RangeError} when the line does not run through the solid for at least half of its length
 *
 * Valid: parts whose middle line bends no tighter than their width. Thickness within 0.1 % of the section's.
 * Cost: some 100 sections; some 70 ms in a mesh of 100 000 triangles.
 * Source: own derivation; thickness as T. Hildebrand and P. Rüegsegger, J. Microscopy 185 (1997), in the section.
 */
export function measureFeature(tree: BoxTree, request: LineRequest): FeatureMeasure {
  const { name, kind } = request;
  const line = middleLineOf(request.middleLine, request.within);
  const looks = look(tree, line);
  if (looks.length < LOOKS / 2) {
    throw new RangeError(
      `${name}: wants a middle line inside the solid, got one that runs through it at ${looks.length} of ${LOOKS + 1} places`,
    );
  }
  const root = request.within ? rootInBox(looks, line) : rootOf(looks);
  const end = endOf(tree, line, looks.at(-1)!.s);
  const short = (share: number) => shortOf(tree, line, root, end, share);
  const round = short(0.5);
  const tip = short(1);
  const stations = Array.from({ length: STATIONS }, (_, i) => {
    const s = root + ((round.s - root) * i) / (STATIONS - 1);
    return i === STATIONS - 1 ? round : stationAt(tree, line, s);
  }).filter((station) => station !== null);
  const thinnest = [...stations, tip].reduce((least, station) =>
    station.part.thickness < least.part.thickness ? station : least,
  );
  return {
    name,
    kind,
    length: end - root,
    stations: stations.map(({ s, part: { thickness, width }, at }) => ({
      s: s - root,
      thickness,
      width,
      at,
    })),
    rootThickness: stations[0]!.part.thickness,
    tipThickness: tip.part.thickness,
    thinnest: { thickness: thinnest.part.thickness, at: thinnest.at },
  };
}

/**
 * The section across a middle line at one arc length.
 *
 * @param tree - boxes over the closed mesh [m]
 * @param line - middle line [m]
 * @param s - arc length [m]
 * @returns the part that holds the line and its middle [m]; null where it runs outside
 *
 * Cost: one section.
 * Source: as `measureFeature`.
 */
export function acrossAt(tree: BoxTree, line: MiddleLine, s: number): Across | null {
  const point = line.pointAt(s);
  if (!line.covers(point)) return null;
  const frame = frameAcross(point, line.directionAt(s));
  const part = partAt(obliqueSection(tree, frame), [0, 0]);
  return part && { part, s, at: pointOf(frame, ...part.centroid) };
}

/** As `acrossAt`, at the very beginning of the line a little further along. */
function stationAt(tree: BoxTree, line: MiddleLine, s: number): Across | null {
  const section = acrossAt(tree, line, Math.max(s, FOOT * line.length));
  return section && { ...section, s };
}

/** Even looks along the line, from its root until the solid ends. */
function look(tree: BoxTree, line: MiddleLine): Across[] {
  const looks = Array.from({ length: LOOKS + 1 }, (_, i) => stationAt(tree, line, (line.length * i) / LOOKS));
  const own = looks.slice(looks.findIndex((section) => section !== null));
  const gap = own.indexOf(null);
  return own.slice(0, gap < 0 ? undefined : gap).filter((section) => section !== null);
}

/** Arc length of the first section from the root that belongs to the feature, not to the body it stands on. */
function rootOf(looks: readonly Across[]): number {
  const half = looks.length >> 1;
  for (let i = half; i > 0; i--) {
    const [inner, outer] = [looks[i - 1]!, looks[i]!];
    const growth = Math.sqrt(inner.part.area) - Math.sqrt(outer.part.area);
    if (growth > FLARE * (outer.s - inner.s) && inner.part.area > LEAP * outer.part.area) return outer.s;
  }
  return looks[0]!.s;
}

/** The box says where the root is; only sections that graze the body, their middle far from the line, are passed over. */
function rootInBox(looks: readonly Across[], line: MiddleLine): number {
  const own = looks.find(({ s, at, part }) => apart(at, line.pointAt(s)) <= part.thickness / 2);
  return (own ?? looks[0]!).s;
}

/** Arc length at which the solid ends, beyond a place where it still is. */
function endOf(tree: BoxTree, line: MiddleLine, last: number): number {
  const step = line.length / LOOKS;
  let inside = last;
  let outside = last + step;
  for (let i = 0; i < LOOKS / 4 && acrossAt(tree, line, outside); i++) {
    inside = outside;
    outside += step;
  }
  for (let halving = 0; halving < 14; halving++) {
    const middle = (inside + outside) / 2;
    if (acrossAt(tree, line, middle)) inside = middle;
    else outside = middle;
  }
  return inside;
}

/** The section `share` of its own thickness short of the end: at a pointed end `POINT` of the length, of a stub less. */
function shortOf(tree: BoxTree, line: MiddleLine, root: number, end: number, share: number): Across {
  const enough = (section: Across | null): section is Across =>
    section !== null &&
    end - section.s >=
      Math.min(Math.max(share * section.part.thickness, POINT * (end - root)), share * STUB * (end - root));
  let found: Across | null = null;
  let [inside, outside] = [root, end];
  for (let back = POINT * (end - root); back < end - root; back *= 1.3) {
    const section = acrossAt(tree, line, end - back);
    if (enough(section)) {
      [found, inside] = [section, section.s];
      break;
    }
    outside = end - back;
  }
  for (let halving = 0; found && halving < 8; halving++) {
    const section = acrossAt(tree, line, (inside + outside) / 2);
    if (enough(section)) [found, inside] = [section, section.s];
    else outside = (inside + outside) / 2;
  }
  const fallback = found ?? stationAt(tree, line, root);
  if (!fallback)
    throw new RangeError('measureFeature: wants a solid along its middle line, got none at its root');
  return fallback;
}
